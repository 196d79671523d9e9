//! The tracked loader-backhoe's blank and the demo machine's book, which is that blank measured. What holds for every blank
//! is beside this, in `every_blank.rs`.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use std::collections::BTreeSet;
use yard::book::{Book, GapCode, PointKind, gaps, read};

fn text(path: &str) -> String {
    std::fs::read_to_string(format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

fn book(path: &str) -> Book {
    let reading = read(&text(path), &Habits::default());
    assert_eq!(reading.troubles, [], "{path}");
    reading.book.unwrap()
}

const BLANK: &str = "blanks/tracked-loader-backhoe.toml";
const DEMO: &str = "demo/marigold.toml";

#[test]
fn the_blank_lacks_only_what_differs_from_machine_to_machine() {
    let book = book(BLANK);
    let codes: BTreeSet<&str> = gaps(&book).iter().map(|gap| gap.code.code()).collect();
    let expected = [
        "arm-lacks",
        "no-stop",
        "no-danger-zone",
        "measure-without-limit",
        "no-meter",
        "fluid-without-grade",
        "fluid-without-quantity",
        "pose-without-rods",
        "ram-not-measured",
        "no-distances",
        "no-masses",
        "ground-not-measured",
        "control-not-known",
    ];
    assert_eq!(codes, BTreeSet::from(expected));
}

#[test]
fn the_demo_machine_lacks_nothing() {
    assert_eq!(gaps(&book(DEMO)), []);
    assert!(book(DEMO).machine.invented);
}

#[test]
fn the_demo_machine_is_the_blank_measured() {
    let ids = |book: &Book| {
        book.points
            .iter()
            .map(|point| point.id.clone())
            .collect::<Vec<_>>()
    };
    assert_eq!(ids(&book(BLANK)), ids(&book(DEMO)));
}

#[test]
fn fittings_are_counted_not_lines() {
    let book = book(BLANK);
    let fittings = book
        .points
        .iter()
        .filter(|point| matches!(point.kind, PointKind::Fitting(_)));
    let (lines, count) = fittings.fold((0, 0), |(lines, count), point| {
        (lines + 1, count + point.count)
    });
    assert_eq!((lines, count), (25, 30));
}

/// Facts of the trade, common practice, no source: sag not under 3/4 in and not over 2 in under a board along the top.
#[test]
fn sag_has_the_limits_of_its_method() {
    let book = book(BLANK);
    for side in ["track-sag-left", "track-sag-right"] {
        let point = book
            .points
            .iter()
            .find(|point| point.id.as_str() == side)
            .unwrap();
        let PointKind::Measure(limit) = &point.kind else {
            panic!("{side} is no measure")
        };
        assert_eq!(
            (
                limit.min.as_ref().unwrap().text(),
                limit.max.as_ref().unwrap().text()
            ),
            ("3/4 in", "2 in")
        );
        assert_eq!(limit.method, "board along the top");
        assert_eq!(limit.readings.len(), 2);
    }
}

#[test]
fn every_number_of_the_trade_names_its_source() {
    for point in book(BLANK).points {
        assert_eq!(
            point.source.as_deref(),
            Some("common practice, no source"),
            "{}",
            point.id
        );
    }
}

/// Every place lies within what is drawn, so that its number can be led to it.
#[test]
fn places_lie_on_the_drawing() {
    for point in book(DEMO).points {
        let at = point.at.unwrap();
        assert!(
            (-3.70..=2.55).contains(&at.x) && at.y.abs() <= 1.31 && (0.0..=2.4).contains(&at.z),
            "{}",
            point.id
        );
    }
}

/// The lap in the blank is the shortest one, from the left side and ending at the seat's left.
#[test]
fn the_written_lap_is_no_longer_than_the_made_one() {
    let without: String = text(DEMO).replace("[lap]\norder = [", "[lap-not]\norder = [");
    let start = without.find("[lap-not]").unwrap();
    let end = start
        + without[start..]
            .find("\n[[")
            .or_else(|| without[start..].find("\n#"))
            .unwrap();
    let without = format!("{}{}", &without[..start], &without[end..]);
    let made = read(&without, &Habits::default()).book.unwrap();
    let length = |order: &[yard::id::StationId]| {
        let at = |id: &yard::id::StationId| {
            made.stations
                .iter()
                .find(|s| s.id == *id)
                .unwrap()
                .at
                .unwrap()
        };
        let way = |a: &yard::id::StationId, b: &yard::id::StationId| {
            apart(at(a).x - at(b).x, at(a).y - at(b).y)
        };
        order
            .windows(2)
            .map(|pair| way(&pair[0], &pair[1]))
            .sum::<f64>()
    };
    assert!(!made.lap_is_stewards && made.lap.len() == 9);
    assert!(length(&book(DEMO).lap) <= length(&made.lap) + 1.0);
}

fn apart(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

#[test]
fn gap_codes_stand_once() {
    let codes: BTreeSet<&str> = GapCode::ALL.iter().map(|code| code.code()).collect();
    assert_eq!(codes.len(), GapCode::ALL.len());
}
