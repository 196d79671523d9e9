//! The program asked about an arm, without a yard.

use assert_cmd::Command;
use serde_json::Value;
use std::{
    fs,
    path::{Path, PathBuf},
};
use tempfile::TempDir;

pub(crate) const SECOND: &str = "cases/arm/second-machine-book.toml";
pub(crate) const REFERENCE: &str = "cases/arm/reference-machine-book.toml";

pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// What the program prints, and the code it ends with. There is no yard.
pub(crate) fn said(arguments: &[&str]) -> (String, i32) {
    let dir = TempDir::new().unwrap();
    let done = Command::cargo_bin("kingpost")
        .unwrap()
        .current_dir(root())
        .env("KINGPOST_DATA", dir.path())
        .args(arguments)
        .output()
        .unwrap();
    let text = if done.stdout.is_empty() {
        done.stderr
    } else {
        done.stdout
    };
    (
        String::from_utf8(text).unwrap(),
        done.status.code().unwrap(),
    )
}

pub(crate) fn json(arguments: &[&str]) -> Value {
    let (text, code) = said(&[&["--json"], arguments].concat());
    assert_eq!(code, 0, "{arguments:?}: {text}");
    serde_json::from_str(&text).unwrap()
}

/// A sheet of poses in a folder of its own.
pub(crate) fn sheet(text: &str) -> (TempDir, String) {
    let dir = TempDir::new().unwrap();
    let file = dir.path().join("poses.csv");
    fs::write(&file, text).unwrap();
    let file = file.to_str().unwrap().to_owned();
    (dir, file)
}

/// The records of these poses: boom, dipper and bucket ram's lengths in metres, swing in degrees.
pub(crate) fn records(book: &str, poses: &[[f64; 4]]) -> Vec<Value> {
    let row = |pose: &[f64; 4]| pose.map(|number| number.to_string()).to_vec();
    asked(
        book,
        "boom length [m],dipper length [m],bucket length [m],swing angle [deg]",
        &poses.iter().map(row).collect::<Vec<_>>(),
    )
}

/// The records of a sheet with this heading and these rows.
pub(crate) fn asked(book: &str, heading: &str, poses: &[Vec<String>]) -> Vec<Value> {
    let rows: String = poses.iter().map(|row| row.join(",") + "\n").collect();
    let (_dir, file) = sheet(&format!("{heading}\n{rows}"));
    let told = json(&["arm", book, "--poses", &file]);
    assert_eq!(told["poses"].as_array().unwrap().len(), poses.len());
    told["poses"].as_array().unwrap().clone()
}
