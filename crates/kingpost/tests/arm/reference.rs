//! The reference machine through its book: every table of `cases/arm`, row by row.

use serde_json::Value;

use crate::program::{REFERENCE, asked, records};
use crate::table::{Row, close, rows};

const RAMS: [&str; 3] = ["boom", "dipper", "bucket"];

/// What the tables call a way of standing, and what the book does.
const STANCES: [(&str, &str); 3] = [
    ("tracks", "tracks"),
    ("tracks_and_stabilisers", "feet"),
    ("bucket_and_stabilisers", "loader-and-feet"),
];

fn lengths(row: &Row, swing: f64) -> [f64; 4] {
    let [boom, dipper, bucket] = RAMS.map(|ram| row.number(&format!("{ram}_length")));
    [boom, dipper, bucket, swing]
}

#[track_caller]
fn number(record: &Value, name: &str) -> f64 {
    record[name]
        .as_f64()
        .unwrap_or_else(|| panic!("{name}: {} {}", record[name], record["not_known"][name]))
}

#[track_caller]
fn is(record: &Value, name: &str, row: &Row, column: &str, share: f64, floor: f64) {
    match row.maybe(column) {
        Some(expected) => close(number(record, name), expected, share, floor, name),
        None => assert_eq!(record[name], "unlimited", "{name}"),
    }
}

/// Limits are quotients, and may be badly conditioned.
#[track_caller]
fn limit(record: &Value, name: &str, row: &Row, column: &str) {
    is(record, name, row, column, 1e-8, 1e-6);
}

#[track_caller]
fn exact(record: &Value, name: &str, row: &Row, column: &str) {
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
fn what_is_shut_in_when_it_hangs() {
    let table = rows("hanging.csv");
    let row = |row: &Row, load: &str| {
        let mut cells: Vec<String> = lengths(row, 0.0)[..3]
            .iter()
            .map(ToString::to_string)
            .collect();
        cells.push(load.to_owned());
        cells
    };
    let heading = "boom length [m],dipper length [m],bucket length [m],load [kg]";
    let with = |load: &str| {
        asked(
            REFERENCE,
            heading,
            &table.iter().map(|one| row(one, load)).collect::<Vec<_>>(),
        )
    };
    for ((row, empty), loaded) in table.iter().zip(with("0")).zip(with("200")) {
        for ram in RAMS {
            exact(
                &empty,
                &format!("rest-{ram}-thrust"),
                row,
                &format!("thrust_{ram}"),
            );
            exact(
                &loaded,
                &format!("{ram}-hanging-thrust"),
                row,
                &format!("loaded_{ram}"),
            );
            exact(
                &empty,
                &format!("rest-pinned-{ram}-thrust"),
                row,
                &format!("pinned_{ram}"),
            );
            let side = empty[format!("rest-{ram}-side").as_str()].as_str().unwrap();
            let column = if side == "piston" {
                format!("cap_{ram}")
            } else {
                format!("rod_{ram}")
            };
            is(
                &empty,
                &format!("rest-{ram}-pressure"),
                row,
                &column,
                1e-10,
                1e-3,
            );
        }
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

#[test]
fn the_swing_and_the_boom_under_its_side_force() {
    let table = rows("swing-poses.csv");
    let poses: Vec<[f64; 4]> = table.iter().map(|row| lengths(row, 0.0)).collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        is(&record, "swing-speed", row, "speed", 1e-10, 1e-10);
        exact(&record, "swing-side-force", row, "side_force");
        for (number, place) in [(1, "root"), (2, "mid")] {
            for (figure, unit) in [
                ("bending", 1e-6),
                ("torsion", 1e-6),
                ("normal", 1e-2),
                ("shear", 1e-2),
                ("mises", 1e-2),
            ] {
                // The program tells sizes, the table has signs.
                let expected = row.number(&format!("{place}_{figure}")).abs();
                let name = format!("boom-section-{number}-{figure}");
                close(self::number(&record, &name), expected, 1e-10, unit, &name);
            }
        }
    }
}

#[test]
fn the_oil_in_its_tank() {
    let table = rows("tank.csv");
    let heading = "boom extension [m],dipper extension [m],bucket extension [m],loader-lift-rams out,loader-tilt-rams out,feet-rams out [of one],oil temperature [C]";
    let strokes = [0.71, 0.675, 0.545];
    let sheet: Vec<Vec<String>> = table
        .iter()
        .map(|row| {
            let rams = RAMS
                .iter()
                .zip(strokes)
                .map(|(ram, stroke)| (row.number(&format!("{ram}_out")) * stroke).to_string());
            let others = [
                "loader_lift_out",
                "loader_tilt_out",
                "stabiliser_out",
                "temperature",
            ]
            .map(|name| row.text(name).to_owned());
            rams.chain(others).collect()
        })
        .collect();
    for (row, record) in table.iter().zip(asked(REFERENCE, heading, &sheet)) {
        is(&record, "oil-level", row, "level", 1e-9, 1e-9);
        is(&record, "oil-volume", row, "tank_volume", 1e-9, 1e-9);
    }
}
