//! Tables of `cases/arm` as rows of named numbers, and how close is close enough.

use std::collections::BTreeMap;

use crate::machine::text;

/// One row: column to text.
pub(crate) struct Row(BTreeMap<String, String>);

/// The rows of a table; lines that open with # say what it is.
pub(crate) fn rows(name: &str) -> Vec<Row> {
    let text = text(name);
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let head: Vec<String> = lines
        .next()
        .unwrap()
        .split(',')
        .map(str::to_owned)
        .collect();
    let rows: Vec<Row> = lines
        .map(|line| {
            let cells = line.split(',').map(str::to_owned);
            assert_eq!(line.split(',').count(), head.len(), "{name}: {line}");
            Row(head.iter().cloned().zip(cells).collect())
        })
        .collect();
    assert!(!rows.is_empty(), "{name} is empty");
    rows
}

impl Row {
    pub(crate) fn text(&self, column: &str) -> &str {
        self.0
            .get(column)
            .unwrap_or_else(|| panic!("no column {column}"))
    }

    pub(crate) fn number(&self, column: &str) -> f64 {
        self.maybe(column)
            .unwrap_or_else(|| panic!("{column} is empty"))
    }

    pub(crate) fn maybe(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| text.parse().unwrap())
    }

    /// Three columns `name_boom`, `name_dipper`, `name_bucket`.
    pub(crate) fn rams(&self, name: &str) -> [f64; 3] {
        ["boom", "dipper", "bucket"].map(|ram| self.number(&format!("{name}_{ram}")))
    }

    pub(crate) fn ram_lengths(&self) -> [f64; 3] {
        ["boom", "dipper", "bucket"].map(|ram| self.number(&format!("{ram}_length")))
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

/// Lengths and angles: 1e-10 of the value, 1e-12 at least.
#[track_caller]
pub(crate) fn place(found: f64, expected: f64, what: &str) {
    close(found, expected, 1e-10, 1e-12, what);
}

/// Forces: 1e-10 of the value, a millionth of a newton at least, for small thrusts are differences of large ones.
#[track_caller]
pub(crate) fn force(found: f64, expected: f64, what: &str) {
    close(found, expected, 1e-10, 1e-6, what);
}

/// Limits: 1e-8, for they are quotients that may be badly conditioned.
#[track_caller]
pub(crate) fn limit(found: f64, expected: f64, what: &str) {
    close(found, expected, 1e-8, 1e-6, what);
}
