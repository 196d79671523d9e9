//! A broken TOML text cut into statements, so that one slip does not spoil its neighbours: each heading and each
//! `key = value`, over several lines where its brackets say so.

use std::ops::Range;

/// The statements of a text, in order; together they cover it but for blank lines and comments at its very beginning.
pub(super) fn statements(text: &str) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut scan = Scan::default();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.len();
        if scan.within_text().is_none()
            && (begins(line) || (scan.depth == 0 && says_something(line)))
        {
            found.push(at..end);
            scan = Scan::default();
        } else if let Some(last) = found.last_mut() {
            last.end = end;
        }
        scan.read(line, &text[end..]);
        at = end;
    }
    found
}

/// Joins `statements[from]` with as many followers as it takes to make it read; none where that never happens.
pub(super) fn joined(text: &str, statements: &[Range<usize>], from: usize) -> Option<usize> {
    let start = statements[from].start;
    let open = opens_bracket(&text[statements[from].clone()]);
    let ends = statements
        .iter()
        .enumerate()
        .skip(from + 1)
        .take(MOST_JOINED);
    let mut ends =
        ends.take_while(|(_, statement)| heading_name(&text[(*statement).clone()]).is_none());
    ends.find(|(_, statement)| {
        open && toml::de::DeTable::parse(&text[start..statement.end]).is_ok()
    })
    .map(|(index, _)| index)
}

/// More lines than any set in curly brackets has.
const MOST_JOINED: usize = 20;

fn opens_bracket(statement: &str) -> bool {
    let mut scan = Scan::default();
    scan.read(statement, "");
    scan.depth > 0
}

/// The name in a heading, even where its brackets do not match; none where the line is no heading.
pub(super) fn heading_name(line: &str) -> Option<&str> {
    let line = line.trim();
    let inside = line.strip_prefix('[')?.trim_start_matches('[').trim_start();
    let end = inside.find(|c: char| !is_bare(c)).unwrap_or(inside.len());
    let (name, rest) = inside.split_at(end);
    let rest = rest.trim_start().trim_start_matches([']', ' ', '\t']);
    (!name.is_empty()
        && (rest.is_empty()
            || rest.starts_with('#')
            || rest.starts_with('\n')
            || rest.starts_with('\r')))
    .then_some(name)
}

/// The key before the `=`, trimmed, where the line has one outside quotes.
pub(super) fn key_before_equals(line: &str) -> Option<&str> {
    let (key, _) = line.split_once('=')?;
    let key = key.trim();
    let sound = |c: char| is_bare(c) || matches!(c, ' ' | '\t' | '.' | '"' | '\'');
    (!key.is_empty() && key.chars().all(sound)).then_some(key)
}

fn is_bare(c: char) -> bool {
    c.is_ascii_alphanumeric() || c == '_' || c == '-'
}

fn begins(line: &str) -> bool {
    heading_name(line.lines().next().unwrap_or_default()).is_some()
        || key_before_equals(line).is_some()
}

fn says_something(line: &str) -> bool {
    let line = line.trim();
    !line.is_empty() && !line.starts_with('#')
}

/// Where a scan along the lines stands: how many brackets are open, and whether it is inside a text of several lines.
#[derive(Default)]
struct Scan {
    depth: usize,
    within: Option<&'static str>,
}

impl Scan {
    fn within_text(&self) -> Option<&'static str> {
        self.within
    }

    fn read(&mut self, line: &str, after: &str) {
        let mut rest = line;
        loop {
            rest = match self.within {
                Some(quotes) => match rest.split_once(quotes) {
                    Some((_, behind)) => {
                        self.within = None;
                        behind
                    }
                    None => return,
                },
                None => match self.step(rest, after) {
                    Some(behind) => behind,
                    None => return,
                },
            };
        }
    }

    /// One step outside texts of several lines: to behind the next quote or bracket.
    fn step<'l>(&mut self, rest: &'l str, after: &str) -> Option<&'l str> {
        let at = rest.find(['"', '\'', '[', '{', ']', '}', '#'])?;
        let here = &rest[at..];
        if let Some(quotes) = ["\"\"\"", "'''"]
            .into_iter()
            .find(|quotes| here.starts_with(quotes))
        {
            let behind = &here[quotes.len()..];
            // One that is never closed is a slip of its own line, not a text to the end of the book.
            if behind.contains(quotes) || after.contains(quotes) {
                self.within = Some(quotes);
                return Some(behind);
            }
            return None;
        }
        match here.as_bytes()[0] {
            b'[' | b'{' => self.depth += 1,
            b']' | b'}' => self.depth = self.depth.saturating_sub(1),
            b'#' => return here.find('\n').map(|end| &here[end..]),
            quote => return behind_text(here, quote),
        }
        Some(&here[1..])
    }
}

/// Behind a text of one line that begins here; behind its line where it is not closed.
fn behind_text(here: &str, quote: u8) -> Option<&str> {
    let mut escaped = false;
    for (at, byte) in here.bytes().enumerate().skip(1) {
        match byte {
            b'\n' => return Some(&here[at..]),
            _ if escaped => escaped = false,
            b'\\' if quote == b'"' => escaped = true,
            byte if byte == quote => return Some(&here[at + 1..]),
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<&str> {
        statements(text)
            .into_iter()
            .map(|range| text[range].trim_end())
            .collect()
    }

    #[test]
    fn each_heading_and_key_is_a_statement() {
        assert_eq!(
            cut("# b\na = 1\n\n[[x]] # c\nb = '[' # ]\n"),
            ["a = 1", "[[x]] # c", "b = '[' # ]"]
        );
    }

    #[test]
    fn lists_and_texts_over_lines_stay_together() {
        assert_eq!(
            cut("a = [\n  [1, 2],\n  [3, 4],\n]\nb = 2\n"),
            ["a = [\n  [1, 2],\n  [3, 4],\n]", "b = 2"]
        );
        assert_eq!(
            cut("a = \"\"\"\nb = 1\n[x]\n\"\"\"\nc = 3\n"),
            ["a = \"\"\"\nb = 1\n[x]\n\"\"\"", "c = 3"]
        );
    }

    #[test]
    fn an_open_list_ends_at_the_next_key_or_heading() {
        assert_eq!(
            cut("a = [\"b\",\nc = 1\nd = [\n[x]\n"),
            ["a = [\"b\",", "c = 1", "d = [", "[x]"]
        );
    }

    #[test]
    fn a_line_without_equals_is_its_own() {
        assert_eq!(
            cut("a = 1\nname \"b\"\nc = 2\n"),
            ["a = 1", "name \"b\"", "c = 2"]
        );
    }

    #[test]
    fn a_set_over_lines_is_joined_where_that_makes_it_read() {
        let text = "a = {\n  b = 1,\n  c = 2,\n}\nd = 3\n";
        let cut = statements(text);
        assert_eq!(joined(text, &cut, 0), Some(cut.len() - 2));
    }
}
