//! The reference machine through its book: the tables of rest, swing, columns and oil, row by row.

use crate::program::{REFERENCE, asked, records};
use crate::reference::{RAMS, exact, is, lengths, limit, number};
use crate::table::{Row, close, rows};

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

#[test]
fn lying_on_the_bucket_and_bled() {
    let table = rows("resting.csv");
    let poses: Vec<[f64; 4]> = table.iter().map(|row| lengths(row, 0.0)).collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        limit(&record, "rest-flat-load", row, "all_load");
        limit(&record, "rest-flat-from-tooth", row, "all_from_tooth");
        limit(&record, "rest-flat-friction", row, "all_friction");
        limit(&record, "rest-boom-bled-load", row, "boom_bled_load");
        for ram in ["dipper", "bucket"] {
            exact(
                &record,
                &format!("rest-boom-bled-{ram}-thrust"),
                row,
                &format!("boom_bled_{ram}"),
            );
        }
        assert_eq!(record["rest-boom-bled-bucket-turned"], "yes");
    }
}

#[test]
fn torque_of_the_swing_over_its_travel() {
    let table = rows("swing.csv");
    let pose = |row: &Row| [1.29, 1.2045, 0.965_54, row.number("angle").to_degrees()];
    let poses: Vec<[f64; 4]> = table.iter().map(pose).collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        for (name, column) in [
            ("swing-length-left", "length_first"),
            ("swing-length-right", "length_second"),
            ("swing-lever-left", "lever_first"),
            ("swing-lever-right", "lever_second"),
        ] {
            is(&record, name, row, column, 1e-10, 1e-12);
        }
        for (name, column) in [
            ("left", "torque_plus"),
            ("right", "torque_minus"),
            ("holds", "torque_hold"),
        ] {
            exact(&record, &format!("swing-torque-{name}"), row, column);
        }
    }
}

#[test]
fn rams_as_columns() {
    let middle = [1.29, 1.2045, 0.965_54];
    let table = rows("buckling.csv");
    let place = |row: &Row| RAMS.iter().position(|ram| *ram == row.text("ram")).unwrap();
    let pose = |row: &Row| {
        let mut pose = [middle[0], middle[1], middle[2], 0.0];
        pose[place(row)] = row.number("length");
        pose
    };
    let poses: Vec<[f64; 4]> = table.iter().map(pose).collect();
    for (row, record) in table.iter().zip(records(REFERENCE, &poses)) {
        let ram = row.text("ram");
        for (name, column) in [
            ("critical", "critical"),
            ("rod-only", "rod_only"),
            ("reserve-working", "margin_working"),
            ("reserve-holding", "margin_holding"),
        ] {
            let expected = row.number(column);
            let name = format!("{ram}-column-{name}");
            close(number(&record, &name), expected, 1e-9, 1e-6, &name);
        }
    }
}
