//! The table that leads from the gathered inspection content to the points of the blank.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use std::collections::BTreeSet;
use yard::book::read;

const MAPPING: &str = include_str!("../../../cases/book/mapping.md");
const BLANK: &str = include_str!("../../../blanks/tracked-loader-backhoe.toml");

/// Rows as row, points, reason.
fn rows() -> Vec<[&'static str; 3]> {
    let cells = |line: &'static str| {
        line.strip_prefix('|')?
            .strip_suffix('|')?
            .split('|')
            .map(str::trim)
            .collect::<Vec<_>>()
            .try_into()
            .ok()
    };
    let rows = MAPPING.lines().filter_map(cells);
    rows.filter(|[row, ..]: &[&str; 3]| *row != "row" && *row != "---")
        .collect()
}

fn points() -> BTreeSet<String> {
    let book = read(BLANK, &Habits::default()).book.unwrap();
    book.points
        .iter()
        .map(|point| point.id.to_string())
        .collect()
}

#[test]
fn every_point_named_is_in_the_blank() {
    let known = points();
    let named: Vec<&str> = rows()
        .iter()
        .flat_map(|[_, points, _]| points.split(','))
        .map(|id| id.trim().trim_matches('`'))
        .filter(|id| !id.is_empty())
        .collect();
    assert!(named.len() > 80);
    for id in named {
        assert!(known.contains(id), "{id} is no point of the blank");
    }
}

#[test]
fn every_row_has_a_point_or_a_reason() {
    assert!(rows().len() >= 53, "the gathered tables have 53 rows");
    for [row, points, reason] in rows() {
        assert!(!points.is_empty() || !reason.is_empty(), "{row}");
    }
}
