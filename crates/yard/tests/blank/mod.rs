//! The blanks, read from their folder, and what tests do with them.
#![allow(dead_code, clippy::unwrap_used, unreachable_pub)]

pub mod answers;
pub mod filled;

/// Where the blanks lie.
const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../blanks");

/// Every blank: its name and its text, in the order of their names.
pub fn blanks() -> Vec<(String, String)> {
    let files = std::fs::read_dir(FOLDER).unwrap();
    let mut all: Vec<(String, String)> = files
        .filter_map(|file| {
            let path = file.unwrap().path();
            let name = path.file_name()?.to_str()?.strip_suffix(".toml")?;
            Some((name.to_owned(), std::fs::read_to_string(&path).unwrap()))
        })
        .collect();
    all.sort();
    assert!(!all.is_empty(), "no blanks in {FOLDER}");
    all
}
