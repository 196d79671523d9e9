//! How long the files are: a report, not a verdict.

use crate::code::code_only;
use crate::tree::Tree;

/// Net lines from which a file is named in the report.
const LONG: usize = 400;

/// The Rust files with more than [`LONG`] lines that are neither empty nor comment, the longest first.
pub(crate) fn report(tree: &Tree) -> Vec<(usize, String)> {
    let mut long: Vec<_> = tree
        .texts_in("", ".rs")
        .map(|(path, text)| (net_lines(text), path.to_owned()))
        .filter(|(lines, _)| *lines > LONG)
        .collect();
    long.sort_by(|a, b| b.cmp(a));
    long
}

fn net_lines(text: &str) -> usize {
    code_only(text)
        .lines()
        .filter(|line| !line.trim().is_empty())
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_lines_of_code_count() {
        let long = "let a = 1;\n// not this\n\n".repeat(LONG + 1);
        let not_long = "let a = 1;\n// not this\n\n".repeat(LONG);
        let tree = Tree::of(&[("a.rs", &long), ("b.rs", &not_long)]);
        assert_eq!(report(&tree), [(LONG + 1, "a.rs".to_owned())]);
    }
}
