//! The small changes that can be made to a formula: one wrong sign, factor or choice at a time.

use crate::code::{close_of, line_of, program};

/// One change to a file's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Mutant {
    /// Where the change begins, in bytes.
    pub(crate) at: usize,
    /// How many bytes go.
    pub(crate) length: usize,
    /// What comes instead.
    pub(crate) with: String,
    /// The line, counted from 1.
    pub(crate) line: usize,
    /// The change in words.
    pub(crate) what: String,
    /// True for a guard moved by a hair, on real numbers often no change at all, and for what a refusal tells
    /// about its limits: shown, not counted.
    pub(crate) edge: bool,
}

impl Mutant {
    /// The file's text with this change made.
    pub(crate) fn applied_to(&self, text: &str) -> String {
        format!(
            "{}{}{}",
            &text[..self.at],
            self.with,
            &text[self.at + self.length..]
        )
    }
}

/// Every mutant of a file, in order: inside functions and constants, never in comments, leaves or tests.
pub(crate) fn mutants(text: &str) -> Vec<Mutant> {
    let code = without_leaves(&program(text));
    let (guards, refusals) = (conditions(&code), refusals(&code));
    let within = |spans: &[(usize, usize)], at: usize| {
        spans
            .iter()
            .any(|(start, end)| (*start..*end).contains(&at))
    };
    let mut found = Vec::new();
    for (start, end) in regions(&code) {
        for at in start..end {
            if code.is_char_boundary(at) {
                changes_at(&code, at, &mut found);
            }
        }
    }
    for mutant in &mut found {
        let number = code[mutant.at..].starts_with(|c: char| c.is_ascii_digit());
        mutant.edge |= within(&refusals, mutant.at) || (number && within(&guards, mutant.at));
    }
    found
}

/// Words that stand for each other: the wrong one of two.
const SWAPS: [(&str, &str, bool); 20] = [
    (" + ", " - ", false),
    (" - ", " + ", false),
    (" * ", " / ", false),
    (" / ", " * ", false),
    (" += ", " -= ", false),
    (" -= ", " += ", false),
    (" *= ", " /= ", false),
    (" < ", " >= ", false),
    (" > ", " <= ", false),
    (" <= ", " > ", false),
    (" >= ", " < ", false),
    (" < ", " <= ", true),
    (" > ", " >= ", true),
    (" <= ", " < ", true),
    (" >= ", " > ", true),
    (".min(", ".max(", false),
    (".max(", ".min(", false),
    ("libm::sin(", "libm::cos(", false),
    ("libm::cos(", "libm::sin(", false),
    ("libm::tan(", "libm::sin(", false),
];

fn changes_at(code: &str, at: usize, found: &mut Vec<Mutant>) {
    let mut add = |at: usize, length: usize, with: &str, edge: bool| {
        let was = &code[at..at + length];
        found.push(Mutant {
            at,
            length,
            with: with.to_owned(),
            line: line_of(code, at),
            what: format!("`{}` made `{}`", was.trim(), with.trim()),
            edge,
        });
    };
    for (from, to, edge) in SWAPS {
        // An operator at the start of a broken line has the line's indent before it.
        if code[at..].starts_with(from) {
            add(at, from.len(), to, edge);
        }
    }
    if is_lone_minus(code, at) {
        add(at, 1, " ", false);
    }
    if let Some(number) = number_at(code, at) {
        add(at, number.length, &number.instead, number.edge);
    }
}

/// A minus that turns a value's sign: nothing to subtract from stands before it.
fn is_lone_minus(code: &str, at: usize) -> bool {
    let after = code[at..]
        .strip_prefix('-')
        .and_then(|rest| rest.chars().next());
    let before = code[..at].trim_end();
    after.is_some_and(|next| next.is_alphanumeric() || next == '(' || next == '_')
        && (before.ends_with(|last| "(,=+-*/<>{[:|;".contains(last)) || before.ends_with("return"))
        && !before.ends_with("->")
}

struct Number {
    length: usize,
    instead: String,
    edge: bool,
}

/// A factor off by one hundredth, or a whole argument off by one.
fn number_at(code: &str, at: usize) -> Option<Number> {
    let rest = &code[at..];
    let before = code[..at].chars().next_back().unwrap_or(' ');
    if !rest.starts_with(|c: char| c.is_ascii_digit()) || before.is_alphanumeric() || before == '_'
    {
        return None;
    }
    // The field of a tuple is no number; the end of a range is.
    if before == '.' && !code[..at].ends_with("..") {
        return None;
    }
    let length = number_length(rest);
    let written = rest[..length].replace('_', "");
    let left = code[..at].trim_end();
    let right = rest[length..].trim_start();
    if written.contains(['.', 'e', 'E']) {
        let value: f64 = written.parse().ok()?;
        // A thousand-millionth is a slack for rounding, no factor.
        let edge = value <= 1e-9
            || left.ends_with(['<', '>'])
            || left.ends_with("<=")
            || left.ends_with(">=")
            || left.ends_with("..")
            || left.ends_with("..=")
            || ["<", ">", ".."].iter().any(|mark| right.starts_with(mark));
        return (value != 0.0).then(|| Number {
            length,
            instead: format!("{:?}", value * 1.01),
            edge,
        });
    }
    let whole: u64 = written.parse().ok()?;
    let argument = left.ends_with(['(', ',']) && right.starts_with([')', ',']);
    argument.then(|| Number {
        length,
        instead: (whole + 1).to_string(),
        edge: false,
    })
}

fn number_length(rest: &str) -> usize {
    let bytes = rest.as_bytes();
    let digits = |from: usize| {
        bytes[from..]
            .iter()
            .take_while(|byte| byte.is_ascii_digit() || **byte == b'_')
            .count()
    };
    let mut length = digits(0);
    let digit_at = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    if bytes.get(length) == Some(&b'.') && digit_at(length + 1) {
        length += 1 + digits(length + 1);
    }
    if matches!(bytes.get(length), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(length + 1), Some(b'-' | b'+')));
        if digit_at(length + 1 + sign) {
            length += 1 + sign + digits(length + 1 + sign);
        }
    }
    // `2.0_f64`: the mark of the type stays in the file.
    while bytes[..length].last() == Some(&b'_') {
        length -= 1;
    }
    length
}

/// The bodies of functions and the values of constants, as spans.
fn regions(code: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < code.len() {
        let Some((start, end)) = region_from(code, at) else {
            at += 1;
            continue;
        };
        found.push((start, end));
        at = end.max(at + 1);
    }
    found
}

fn region_from(code: &str, at: usize) -> Option<(usize, usize)> {
    let rest = code.get(at..)?;
    let fresh = at == 0 || !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
    if !fresh {
        return None;
    }
    if rest.starts_with("fn ") {
        let stop = stop_outside_brackets(code, at, b"{;")?;
        return code[stop..]
            .starts_with('{')
            .then(|| (stop, close_of(code, stop)));
    }
    if rest.starts_with("const ") || rest.starts_with("static ") {
        let stop = stop_outside_brackets(code, at, b"=;{")?;
        return code[stop..]
            .starts_with('=')
            .then(|| (stop + 1, end_of_value(code, stop + 1)));
    }
    None
}

/// Where one of these marks comes first, not counting what lies in brackets: the semicolon of `[f64; 4]` ends nothing.
fn stop_outside_brackets(code: &str, start: usize, marks: &[u8]) -> Option<usize> {
    let mut at = start;
    while at < code.len() {
        match code.as_bytes()[at] {
            b'[' | b'(' => at = close_of(code, at),
            byte if marks.contains(&byte) => return Some(at),
            _ => at += 1,
        }
    }
    None
}

fn end_of_value(code: &str, start: usize) -> usize {
    let mut at = start;
    while at < code.len() {
        match code.as_bytes()[at] {
            b'{' | b'(' | b'[' => at = close_of(code, at),
            b';' => return at,
            _ => at += 1,
        }
    }
    code.len()
}

/// The conditions of every `if` and `while`, as spans.
fn conditions(code: &str) -> Vec<(usize, usize)> {
    ["if ", "while "]
        .iter()
        .flat_map(|word| code.match_indices(word))
        .filter_map(|(start, word)| {
            let open = code[start + word.len()..].find('{')?;
            Some((start, start + word.len() + open))
        })
        .collect()
}

/// What is handed back where a formula refuses, as spans.
fn refusals(code: &str) -> Vec<(usize, usize)> {
    ["Err(", "ok_or("]
        .iter()
        .flat_map(|word| code.match_indices(word))
        .map(|(start, word)| (start, close_of(code, start + word.len() - 1)))
        .collect()
}

/// Blanks what declares the leaf, by macro or by hand, and every attribute.
fn without_leaves(code: &str) -> String {
    let mut out = code.to_owned();
    for mark in ["leaf!", "static LEAF", "const LEAF", "#[", "#!["] {
        let mut from = 0;
        while let Some(found) = out[from..].find(mark) {
            let start = from + found;
            let end = match mark {
                "static LEAF" | "const LEAF" => end_of_value(&out, start),
                _ => out[start..]
                    .find(['{', '(', '['])
                    .map_or(out.len(), |open| close_of(&out, start + open)),
            };
            let blank: String = out[start..end]
                .chars()
                .map(|c| if c == '\n' { '\n' } else { ' ' })
                .collect();
            out.replace_range(start..end, &blank);
            from = start + blank.len();
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn changes(text: &str) -> Vec<String> {
        mutants(text)
            .into_iter()
            .map(|mutant| mutant.applied_to(text))
            .collect()
    }

    #[test]
    fn each_operator_sign_and_factor_is_changed_once() {
        let all = changes("fn f(a: f64) -> f64 { -a + 2.0 * libm::sin(a) }");
        let expected = [
            "fn f(a: f64) -> f64 {  a + 2.0 * libm::sin(a) }",
            "fn f(a: f64) -> f64 { -a - 2.0 * libm::sin(a) }",
            "fn f(a: f64) -> f64 { -a + 2.02 * libm::sin(a) }",
            "fn f(a: f64) -> f64 { -a + 2.0 / libm::sin(a) }",
            "fn f(a: f64) -> f64 { -a + 2.0 * libm::cos(a) }",
        ];
        assert_eq!(all, expected);
    }

    #[test]
    fn an_operator_on_a_broken_line_is_changed_and_a_range_or_field_is_not() {
        assert_eq!(changes("fn f() { a\n        + b }").len(), 1);
        assert_eq!(
            changes("fn f() { for i in 0..n { x.0[1] } }"),
            Vec::<String>::new()
        );
        assert_eq!(
            changes("fn f() { power(a, 2) }"),
            ["fn f() { power(a, 3) }"]
        );
        assert_eq!(changes("fn f() { 1.5e-3 }"), ["fn f() { 0.001515 }"]);
    }

    #[test]
    fn a_guard_moved_by_a_hair_is_an_edge_and_a_guard_turned_round_is_not() {
        let all = mutants("fn f() { a < 2.0 }");
        let seen: Vec<_> = all
            .iter()
            .map(|mutant| (mutant.with.trim(), mutant.edge))
            .collect();
        assert_eq!(seen, [(">=", false), ("<=", true), ("2.02", true)]);
        assert!(mutants("fn f() { g(1e-9) }").iter().all(|slack| slack.edge));
    }

    #[test]
    fn what_a_refusal_tells_of_its_limits_is_an_edge_and_what_is_reckoned_is_not() {
        let all = mutants("fn f() { if a > b / 8.0 { return Err(R { high: b / 8.0 }); } a / b }");
        let counted: Vec<_> = all
            .iter()
            .filter(|mutant| !mutant.edge)
            .map(|m| m.what.as_str())
            .collect();
        assert_eq!(counted, ["`>` made `<=`", "`/` made `*`", "`/` made `*`"]);
    }

    #[test]
    fn comments_leaves_attributes_and_tests_are_left_alone() {
        let text = "//! a + b\nleaf! { bounds: (1.0, 2.0), of: a + b }\n#[doc(x = 1.0)]\nstatic LEAF: L = L { a: 1.0 * b };\n/// c * d\nconst G: f64 = 9.8;\n#[cfg(test)]\nmod tests { fn t() { a + b } }\n";
        let all = mutants(text);
        assert_eq!(all.len(), 1, "{all:?}");
        assert_eq!(all[0].line, 6);
        assert_eq!(all[0].what, "`9.8` made `9.898000000000001`");
    }

    #[test]
    fn a_table_is_changed_number_by_number() {
        assert_eq!(
            changes("const A: [[f64; 2]; 1] = [[1.0, 2.0]];"),
            [
                "const A: [[f64; 2]; 1] = [[1.01, 2.0]];",
                "const A: [[f64; 2]; 1] = [[1.0, 2.02]];"
            ]
        );
        let told = mutants("fn f() { a.ok_or(R { high: 2.0 * b }) }");
        assert!(told.len() == 2 && told.iter().all(|mutant| mutant.edge));
    }

    #[test]
    fn a_signature_is_no_place_for_a_mutant() {
        assert_eq!(
            changes("fn f<T: A + B>(a: [f64; 2]) -> T { g(a) }"),
            Vec::<String>::new()
        );
        assert_eq!(changes("fn f(a: [f64; 2]) -> [f64; 2] { a + b }").len(), 1);
    }
}
