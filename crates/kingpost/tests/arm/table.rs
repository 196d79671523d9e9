//! Tables of named numbers: those of `cases/arm`, and those that the program prints.

use std::{collections::BTreeMap, fs, path::Path};

/// One row: column to text, in the order of the columns.
pub(crate) struct Row(Vec<(String, String)>);

/// The rows of a table of `cases/arm`.
pub(crate) fn rows(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../cases/arm")
        .join(name);
    read(&fs::read_to_string(path).unwrap())
}

/// The rows of a table; lines that open with # say what it is. No cell of these holds a comma.
pub(crate) fn read(text: &str) -> Vec<Row> {
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    let mut rows = Vec::new();
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        assert_eq!(cells.len(), head.len(), "{line}");
        rows.push(Row(head
            .iter()
            .zip(cells)
            .map(|(name, cell)| ((*name).to_owned(), cell.to_owned()))
            .collect()));
    }
    assert!(!rows.is_empty());
    let names: BTreeMap<&str, ()> = head.iter().map(|name| (*name, ())).collect();
    assert_eq!(names.len(), head.len(), "a column twice");
    rows
}

impl Row {
    pub(crate) fn all(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0
            .iter()
            .map(|(name, cell)| (name.as_str(), cell.as_str()))
    }

    #[track_caller]
    pub(crate) fn text(&self, column: &str) -> &str {
        self.all()
            .find(|(name, _)| *name == column)
            .unwrap_or_else(|| panic!("no column {column}"))
            .1
    }

    #[track_caller]
    pub(crate) fn maybe(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| text.parse().unwrap())
    }

    #[track_caller]
    pub(crate) fn number(&self, column: &str) -> f64 {
        self.maybe(column)
            .unwrap_or_else(|| panic!("{column} is empty"))
    }
}

/// Asserts agreement to within a share of the expected value, or the floor where that is more.
#[track_caller]
pub(crate) fn close(found: f64, expected: f64, share: f64, floor: f64, what: &str) {
    let off = (found - expected).abs();
    assert!(
        off <= (share * expected.abs()).max(floor),
        "{what}: {found} and not {expected}, off by {off:e}"
    );
}
