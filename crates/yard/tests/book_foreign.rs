//! A book of another machine, by another hand: other stations, units and limits, opposite rams, no lap. It must need no
//! change of code.
#![allow(clippy::unwrap_used)]

use quantity::{Habits, Unit};
use yard::book::{Book, GapCode, GreaseUntil, LeakClass, PointKind, Rhythm, compare, gaps, read};

fn text() -> String {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../cases/book/foreign.toml");
    std::fs::read_to_string(path).unwrap()
}

fn tarn() -> Book {
    let reading = read(&text(), &Habits::default());
    assert_eq!(reading.troubles, []);
    reading.book.unwrap()
}

#[test]
fn it_reads_and_says_what_it_lacks() {
    let found = gaps(&tarn());
    assert!(found.iter().all(|gap| !gap.bears_on_safety), "{found:#?}");
    let codes: Vec<GapCode> = found.iter().map(|gap| gap.code).collect();
    assert_eq!(codes, []);
}

#[test]
fn its_lap_is_made_and_holds_every_station() {
    let book = tarn();
    assert!(!book.lap_is_stewards);
    let mut lap: Vec<_> = book.lap.iter().map(|station| station.as_str()).collect();
    assert_eq!(
        lap.first(),
        Some(&"cab"),
        "it starts at the station written first"
    );
    // Round the machine either way, never across it: the cab door and the front wheel are on the right, the nose in front, the
    // other wheels on the left, the engine behind.
    let one_way = ["cab", "far-wheels", "nose", "near-wheels", "tail"];
    let other_way = ["cab", "tail", "near-wheels", "nose", "far-wheels"];
    assert!(lap == one_way || lap == other_way, "{lap:?}");
    lap.sort_unstable();
    lap.dedup();
    assert_eq!(lap.len(), book.stations.len());
}

#[test]
fn its_units_are_kept_as_written() {
    let book = tarn();
    let holds = |id: &str| {
        book.fluids
            .iter()
            .find(|fluid| fluid.id.as_str() == id)
            .unwrap()
            .holds
            .clone()
            .unwrap()
    };
    assert_eq!(holds("sump-oil").text(), "1 3/4 imp gal");
    assert_eq!(holds("ram-oil").unit(), Unit::ImperialGallon);
    // 1 imp gal is 4.54609 L by definition (UK Weights and Measures Act 1985, schedule 1): 11 of them are 50.00699 L.
    assert!((holds("ram-oil").si_f64() - 0.050_006_99).abs() < 1e-12);
    let hoist = book
        .rams
        .iter()
        .find(|ram| ram.id.as_str() == "hoist")
        .unwrap();
    assert_eq!(hoist.bore.as_ref().unwrap().text(), "9 cm");
}

#[test]
fn its_rules_are_its_own() {
    let book = tarn();
    let kind = |id: &str| {
        &book
            .points
            .iter()
            .find(|point| point.id.as_str() == id)
            .unwrap()
            .kind
    };
    assert!(matches!(
        kind("winch-lines"),
        PointKind::Leak {
            out_from: LeakClass::II,
            ..
        }
    ));
    assert!(
        matches!(
            kind("diesel"),
            PointKind::Leak {
                out_from: LeakClass::I,
                ..
            }
        ),
        "any fuel leak is out"
    );
    assert!(
        matches!(kind("turntable"), PointKind::Fitting(rule) if rule.remote && rule.until == GreaseUntil::Strokes(6))
    );
    let nuts = book
        .points
        .iter()
        .find(|point| point.id.as_str() == "wheel-nuts")
        .unwrap();
    assert!(
        matches!(&nuts.rhythms[1], Rhythm::After { event, .. } if event.as_str() == "wheel-off")
    );
    let [(from, to)] = &book.renamed[..] else {
        panic!("one rename")
    };
    assert_eq!((from.as_str(), to.as_str()), ("king", "turntable"));
}

#[test]
fn a_point_that_goes_without_a_word_is_noticed() {
    let old = read(
        &text()
            .replace("\"turntable\"", "\"king\"")
            .replace("king = \"king\"", ""),
        &Habits::default(),
    )
    .book
    .unwrap();
    let new = tarn();
    let compared = compare(&old, &new);
    assert_eq!(compared.renamed.len(), 1);
    assert_eq!((compared.vanished, compared.added), (vec![], vec![]));
    let undeclared = read(
        &text().replace("king = \"turntable\"", ""),
        &Habits::default(),
    )
    .book
    .unwrap();
    let compared = compare(&old, &undeclared);
    assert_eq!(
        compared
            .vanished
            .iter()
            .map(|id| id.as_str())
            .collect::<Vec<_>>(),
        ["king"]
    );
    assert_eq!(
        compared
            .added
            .iter()
            .map(|id| id.as_str())
            .collect::<Vec<_>>(),
        ["turntable"]
    );
    assert!(compared.same_machine);
}
