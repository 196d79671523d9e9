//! The paths a piece of Rust code names, `use` groups written out in full.

use crate::code::{close_of, line_of};

/// Every path the code names with `::`, with its line; groups of a `use` are written out in full.
pub(crate) fn paths_named(code: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < code.len() {
        if !code.is_char_boundary(at) || !starts_word(code, at) {
            at += 1;
            continue;
        }
        let word_end = at + word_length(&code[at..]);
        let line = line_of(code, at);
        if &code[at..word_end] == "use" {
            let end = code[word_end..]
                .find(';')
                .map_or(code.len(), |semi| word_end + semi);
            let tree: String = code[word_end..end]
                .replace(" as ", "@")
                .split_whitespace()
                .collect();
            expand("", &tree, line, &mut found);
            at = end;
        } else {
            let (path, end) = inline_path(code, at);
            if path.contains("::") {
                found.push((line, path));
            }
            at = end;
        }
    }
    found
}

/// True where `path` is `wanted` or lies under it.
pub(crate) fn path_under(path: &str, wanted: &str) -> bool {
    path.strip_prefix(wanted)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
}

fn starts_word(code: &str, at: usize) -> bool {
    let bytes = code.as_bytes();
    let word = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_';
    word(bytes[at]) && !bytes[at].is_ascii_digit() && (at == 0 || !word(bytes[at - 1]))
}

fn word_length(text: &str) -> usize {
    text.bytes()
        .take_while(|byte| byte.is_ascii_alphanumeric() || *byte == b'_')
        .count()
}

/// Reads `a::b::c` from `start`; returns the path and where it ends.
fn inline_path(code: &str, start: usize) -> (String, usize) {
    let mut end = start + word_length(&code[start..]);
    while code[end..].starts_with("::") {
        let next = word_length(&code[end + 2..]);
        if next == 0 {
            break;
        }
        end += 2 + next;
    }
    (code[start..end].to_owned(), end)
}

/// Writes out one `use` tree, spaces already gone: `std::{fs,io::Read}` is `std::fs` and `std::io::Read`.
fn expand(prefix: &str, tree: &str, line: usize, found: &mut Vec<(usize, String)>) {
    let Some(open) = tree.find('{') else {
        let name = tree.split('@').next().unwrap_or(tree);
        let path = format!("{prefix}{name}");
        let path = path.strip_suffix("::self").unwrap_or(&path).to_owned();
        found.push((line, path.trim_start_matches("::").to_owned()));
        return;
    };
    let prefix = format!("{prefix}{}", &tree[..open]);
    let close = close_of(tree, open);
    let inside = &tree[open + 1..close.saturating_sub(1).max(open + 1)];
    for branch in branches(inside) {
        expand(&prefix, branch, line, found);
    }
}

/// Splits at the commas that are in no inner group.
fn branches(inside: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let (mut depth, mut start) = (0usize, 0);
    for (offset, byte) in inside.bytes().enumerate() {
        match byte {
            b'{' => depth += 1,
            b'}' => depth = depth.saturating_sub(1),
            b',' if depth == 0 => {
                parts.push(&inside[start..offset]);
                start = offset + 1;
            }
            _ => {}
        }
    }
    parts.push(&inside[start..]);
    parts.retain(|part| !part.is_empty());
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_written_out_from_groups_and_from_the_middle_of_code() {
        let code =
            "use std::{fs, io::{self, Read as R}};\nfn f() { let x = std::env::var; g(1.0) }";
        let paths: Vec<_> = paths_named(code);
        let expected = [
            (1, "std::fs"),
            (1, "std::io"),
            (1, "std::io::Read"),
            (2, "std::env::var"),
        ];
        let expected: Vec<_> = expected
            .map(|(line, path)| (line, path.to_owned()))
            .to_vec();
        assert_eq!(paths, expected);
    }

    #[test]
    fn a_path_lies_under_itself_and_its_parents_only() {
        assert!(path_under("std::fs", "std::fs") && path_under("std::fs::read", "std::fs"));
        assert!(!path_under("std::fsx", "std::fs"));
    }
}
