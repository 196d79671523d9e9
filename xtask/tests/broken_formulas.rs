//! The mutation of formulas, run as everyone runs it: good cases notice what is broken, weak cases are found out.

// What sets up a tree stands outside the test functions; a failure there is a failed test.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const FILES: [(&str, &str); 5] = [
    (
        "Cargo.toml",
        "# A small workspace.\n[workspace]\nmembers = [\"crates/reckon\"]\nresolver = \"3\"\n",
    ),
    (
        "crates/reckon/Cargo.toml",
        "# Formulas.\n[package]\nname = \"reckon\"\nversion = \"0.1.0\"\nedition = \"2024\"\n",
    ),
    (
        "crates/reckon/src/lib.rs",
        "//! Formulas.\npub mod ground;\n",
    ),
    (
        "crates/reckon/src/ground/mod.rs",
        "//! Ground.\npub mod wedge;\n",
    ),
    (
        "crates/reckon/src/ground/wedge.rs",
        "//! A wedge.\npub fn wedge(depth: f64, slope: f64) -> f64 {\n    0.5 * depth * depth + slope\n}\n",
    ),
];

const GOOD: &str = "//! The cases.\n#[test]\nfn cases() {\n    let found = reckon::ground::wedge::wedge(3.0, 1.0);\n    assert!((found - 5.5).abs() < 1e-6);\n}\n";
const WEAK: &str = "//! The cases.\n#[test]\nfn cases() {\n    assert!(reckon::ground::wedge::wedge(3.0, 1.0) > 3.0);\n}\n";
const EMPTY: &str = "//! The cases.\n";
const FAILING: &str = "//! The cases.\n#[test]\nfn cases() {\n    panic!();\n}\n";

#[test]
fn good_cases_notice_every_mutant() {
    let done = mutate(GOOD);
    assert!(done.status.success(), "{}", said(&done));
    let row = row_of(&done, "ground.wedge");
    assert_eq!(row, ["ground.wedge", "4", "0", "0", "0", "100", "%"]);
}

#[test]
fn weak_cases_are_found_out_with_the_line_they_missed() {
    let done = mutate(WEAK);
    assert_eq!(done.status.code(), Some(1), "{}", said(&done));
    assert!(
        said(&done).contains("crates/reckon/src/ground/wedge.rs:3: `0.5` made `0.505`"),
        "{}",
        said(&done)
    );
    assert!(said(&done).contains("TOO LITTLE"));
}

#[test]
fn cases_that_run_nothing_or_fail_unbroken_are_refused() {
    for cases in [EMPTY, FAILING] {
        assert_eq!(mutate(cases).status.code(), Some(2), "{cases}");
    }
}

fn mutate(cases: &str) -> Output {
    let dir = tempfile::tempdir().unwrap();
    for (path, text) in FILES {
        write(dir.path(), path, text);
    }
    write(dir.path(), "crates/reckon/tests/cases.rs", cases);
    Command::new(env!("CARGO_BIN_EXE_xtask"))
        .args(["--root".as_ref(), dir.path().as_os_str(), "mutate".as_ref()])
        // Each tree keeps its copies to itself.
        .env("CARGO_TARGET_DIR", "target")
        .output()
        .unwrap()
}

fn write(root: &Path, path: &str, text: &str) {
    let full = root.join(path);
    fs::create_dir_all(full.parent().unwrap()).unwrap();
    fs::write(full, text).unwrap();
}

fn row_of(done: &Output, name: &str) -> Vec<String> {
    let all = said(done);
    let row = all.lines().find(|line| line.starts_with(name)).unwrap();
    row.split_whitespace().map(str::to_owned).collect()
}

fn said(done: &Output) -> String {
    let both = [done.stdout.as_slice(), done.stderr.as_slice()].concat();
    String::from_utf8_lossy(&both).into_owned()
}
