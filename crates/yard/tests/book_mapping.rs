//! The tables that lead from the gathered inspection content to the points of each blank.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use std::{collections::BTreeSet, fs, path::PathBuf};
use yard::book::{Book, read};

const ROOT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");

/// One row of a table.
struct Row {
    what: String,
    points: Vec<String>,
    /// How it is held without a point, or why it is not.
    else_how: String,
}

impl Row {
    fn read(line: &str) -> Option<Self> {
        let cells = line.strip_prefix('|')?.strip_suffix('|')?.split('|');
        let [what, points, else_how]: [&str; 3] =
            cells.map(str::trim).collect::<Vec<_>>().try_into().ok()?;
        let points = points
            .split(',')
            .map(|id| id.trim().trim_matches('`').to_owned())
            .filter(|id| !id.is_empty())
            .collect();
        (what != "row" && what != "---").then(|| Self {
            what: what.to_owned(),
            points,
            else_how: else_how.to_owned(),
        })
    }

    fn begins(&self, word: &str) -> bool {
        self.else_how.starts_with(word)
    }
}

fn names(folder: &str, ending: &str) -> BTreeSet<String> {
    let files = fs::read_dir(format!("{ROOT}/{folder}")).unwrap();
    files
        .filter_map(|file| {
            let name = file.unwrap().file_name().into_string().unwrap();
            name.strip_suffix(ending).map(str::to_owned)
        })
        .collect()
}

fn rows(blank: &str) -> Vec<Row> {
    let path = PathBuf::from(format!("{ROOT}/cases/book/mapping/{blank}.md"));
    let text = fs::read_to_string(path).unwrap();
    text.lines().filter_map(Row::read).collect()
}

fn book(blank: &str) -> Book {
    let text = fs::read_to_string(format!("{ROOT}/blanks/{blank}.toml")).unwrap();
    read(&text, &Habits::default()).book.unwrap()
}

#[test]
fn every_blank_has_its_table() {
    assert_eq!(names("blanks", ".toml"), names("cases/book/mapping", ".md"));
}

#[test]
fn every_point_named_is_in_the_blank() {
    for blank in names("blanks", ".toml") {
        let book = book(&blank);
        let known: BTreeSet<&str> = book.points.iter().map(|point| point.id.as_str()).collect();
        let rows = rows(&blank);
        let named: Vec<&String> = rows.iter().flat_map(|row| &row.points).collect();
        assert!(named.len() >= 12, "{blank}: {} points named", named.len());
        for id in named {
            assert!(known.contains(id.as_str()), "{id} is no point of {blank}");
        }
    }
}

/// A row without a point says in one of three words how that is.
#[test]
fn every_row_has_a_point_or_a_reason() {
    for blank in names("blanks", ".toml") {
        for row in rows(&blank) {
            let said = ["rule: ", "not here: ", "workshop: "]
                .iter()
                .any(|word| row.begins(word));
            assert!(!row.points.is_empty() || said, "{blank}: {}", row.what);
        }
    }
}

/// Of the rows that are of use on such a machine, nine in ten are held by a point or a rule.
#[test]
fn nine_rows_in_ten_are_held() {
    for blank in names("blanks", ".toml") {
        let rows = rows(&blank);
        let of_use: Vec<&Row> = rows
            .iter()
            .filter(|row| !row.points.is_empty() || !row.begins("not here: "))
            .collect();
        let held = of_use
            .iter()
            .filter(|row| !row.points.is_empty() || row.begins("rule: "))
            .count();
        assert!(
            held * 10 >= of_use.len() * 9,
            "{blank}: {held} of {} rows are held",
            of_use.len()
        );
    }
}
