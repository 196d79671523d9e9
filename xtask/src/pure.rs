//! The pure crates name nothing of the outside world: no clock, no file, no network, no printing.

use crate::code::program;
use crate::finding::Finding;
use crate::paths::{path_under, paths_named};
use crate::tree::Tree;

/// The crates that take values and give values.
const PURE: [&str; 3] = ["quantity", "reckon", "yard"];

/// What they may not name, and what stands for it. A part of a path is enough: `Timestamp::now`.
const OUTSIDE: [(&str, &str); 14] = [
    ("std::fs", "files come in as text"),
    ("std::net", "there is no network here"),
    ("std::env", "settings come in as values"),
    ("std::process", "nothing is started or ended here"),
    ("std::thread", "same input, same order: no threads"),
    ("std::io", "values in, values out"),
    ("std::time::SystemTime", "the time comes in from the world"),
    ("std::time::Instant", "the time comes in from the world"),
    ("Timestamp::now", "the time comes in from the world"),
    ("Zoned::now", "the time comes in from the world"),
    ("ZonedDateTime::now", "the time comes in from the world"),
    ("Uuid::now_v7", "ids come in from the world"),
    ("Uuid::new_v4", "ids come in from the world"),
    ("TimeZone::system", "the time zone comes in from the world"),
];

/// Printing is for the layers above.
const PRINTING: [&str; 5] = ["println!", "print!", "eprintln!", "eprint!", "dbg!"];

/// Reads the sources of the pure crates; test code is left out.
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = Vec::new();
    for layer in PURE {
        let folder = format!("crates/{layer}/src/");
        let before = findings.len();
        let mut seen = 0;
        for (path, text) in tree.texts_in(&folder, ".rs") {
            seen += 1;
            if !path.ends_with("/tests.rs") && !path.contains("/tests/") {
                source_findings(layer, path, text, &mut findings);
            }
        }
        if seen == 0 && before == findings.len() {
            findings.push(Finding::at(&folder, "no source found: nothing was checked"));
        }
    }
    findings
}

fn source_findings(layer: &str, path: &str, text: &str, findings: &mut Vec<Finding>) {
    let code = program(text);
    let named = paths_named(&code);
    for (line, used) in &named {
        for (outside, instead) in OUTSIDE {
            if names(used, outside) {
                let what = format!("'{layer}' is pure and may not name {outside}: {instead}");
                findings.push(Finding::on_line(path, *line, what));
            }
        }
        let is_store_form = path_under(used, "serde") || path_under(used, "serde_json");
        if layer == "yard" && is_store_form && !path.starts_with("crates/yard/src/book/") {
            let what = "types of 'yard' know nothing of storage: only reading a book may name serde; stored forms live in 'store'";
            findings.push(Finding::on_line(path, *line, what));
        }
    }
    for (index, line) in code.lines().enumerate() {
        for printing in PRINTING {
            if says(line, printing) {
                let what = format!("'{layer}' is pure and may not print: {printing}");
                findings.push(Finding::on_line(path, index + 1, what));
            }
        }
    }
}

/// True where the path is the outside thing, lies under it, or ends in it after a module's name.
fn names(used: &str, outside: &str) -> bool {
    path_under(used, outside)
        || used
            .find(&format!("::{outside}"))
            .is_some_and(|at| path_under(&used[at + 2..], outside))
}

fn says(line: &str, word: &str) -> bool {
    line.match_indices(word).any(|(at, _)| {
        !line[..at].ends_with(|before: char| before.is_alphanumeric() || before == '_')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const CLEAN: &str = "//! A.\nuse std::time::Duration;\n";

    fn found(yard: &str) -> Vec<String> {
        let tree = Tree::of(&[
            ("crates/quantity/src/lib.rs", CLEAN),
            ("crates/reckon/src/lib.rs", CLEAN),
            ("crates/yard/src/state/fold.rs", yard),
        ]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn values_comments_words_in_strings_and_tests_pass() {
        let clean = "//! Never std::fs.\nuse jiff::Timestamp;\nfn f() -> &'static str { \"std::env\" }\n#[cfg(test)]\nmod tests { use std::fs; fn t() { println!(); } }\n";
        assert_eq!(found(clean), Vec::<String>::new());
    }

    #[test]
    fn each_way_out_is_found_with_its_line() {
        for reaching in [
            "\nuse std::fs;",
            "\nuse std::{collections::BTreeMap, fs::File};",
            "\nfn f() { std::env::var(x) }",
            "\nuse std::time::{Duration, Instant};",
            "\nfn f() { jiff::Timestamp::now() }",
            "\nfn f() { uuid::Uuid::now_v7() }",
            "\nfn f() { println!() }",
            "\nuse serde::Serialize;",
        ] {
            let all = found(reaching);
            assert_eq!(all.len(), 1, "{reaching}: {all:?}");
            assert!(all[0].starts_with("crates/yard/src/state/fold.rs:2: "));
        }
    }

    #[test]
    fn reading_a_book_may_use_serde() {
        let tree = Tree::of(&[
            ("crates/quantity/src/lib.rs", CLEAN),
            ("crates/reckon/src/lib.rs", CLEAN),
            ("crates/yard/src/book/raw.rs", "use serde::Deserialize;"),
        ]);
        assert_eq!(check(&tree), []);
    }

    #[test]
    fn a_pure_crate_that_is_not_there_is_found() {
        let tree = Tree::of(&[("crates/yard/src/lib.rs", CLEAN)]);
        assert_eq!(check(&tree).len(), 2);
    }
}
