//! What kind of slip keeps a statement from reading, and what would be right.

use super::statements::key_before_equals;
use super::trouble::Slip;
use std::ops::Range;

/// A slip, with its place in the statement.
pub(super) struct Told {
    pub(super) slip: Slip,
    pub(super) place: Range<usize>,
    /// What would be right, where it can be told.
    pub(super) right: Option<String>,
    /// The key, where it can be told.
    pub(super) key: Option<String>,
    /// What the value may have meant, without quotes.
    pub(super) value: String,
}

/// Longest correction that is offered, characters.
const LONGEST: usize = 80;

/// Tells why a statement that is not TOML does not read.
pub(super) fn told(statement: &str) -> Told {
    let line = statement.lines().next().unwrap_or_default().trim_end();
    let indent = line.len() - line.trim_start().len();
    let whole = indent..line.len();
    let Some(key) = key_before_equals(line) else {
        let slip = if line.split('#').next().unwrap_or(line).contains('=') {
            Slip::Other
        } else {
            Slip::NoEquals
        };
        return Told {
            slip,
            place: whole,
            right: None,
            key: first_word(line),
            value: String::new(),
        };
    };
    let equals = line.find('=').unwrap_or(line.len());
    if key.contains([' ', '\t']) && !key.contains(['"', '\'']) {
        let right = key.split_whitespace().collect::<Vec<_>>().join("-");
        return Told {
            slip: Slip::KeyInTwoWords,
            place: indent..indent + key.len(),
            right: Some(right.clone()),
            key: Some(right),
            value: String::new(),
        };
    }
    let value = line[equals + 1..].trim_start();
    let at = line.len() - value.len();
    let (slip, right) = of_value(value);
    let place = if slip == Slip::NoValue {
        whole
    } else {
        at..at + shown(slip, value).len()
    };
    let right = right.filter(|right| right.chars().count() <= LONGEST);
    Told {
        slip,
        place,
        right,
        key: Some(key.trim_matches(['"', '\'']).to_owned()),
        value: bare(value).trim_matches(['"', '\'', ' ']).to_owned(),
    }
}

/// What is pointed at: without the comment behind it, unless the text is open and holds it.
fn shown(slip: Slip, value: &str) -> &str {
    if slip == Slip::OpenText {
        value
    } else {
        bare(value)
    }
}

/// Without the comment behind it.
fn bare(value: &str) -> &str {
    value.split(" #").next().unwrap_or(value).trim_end()
}

fn first_word(line: &str) -> Option<String> {
    line.split_whitespace().next().map(str::to_owned)
}

fn of_value(value: &str) -> (Slip, Option<String>) {
    match value.chars().next() {
        None | Some('#') => (Slip::NoValue, None),
        Some('[') => (Slip::List, None),
        Some('{') => (Slip::Set, None),
        Some(quote @ ('"' | '\'')) => of_text(value, quote),
        Some(_) => (Slip::NoQuotes, Some(quoted(bare(value)))),
    }
}

fn of_text(value: &str, quote: char) -> (Slip, Option<String>) {
    let Some(close) = closing(value, quote) else {
        return (Slip::OpenText, Some(format!("{value}{quote}")));
    };
    let behind = value[close + 1..].trim();
    if behind.is_empty() || behind.starts_with('#') {
        let slip = if quote == '"' && value.contains('\\') {
            Slip::Backslash
        } else {
            Slip::Other
        };
        let inside = &value[1..close];
        return (
            slip,
            (slip == Slip::Backslash && !inside.contains('\'')).then(|| format!("'{inside}'")),
        );
    }
    match value.rfind(quote).filter(|last| *last > close) {
        Some(last) => (Slip::QuoteInText, Some(quoted(&value[1..last]))),
        None => {
            let whole = bare(&value[1..]);
            let both = whole.contains('"') && whole.contains('\'');
            let right = feet_and_inches(whole).filter(|_| both);
            (Slip::LeftOver, right.map(|right| quoted(&right)))
        }
    }
}

/// The byte of the quote that closes a text.
fn closing(value: &str, quote: char) -> Option<usize> {
    let mut escaped = false;
    value.char_indices().skip(1).find_map(|(at, c)| {
        let closes = c == quote && !escaped;
        escaped = c == '\\' && quote == '"' && !escaped;
        closes.then_some(at)
    })
}

/// The text in quotes that let it stand as it is; with both quotes in it, feet and inches in letters, else the inner ones escaped.
fn quoted(text: &str) -> String {
    match (text.contains('"'), text.contains('\'')) {
        (true, true) => feet_and_inches(text).map_or_else(
            || format!("\"{}\"", text.replace('\\', r"\\").replace('"', "\\\"")),
            |measure| format!("\"{measure}\""),
        ),
        (true, false) => format!("'{text}'"),
        _ => format!("\"{text}\""),
    }
}

/// `6'2"` as `6 ft 2 in`: where every quote stands behind a digit.
fn feet_and_inches(text: &str) -> Option<String> {
    let mut written = String::new();
    for c in text.chars() {
        let unit = match c {
            '\'' => " ft ",
            '"' => " in ",
            other => {
                written.push(other);
                continue;
            }
        };
        if !written.trim_end().ends_with(|c: char| c.is_ascii_digit()) {
            return None;
        }
        written += unit;
    }
    Some(written.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_offered_is_toml_and_reads() {
        for statement in [
            "min = '6'2\"'",
            "min = 6'2 1/2\"",
            "min = 3/4\"",
            "how = 'Jo's \"way\"'",
            "how = 'a\\b's \"c\"'",
            "how = \"a\\q\"",
            "name = \"A",
            "name = Jo's",
        ] {
            let right = told(statement).right.unwrap();
            let mended = format!("key = {right}\n");
            assert!(toml::de::DeTable::parse(&mended).is_ok(), "{mended}");
        }
        let read = quantity::parse("6 ft 2 in", &quantity::Habits::default(), None);
        assert!(read.is_ok(), "{read:?}");
    }

    fn slip_of(statement: &str) -> (Slip, String, Option<String>) {
        let told = told(statement);
        (told.slip, statement[told.place].to_owned(), told.right)
    }

    #[test]
    fn each_slip_is_told_with_its_place_and_what_would_be_right() {
        let right = |text: &str| Some(text.to_owned());
        assert_eq!(
            slip_of("name = \"A"),
            (Slip::OpenText, "\"A".into(), right("\"A\""))
        );
        assert_eq!(
            slip_of("min = \"3/4\"\""),
            (Slip::QuoteInText, "\"3/4\"\"".into(), right("'3/4\"'"))
        );
        assert_eq!(
            slip_of("min = 3/4 in"),
            (Slip::NoQuotes, "3/4 in".into(), right("\"3/4 in\""))
        );
        assert_eq!(
            slip_of("min = 3/4\" # c"),
            (Slip::NoQuotes, "3/4\"".into(), right("'3/4\"'"))
        );
        for feet in [
            "min = '6'2\"'",
            "min = \"6'2\"\"",
            "min = 6'2\"",
            "min = '6'2\"",
        ] {
            let (_, _, offered) = slip_of(feet);
            assert_eq!(offered, right("\"6 ft 2 in\""), "{feet}");
        }
        let (_, _, offered) = slip_of("how = 'Jo's \"way\"'");
        assert_eq!(offered, right("\"Jo's \\\"way\\\"\""));
        assert_eq!(
            slip_of("how = \"a\\q\""),
            (Slip::Backslash, "\"a\\q\"".into(), right("'a\\q'"))
        );
        assert_eq!(slip_of("at = [1, 2"), (Slip::List, "[1, 2".into(), None));
        assert_eq!(slip_of("x = {a = 1"), (Slip::Set, "{a = 1".into(), None));
        assert_eq!(
            slip_of("  name \"A\""),
            (Slip::NoEquals, "name \"A\"".into(), None)
        );
        assert_eq!(slip_of("name ="), (Slip::NoValue, "name =".into(), None));
        assert_eq!(
            slip_of("upper mark = true"),
            (
                Slip::KeyInTwoWords,
                "upper mark".into(),
                right("upper-mark")
            )
        );
        assert_eq!(
            slip_of("count = \"2\" of them"),
            (Slip::LeftOver, "\"2\" of them".into(), None)
        );
    }
}
