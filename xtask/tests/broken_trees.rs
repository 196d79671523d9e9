//! The checks, run as everyone runs them, fail on a tree that is broken in one place and pass on the whole one.

// What sets up a tree stands outside the test functions; a failure there is a failed test.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// A small whole tree: one formula with its leaf, its line and its case, and layers that point down.
const WHOLE: [(&str, &str); 9] = [
    (
        "crates/quantity/Cargo.toml",
        "# Quantities.\n[package]\nname = \"quantity\"\n[lints]\nworkspace = true\n",
    ),
    ("crates/quantity/src/lib.rs", "//! Quantities.\n"),
    (
        "crates/reckon/Cargo.toml",
        "# Formulas.\n[package]\nname = \"reckon\"\n[lints]\nworkspace = true\n[dependencies]\nquantity.workspace = true\n",
    ),
    (
        "crates/reckon/src/catalogue.rs",
        "//! All leaves.\npub static ALL: [&Leaf; 1] = [&crate::ground::wedge::LEAF];\n",
    ),
    (
        "crates/reckon/src/ground/wedge.rs",
        "//! A wedge of ground.\nleaf! { name: \"wedge\" }\npub fn wedge(a: f64) -> f64 { a * 0.5 }\n",
    ),
    (
        "crates/yard/Cargo.toml",
        "# The domain.\n[package]\nname = \"yard\"\n[lints]\nworkspace = true\n[dependencies]\nquantity.workspace = true\nreckon.workspace = true\n",
    ),
    ("crates/yard/src/lib.rs", "//! The domain.\n"),
    (
        "cases/ground/wedge.md",
        "+++\nleaf = \"ground.wedge\"\n+++\n# A wedge\n",
    ),
    (
        "Cargo.toml",
        "# The workspace.\n[workspace.lints.clippy]\ndisallowed_methods = \"warn\"\n",
    ),
];

/// Each check with the file that breaks it and what it must say.
const BREAKS: [(&str, &str, &str, &str); 7] = [
    (
        "deps",
        "crates/reckon/Cargo.toml",
        "# Formulas.\n[package]\nname = \"reckon\"\n[lints]\nworkspace = true\n[dependencies]\nyard.workspace = true\n",
        "crates/reckon/Cargo.toml:7: 'reckon' may not stand on 'yard'",
    ),
    (
        "pure",
        "crates/yard/src/lib.rs",
        "//! The domain.\nuse std::fs;\n",
        "crates/yard/src/lib.rs:2: 'yard' is pure and may not name std::fs",
    ),
    (
        "opening",
        "crates/yard/src/lib.rs",
        "pub mod lap;\n",
        "crates/yard/src/lib.rs:1: opens with no line",
    ),
    (
        "names",
        "crates/yard/src/helpers.rs",
        "//! Many things.\n",
        "crates/yard/src/helpers.rs: 'helpers.rs' says nothing",
    ),
    (
        "leaves",
        "cases/ground/wedge.md",
        "# A wedge, of no leaf\n",
        "crates/reckon/src/ground/wedge.rs: has no case",
    ),
    (
        "floats",
        "crates/yard/src/lib.rs",
        "//! The domain.\n#![allow(clippy::disallowed_methods)]\n",
        "crates/yard/src/lib.rs:2: steps round the float lint",
    ),
    (
        "floats",
        "clippy.toml",
        "# The lints.\ndisallowed-methods = []\n",
        "clippy.toml: disallowed-methods lacks f64::sin",
    ),
];

#[test]
fn the_whole_tree_passes_every_check() {
    let dir = whole_tree();
    for check in ["deps", "pure", "opening", "names", "leaves", "floats"] {
        let done = xtask(dir.path(), check);
        assert!(done.status.success(), "{check}: {}", said(&done));
    }
}

#[test]
fn each_break_fails_its_check_and_says_where() {
    for (check, path, text, expected) in BREAKS {
        let dir = whole_tree();
        write(dir.path(), path, text);
        let done = xtask(dir.path(), check);
        assert_eq!(done.status.code(), Some(1), "{check}: {}", said(&done));
        assert!(said(&done).contains(expected), "{check}: {}", said(&done));
    }
}

#[test]
fn a_program_that_cannot_print_its_documents_fails_the_check() {
    let dir = whole_tree();
    let done = Command::new(env!("CARGO_BIN_EXE_xtask"))
        .args([
            "--root".as_ref(),
            dir.path().as_os_str(),
            "generated".as_ref(),
        ])
        .env("KINGPOST_BIN", "/nowhere/kingpost")
        .output()
        .unwrap();
    assert_eq!(done.status.code(), Some(1));
    assert!(said(&done).contains("docs/validation.md: `kingpost "));
}

#[test]
fn an_unknown_command_and_an_empty_tree_are_usage_errors() {
    let dir = whole_tree();
    assert_eq!(xtask(dir.path(), "nothing").status.code(), Some(2));
    let empty = tempfile::tempdir().unwrap();
    assert_eq!(xtask(empty.path(), "deps").status.code(), Some(2));
}

fn whole_tree() -> tempfile::TempDir {
    let dir = tempfile::tempdir().unwrap();
    for (path, text) in WHOLE {
        write(dir.path(), path, text);
    }
    // The float lint's own list is long; the project's is the example of a whole one.
    let list = Path::new(&std::env::var("CARGO_MANIFEST_DIR").unwrap()).join("../clippy.toml");
    write(
        dir.path(),
        "clippy.toml",
        &fs::read_to_string(list).unwrap(),
    );
    dir
}

fn write(root: &Path, path: &str, text: &str) {
    let full = root.join(path);
    fs::create_dir_all(full.parent().unwrap()).unwrap();
    fs::write(full, text).unwrap();
}

fn xtask(root: &Path, check: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_xtask"))
        .args(["--root".as_ref(), root.as_os_str(), check.as_ref()])
        .output()
        .unwrap()
}

fn said(done: &Output) -> String {
    let both = [done.stdout.as_slice(), done.stderr.as_slice()].concat();
    String::from_utf8_lossy(&both).into_owned()
}
