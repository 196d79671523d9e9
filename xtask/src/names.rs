//! Names that say nothing, and code that is not there yet.

use crate::code::code_only;
use crate::finding::Finding;
use crate::tree::Tree;

/// Names under which anything could hide.
const EMPTY_NAMES: [&str; 7] = [
    "util", "utils", "helper", "helpers", "common", "misc", "shared",
];

/// Marks of what is still to be written.
const STUBS: [&str; 2] = ["todo!", "unimplemented!"];

/// Looks at every file's and folder's name, every module's name, and for stubs.
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = Vec::new();
    for path in tree.paths() {
        if let Some(name) = path.split('/').find(|part| is_empty_name(part)) {
            findings.push(Finding::at(
                path,
                format!("'{name}' says nothing: name it after its subject"),
            ));
        }
    }
    for (path, text) in tree.texts_in("", ".rs") {
        for (index, line) in code_only(text).lines().enumerate() {
            line_findings(path, index + 1, line, &mut findings);
        }
    }
    findings
}

fn is_empty_name(part: &str) -> bool {
    let stem = part.split('.').next().unwrap_or(part);
    stem.split(['_', '-'])
        .any(|word| EMPTY_NAMES.contains(&word.to_lowercase().as_str()))
}

fn line_findings(path: &str, number: usize, line: &str, findings: &mut Vec<Finding>) {
    let mut words = line.split_whitespace();
    if words.any(|word| word == "mod")
        && let Some(name) = words.next().map(|name| name.trim_end_matches([';', '{']))
        && is_empty_name(name)
    {
        findings.push(Finding::on_line(
            path,
            number,
            format!("the module '{name}' says nothing: name it after its subject"),
        ));
    }
    for stub in STUBS {
        if line.contains(stub) {
            findings.push(Finding::on_line(
                path,
                number,
                format!("{stub} stands where the code should be"),
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_a_subject_pass_and_words_in_prose_do_not_count() {
        let tree = Tree::of(&[
            (
                "crates/yard/src/lap.rs",
                "//! Never todo!() here.\nmod fold;\nfn common_factor() { say(\"todo!\") }\n",
            ),
            ("docs/commons.md", "# Common things\n"),
        ]);
        assert_eq!(check(&tree), []);
    }

    #[test]
    fn empty_names_and_stubs_are_found() {
        for (path, text) in [
            ("crates/yard/src/utils.rs", "//! A.\n"),
            ("crates/yard/src/test_helpers.rs", "//! A.\n"),
            ("crates/yard/tests/common/mod.rs", "//! A.\n"),
            ("crates/server/static/misc.js", "// A.\n"),
            ("crates/yard/src/a.rs", "pub mod helpers { }\n"),
            ("crates/yard/src/a.rs", "mod common;\n"),
            ("crates/yard/src/a.rs", "fn f() { todo!() }\n"),
            ("crates/yard/src/a.rs", "fn f() { unimplemented!(\"x\") }\n"),
        ] {
            let tree = Tree::of(&[(path, text)]);
            assert_eq!(check(&tree).len(), 1, "{path}: {text:?}");
        }
    }
}
