//! Documents the program writes about itself are checked in, and fresh.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::finding::Finding;
use crate::tree::Tree;

/// Each document, and the arguments of `kingpost` that print it.
const DOCUMENTS: [(&str, &[&str]); 6] = [
    ("docs/validation.md", &["reckon", "--validation-md"]),
    ("docs/book-format.md", &["book", "format", "--md"]),
    ("docs/book.schema.json", &["book", "format", "--schema"]),
    ("docs/permissions.md", &["people", "permissions", "--md"]),
    ("docs/openapi.json", &["api"]),
    ("docs/exit-codes.md", &["journal", "--exit-codes-md"]),
];

/// What prints a document, given its arguments.
pub(crate) trait Printer {
    /// The document's whole text, or why there is none.
    fn print(&self, arguments: &[&str]) -> Result<String, String>;
}

/// The real program: the one named by `KINGPOST_BIN`, or built here.
pub(crate) struct Kingpost {
    root: PathBuf,
    program: Option<PathBuf>,
}

impl Kingpost {
    /// The program for the tree at `root`.
    pub(crate) fn of(root: &Path) -> Self {
        Self {
            root: root.to_owned(),
            program: std::env::var_os("KINGPOST_BIN").map(PathBuf::from),
        }
    }
}

impl Printer for Kingpost {
    fn print(&self, arguments: &[&str]) -> Result<String, String> {
        let mut command = if let Some(program) = &self.program {
            Command::new(program)
        } else {
            let mut cargo = Command::new("cargo");
            cargo.args(["run", "--quiet", "--package", "kingpost", "--"]);
            cargo
        };
        let done = command
            .args(arguments)
            .current_dir(&self.root)
            .output()
            .map_err(|error| format!("could not be started: {error}"))?;
        let said = String::from_utf8_lossy(&done.stderr);
        if !done.status.success() {
            let last = said.lines().rev().find(|line| !line.trim().is_empty());
            return Err(format!(
                "ended with {}: {}",
                done.status,
                last.unwrap_or("no words")
            ));
        }
        if done.stdout.is_empty() {
            return Err("printed nothing".to_owned());
        }
        String::from_utf8(done.stdout).map_err(|_| "printed what is not UTF-8".to_owned())
    }
}

/// Compares every document with what the program prints now.
pub(crate) fn check(tree: &Tree, printer: &dyn Printer) -> Vec<Finding> {
    compare(tree, printer, &DOCUMENTS)
}

/// Writes every document anew; returns those that could not be made.
pub(crate) fn write(root: &Path, printer: &dyn Printer) -> Vec<Finding> {
    DOCUMENTS
        .iter()
        .filter_map(|(path, arguments)| {
            let written = printer.print(arguments).and_then(|text| {
                fs::write(root.join(path), text).map_err(|error| error.to_string())
            });
            written.err().map(|why| unmade(path, arguments, &why))
        })
        .collect()
}

fn compare(tree: &Tree, printer: &dyn Printer, documents: &[(&str, &[&str])]) -> Vec<Finding> {
    documents
        .iter()
        .filter_map(|(path, arguments)| match printer.print(arguments) {
            Err(why) => Some(unmade(path, arguments, &why)),
            Ok(now) => stale(tree, path, &now),
        })
        .collect()
}

fn unmade(path: &str, arguments: &[&str], why: &str) -> Finding {
    Finding::at(path, format!("`kingpost {}` {why}", arguments.join(" ")))
}

fn stale(tree: &Tree, path: &str, now: &str) -> Option<Finding> {
    const MEND: &str = "write it anew with `cargo run -p xtask -- generated --write`";
    let Some(kept) = tree.text(path) else {
        return Some(Finding::at(path, format!("is not there; {MEND}")));
    };
    if kept == now {
        return None;
    }
    let same = kept
        .lines()
        .zip(now.lines())
        .take_while(|(old, new)| old == new)
        .count();
    Some(Finding::on_line(
        path,
        same + 1,
        format!("differs from what the program says now; {MEND}"),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Fixed(Result<&'static str, &'static str>);

    impl Printer for Fixed {
        fn print(&self, _: &[&str]) -> Result<String, String> {
            self.0.map(str::to_owned).map_err(str::to_owned)
        }
    }

    const ONE: [(&str, &[&str]); 1] = [("docs/a.md", &["a", "--md"])];

    fn found(kept: &str, now: Result<&'static str, &'static str>) -> Vec<String> {
        let tree = Tree::of(&[("docs/a.md", kept)]);
        compare(&tree, &Fixed(now), &ONE)
            .iter()
            .map(ToString::to_string)
            .collect()
    }

    #[test]
    fn a_fresh_document_passes() {
        assert_eq!(found("# A\n1\n", Ok("# A\n1\n")), Vec::<String>::new());
    }

    #[test]
    fn a_stale_document_is_found_at_its_first_difference() {
        let all = found("# A\n1\n", Ok("# A\n2\n"));
        assert!(
            all.len() == 1 && all[0].starts_with("docs/a.md:2: differs"),
            "{all:?}"
        );
    }

    #[test]
    fn a_document_not_checked_in_and_a_command_that_fails_are_found() {
        let none = compare(&Tree::of(&[]), &Fixed(Ok("# A\n")), &ONE);
        assert!(none.len() == 1 && none[0].what.starts_with("is not there"));
        assert_eq!(
            found("# A\n", Err("ended badly")),
            ["docs/a.md: `kingpost a --md` ended badly"]
        );
    }

    #[test]
    fn the_real_program_missing_is_a_finding_not_a_pass() {
        let nowhere = Kingpost {
            root: PathBuf::from("/"),
            program: Some(PathBuf::from("/nowhere/kingpost")),
        };
        assert!(nowhere.print(&["a"]).is_err());
    }
}
