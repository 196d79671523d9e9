//! The reference machine's book, and tables of `cases/arm` as rows of named numbers with their tolerances.

use std::{collections::BTreeMap, path::Path};

use yard::arm::{ArmOfBook, arm_of};
use yard::book::{Book, read};

pub(crate) fn text(name: &str) -> String {
    let cases = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/arm");
    std::fs::read_to_string(cases.join(name)).unwrap()
}

/// The book, which reads without any trouble.
pub(crate) fn book_of(text: &str) -> Book {
    let read = read(text, &quantity::Habits::default());
    assert_eq!(read.troubles, []);
    read.book.unwrap()
}

pub(crate) fn reference() -> ArmOfBook {
    arm_of(&book_of(&text("reference-machine-book.toml")))
}

/// The reference machine's book without the tables that hold this line, and with this instead of that.
pub(crate) fn without(line: &str) -> ArmOfBook {
    let whole = text("reference-machine-book.toml");
    let tables = whole.split("\n\n");
    let kept: Vec<&str> = tables
        .filter(|table| !table.lines().any(|one| one == line))
        .collect();
    assert!(kept.join("\n\n").len() < whole.len(), "no table has {line}");
    arm_of(&book_of(&kept.join("\n\n")))
}

pub(crate) fn with(that: &str, this: &str) -> ArmOfBook {
    let whole = text("reference-machine-book.toml");
    assert!(whole.contains(that), "no {that}");
    arm_of(&book_of(&whole.replace(that, this)))
}

/// One row: column to text.
pub(crate) struct Row(BTreeMap<String, String>);

/// The rows of a table; lines that open with # say what it is.
pub(crate) fn rows(name: &str) -> Vec<Row> {
    let text = text(name);
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    let rows: Vec<Row> = lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            assert_eq!(cells.len(), head.len(), "{name}: {line}");
            let pairs = head.iter().zip(cells);
            Row(pairs
                .map(|(column, cell)| ((*column).to_owned(), cell.to_owned()))
                .collect())
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

/// Forces: 1e-10 of the value, a millionth of a newton at least.
#[track_caller]
pub(crate) fn force(found: f64, expected: f64, what: &str) {
    close(found, expected, 1e-10, 1e-6, what);
}

/// Limits: 1e-8, for they are quotients that may be badly conditioned.
#[track_caller]
pub(crate) fn limit(found: f64, expected: f64, what: &str) {
    close(found, expected, 1e-8, 1e-6, what);
}
