//! The second machine against the table of an independent engine.

use serde_json::Value;

use crate::program::{SECOND, records};
use crate::table::{close, rows};

/// How far a figure may be off: a share, and a floor in its unit.
fn allowed(name: &str) -> (f64, f64) {
    match name {
        _ if name.contains("usable") => (1e-8, 1e-5),
        _ if name.contains("[N]") => (1e-10, 1e-6),
        _ => (1e-10, 1e-9),
    }
}

/// The limit that this word names, as the record gives it.
fn limit(record: &Value, cut: &str, stance: &str, word: &str) -> f64 {
    let name = match word.split_once(' ') {
        Some((kind, ram)) => format!("{cut}-{ram}-{kind}"),
        None if word == "tipping" => format!("{cut}-tips-{stance}"),
        None => format!("{cut}-slides-{stance}"),
    };
    record[name.as_str()]
        .as_f64()
        .unwrap_or_else(|| panic!("{name}: {record}"))
}

#[test]
fn the_second_machine_as_an_independent_engine_works_it_out() {
    let table = rows("second-machine.csv");
    let asked = [
        "boom length [m]",
        "dipper length [m]",
        "bucket length [m]",
        "swing angle [deg]",
    ];
    let poses: Vec<[f64; 4]> = table
        .iter()
        .map(|row| asked.map(|name| row.number(name)))
        .collect();
    let mut compared = 0;
    for (row, record) in table.iter().zip(records(SECOND, &poses)) {
        for (name, text) in row.all().filter(|(name, _)| !asked.contains(name)) {
            let key = name.split(" [").next().unwrap();
            let found = &record[key];
            match (text.parse::<f64>(), key.split_once("-governs-")) {
                (Ok(expected), _) => {
                    let (share, floor) = allowed(name);
                    let found = found.as_f64().unwrap_or_else(|| panic!("{name}: {found}"));
                    close(found, expected, share, floor, name);
                }
                // Of two limits as good as equal either may be named.
                (Err(_), Some((cut, stance))) => {
                    let least = record[format!("{cut}-usable-{stance}").as_str()]
                        .as_f64()
                        .unwrap();
                    if found != text {
                        close(limit(&record, cut, stance, text), least, 1e-8, 1e-5, name);
                    }
                }
                (Err(_), None) => assert_eq!(found, text, "{name}"),
            }
            compared += 1;
        }
    }
    assert!(compared > 60 * 40, "{compared}");
}
