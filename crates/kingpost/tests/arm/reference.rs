//! The reference machine through its book: the tables of `cases/arm` of places, forces and standing, row by row.

use serde_json::Value;

use crate::program::{REFERENCE, records};
use crate::table::{Row, close, rows};

pub(crate) const RAMS: [&str; 3] = ["boom", "dipper", "bucket"];

/// What the tables call a way of standing, and what the book does.
const STANCES: [(&str, &str); 3] = [
    ("tracks", "tracks"),
    ("tracks_and_stabilisers", "feet"),
    ("bucket_and_stabilisers", "loader-and-feet"),
];

pub(crate) fn lengths(row: &Row, swing: f64) -> [f64; 4] {
    let [boom, dipper, bucket] = RAMS.map(|ram| row.number(&format!("{ram}_length")));
    [boom, dipper, bucket, swing]
}

#[track_caller]
pub(crate) fn number(record: &Value, name: &str) -> f64 {
    record[name]
        .as_f64()
        .unwrap_or_else(|| panic!("{name}: {} {}", record[name], record["not_known"][name]))
}

#[track_caller]
pub(crate) fn is(record: &Value, name: &str, row: &Row, column: &str, share: f64, floor: f64) {
    match row.maybe(column) {
        Some(expected) => close(number(record, name), expected, share, floor, name),
        None => assert_eq!(record[name], "unlimited", "{name}"),
    }
}

/// Limits are quotients, and may be badly conditioned.
#[track_caller]
pub(crate) fn limit(record: &Value, name: &str, row: &Row, column: &str) {
    is(record, name, row, column, 1e-8, 1e-6);
}

#[track_caller]
pub(crate) fn exact(record: &Value, name: &str, row: &Row, column: &str) {
    is(record, name, row, column, 1e-10, 1e-6);
}

#[test]
fn places_of_every_pose() {
    let table = rows("poses.csv");
    let poses: Vec<[f64; 4]> = table.iter().map(|row| lengths(row, 0.0)).collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        for (pin, column) in [
            ("tooth", "tooth"),
            ("heel", "heel"),
            ("bucket-pin", "bucket_pin"),
            ("dipper-pin", "dipper_pin"),
            ("bucket-ram-rod", "shared"),
            ("link-pin", "link_pin"),
        ] {
            for axis in ["r", "z"] {
                is(
                    &record,
                    &format!("{pin}-{axis}"),
                    row,
                    &format!("{column}_{axis}"),
                    1e-10,
                    1e-12,
                );
            }
        }
        for ram in RAMS {
            let angle = row.number(&format!("{ram}_angle")).to_degrees();
            close(
                number(&record, &format!("{ram}-angle")),
                angle,
                1e-10,
                1e-10,
                ram,
            );
        }
    }
}

#[test]
fn forces_limits_and_what_governs() {
    let poses = rows("poses.csv");
    let asked: Vec<[f64; 4]> = poses.iter().map(|row| lengths(row, 0.0)).collect();
    let records = records(REFERENCE, &asked);
    for row in rows("forces.csv") {
        let at = poses
            .iter()
            .position(|pose| pose.text("pose") == row.text("pose"))
            .unwrap();
        let (record, cut) = (&records[at], row.text("cut").replace('_', "-"));
        for ram in RAMS {
            exact(
                record,
                &format!("{ram}-hanging-thrust"),
                &row,
                &format!("hanging_{ram}"),
            );
            exact(
                record,
                &format!("{cut}-per-newton-{ram}"),
                &row,
                &format!("per_newton_{ram}"),
            );
            limit(
                record,
                &format!("{cut}-{ram}-working"),
                &row,
                &format!("working_{ram}"),
            );
            limit(
                record,
                &format!("{cut}-{ram}-holding"),
                &row,
                &format!("holding_{ram}"),
            );
        }
        for (column, stance) in STANCES {
            limit(
                record,
                &format!("{cut}-tips-{stance}"),
                &row,
                &format!("tips_{column}"),
            );
        }
        limit(record, &format!("{cut}-slides-tracks"), &row, "slides");
        limit(record, &format!("{cut}-usable"), &row, "usable");
        let governs = row
            .text("governs")
            .replace("_ram_active", "")
            .replace("_ram_holding", "");
        assert!(
            record[format!("{cut}-governs").as_str()]
                .as_str()
                .unwrap()
                .ends_with(governs.as_str()),
            "{governs}"
        );
        assert_eq!(record[format!("{cut}-stance").as_str()], "loader-and-feet");
    }
}

#[test]
fn how_it_stands_swung_to_either_side() {
    let table = rows("stability.csv");
    let poses: Vec<[f64; 4]> = table
        .iter()
        .map(|row| lengths(row, row.number("swing_degrees")))
        .collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        let (_, stance) = STANCES
            .iter()
            .find(|(column, _)| *column == row.text("stance"))
            .unwrap();
        exact(&record, &format!("load-{stance}"), row, "load");
        is(
            &record,
            &format!("load-point-y-{stance}"),
            row,
            "place_y",
            1e-10,
            1e-10,
        );
        // The tables' x begins at the swing axis, the machine's under the middle of its undercarriage.
        let x = row.number("place_x") - 1.825;
        close(
            number(&record, &format!("load-point-x-{stance}")),
            x,
            1e-10,
            1e-10,
            "x",
        );
        let tips = row.number("tipping_kg") * 9.806_65;
        close(
            number(&record, &format!("tips-at-pin-{stance}")),
            tips,
            1e-8,
            1e-6,
            "tipping",
        );
        for edge in 0..4 {
            is(
                &record,
                &format!("edge-moment-{stance}-{}", edge + 1),
                row,
                &format!("edge_{edge}"),
                1e-10,
                1e-5,
            );
        }
        for (cut, column) in [
            ("curl", "curl"),
            ("push-down", "push_down"),
            ("pull-up", "pull_up"),
        ] {
            limit(
                &record,
                &format!("{cut}-tips-{stance}"),
                row,
                &format!("tips_{column}"),
            );
        }
    }
}
