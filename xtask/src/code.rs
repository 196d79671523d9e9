//! Rust source with everything that is not code blanked out.
//!
//! Blanking keeps every byte's place, so that an offset in the blanked text is an offset in the file.

/// The source with comments, and the insides of strings and characters, turned into spaces.
pub(crate) fn code_only(source: &str) -> String {
    let bytes = source.as_bytes();
    let mut out = bytes.to_vec();
    let mut at = 0;
    while at < bytes.len() {
        let end = match piece_at(bytes, at) {
            Some(Piece::Comment(end)) => {
                blank(&mut out, at, end);
                end
            }
            Some(Piece::Quoted { open, close, end }) => {
                blank(&mut out, open, close);
                end
            }
            None => at + 1,
        };
        at = end;
    }
    String::from_utf8_lossy(&out).into_owned()
}

/// Blanks every item marked `#[cfg(test)]`; takes code without comments and strings.
pub(crate) fn without_tests(code: &str) -> String {
    let mut out = code.as_bytes().to_vec();
    let mut from = 0;
    while let Some(found) = code[from..].find("#[cfg(test)]") {
        let start = from + found;
        let end = end_of_item(code, start);
        blank(&mut out, start, end);
        from = end;
    }
    String::from_utf8_lossy(&out).into_owned()
}

/// The code of a file that is in the program: no comments, no strings, no tests.
pub(crate) fn program(source: &str) -> String {
    without_tests(&code_only(source))
}

/// Where the braces, brackets or parentheses opening at `open` close (the offset after the closing one).
pub(crate) fn close_of(code: &str, open: usize) -> usize {
    let mut depth = 0usize;
    for (offset, byte) in code.bytes().enumerate().skip(open) {
        match byte {
            b'{' | b'(' | b'[' => depth += 1,
            b'}' | b')' | b']' => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    return offset + 1;
                }
            }
            _ => {}
        }
    }
    code.len()
}

/// The line of an offset, counted from 1.
pub(crate) fn line_of(text: &str, offset: usize) -> usize {
    text.as_bytes()[..offset.min(text.len())]
        .iter()
        .filter(|byte| **byte == b'\n')
        .count()
        + 1
}

enum Piece {
    Comment(usize),
    Quoted {
        open: usize,
        close: usize,
        end: usize,
    },
}

fn piece_at(bytes: &[u8], at: usize) -> Option<Piece> {
    match bytes[at] {
        b'/' if bytes.get(at + 1) == Some(&b'/') => {
            let length = bytes[at..].iter().position(|byte| *byte == b'\n');
            Some(Piece::Comment(
                length.map_or(bytes.len(), |length| at + length),
            ))
        }
        b'/' if bytes.get(at + 1) == Some(&b'*') => {
            Some(Piece::Comment(end_of_block_comment(bytes, at)))
        }
        b'"' => Some(quoted(bytes, at, b'"')),
        b'\'' => character(bytes, at),
        b'r' if !is_word_before(bytes, at) => raw_string(bytes, at),
        _ => None,
    }
}

fn end_of_block_comment(bytes: &[u8], start: usize) -> usize {
    let mut depth = 0usize;
    let mut at = start;
    while at + 1 < bytes.len() {
        match &bytes[at..at + 2] {
            b"/*" => {
                depth += 1;
                at += 2;
            }
            b"*/" => {
                depth -= 1;
                at += 2;
                if depth == 0 {
                    return at;
                }
            }
            _ => at += 1,
        }
    }
    bytes.len()
}

fn quoted(bytes: &[u8], open: usize, quote: u8) -> Piece {
    let mut at = open + 1;
    while at < bytes.len() && bytes[at] != quote {
        at += if bytes[at] == b'\\' { 2 } else { 1 };
    }
    let close = at.min(bytes.len());
    Piece::Quoted {
        open: open + 1,
        close,
        end: (close + 1).min(bytes.len()),
    }
}

/// A character in quotes; a lifetime has no closing quote and is left alone.
fn character(bytes: &[u8], at: usize) -> Option<Piece> {
    let next = *bytes.get(at + 1)?;
    if next == b'\\' {
        return Some(quoted(bytes, at, b'\''));
    }
    let width = match next {
        0..=0x7f => 1,
        0xc0..=0xdf => 2,
        0xe0..=0xef => 3,
        _ => 4,
    };
    (bytes.get(at + 1 + width) == Some(&b'\'')).then_some(Piece::Quoted {
        open: at + 1,
        close: at + 1 + width,
        end: at + 2 + width,
    })
}

fn raw_string(bytes: &[u8], at: usize) -> Option<Piece> {
    let hashes = bytes[at + 1..]
        .iter()
        .take_while(|byte| **byte == b'#')
        .count();
    let open = at + 1 + hashes;
    if bytes.get(open) != Some(&b'"') {
        return None;
    }
    let closing: Vec<u8> = std::iter::once(b'"')
        .chain(std::iter::repeat_n(b'#', hashes))
        .collect();
    let inside = bytes[open + 1..]
        .windows(closing.len())
        .position(|window| window == closing)
        .unwrap_or(bytes.len() - open - 1);
    Some(Piece::Quoted {
        open: open + 1,
        close: open + 1 + inside,
        end: (open + 1 + inside + closing.len()).min(bytes.len()),
    })
}

/// `br"…"` and `cr"…"` are raw strings too, so only a longer word before the `r` rules it out.
fn is_word_before(bytes: &[u8], at: usize) -> bool {
    let word = |offset: usize| bytes[offset].is_ascii_alphanumeric() || bytes[offset] == b'_';
    at > 0 && word(at - 1) && !(matches!(bytes[at - 1], b'b' | b'c') && (at == 1 || !word(at - 2)))
}

fn blank(out: &mut [u8], start: usize, end: usize) {
    for byte in &mut out[start..end] {
        if *byte != b'\n' {
            *byte = b' ';
        }
    }
}

/// The end of the item that begins at or after an attribute: its closing brace, or its semicolon.
fn end_of_item(code: &str, start: usize) -> usize {
    let mut at = start;
    while at < code.len() {
        match code.as_bytes()[at] {
            b'#' | b'[' | b'(' => {
                let open = code[at..].find(['[', '(']).map_or(at, |found| at + found);
                at = close_of(code, open);
            }
            b'{' => return close_of(code, at),
            b';' => return at + 1,
            _ => at += 1,
        }
    }
    code.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_strings_go_and_every_offset_stays() {
        let source = "let a = \"x // y\"; // tail ½\nlet c = '\"'; /* a /* b */ c */ let r = r#\"q\"q\"#; &'a str";
        let code = code_only(source);
        assert_eq!(code.len(), source.len());
        assert!(!code.contains('x') && !code.contains("tail") && !code.contains('q'));
        assert!(code.contains("let a = \"      \";"));
        assert!(code.contains("let c = ' ';") && code.contains("let r = r#\"   \"#;"));
        assert!(code.ends_with("&'a str"));
    }

    #[test]
    fn an_escaped_quote_does_not_end_its_string() {
        assert_eq!(
            code_only(r#"f("a\"b", '\'') + 1"#),
            r#"f("    ", '  ') + 1"#
        );
    }

    #[test]
    fn test_items_go_whole() {
        let code = "fn a() {}\n#[cfg(test)]\n#[allow(x)]\nmod tests { fn b() { std::fs::x() } }\nfn c() {}\n#[cfg(test)]\nmod far;\nfn d() {}";
        let kept = without_tests(code);
        assert!(kept.contains("fn a") && kept.contains("fn c") && kept.contains("fn d"));
        assert!(!kept.contains("std::fs") && !kept.contains("far"));
    }
}
