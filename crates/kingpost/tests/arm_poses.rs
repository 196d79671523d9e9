//! The arm at the command line: figures of poses against tables made elsewhere, sheets that do not read, map and best pose.
#![allow(clippy::unwrap_used)]

mod table;

use assert_cmd::Command;
use serde_json::Value;
use std::{
    fs,
    path::{Path, PathBuf},
};
use table::{Row, close, rows};
use tempfile::TempDir;

const SECOND: &str = "cases/arm/second-machine-book.toml";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// What the program prints, and the code it ends with. There is no yard.
fn said(arguments: &[&str]) -> (String, i32) {
    let dir = TempDir::new().unwrap();
    let done = Command::cargo_bin("kingpost")
        .unwrap()
        .current_dir(root())
        .env("KINGPOST_DATA", dir.path())
        .args(arguments)
        .output()
        .unwrap();
    let text = if done.stdout.is_empty() { done.stderr } else { done.stdout };
    (String::from_utf8(text).unwrap(), done.status.code().unwrap())
}

fn json(arguments: &[&str]) -> Value {
    let (text, code) = said(&[&["--json"], arguments].concat());
    assert_eq!(code, 0, "{arguments:?}: {text}");
    serde_json::from_str(&text).unwrap()
}

/// A sheet of poses in a folder of its own.
fn sheet(text: &str) -> (TempDir, String) {
    let dir = TempDir::new().unwrap();
    let file = dir.path().join("poses.csv");
    fs::write(&file, text).unwrap();
    let file = file.to_str().unwrap().to_owned();
    (dir, file)
}

/// The records of these poses: boom, dipper and bucket ram's lengths in metres, swing in degrees.
fn records(book: &str, poses: &[[f64; 4]]) -> Vec<Value> {
    let mut text = "boom length [m],dipper length [m],bucket length [m],swing angle [deg]\n".to_owned();
    for [boom, dipper, bucket, swing] in poses {
        text += &format!("{boom},{dipper},{bucket},{swing}\n");
    }
    let (_dir, file) = sheet(&text);
    let told = json(&["arm", book, "--poses", &file]);
    assert_eq!(told["poses"].as_array().unwrap().len(), poses.len());
    told["poses"].as_array().unwrap().clone()
}

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
    record[name.as_str()].as_f64().unwrap_or_else(|| panic!("{name}: {record}"))
}

#[test]
fn the_second_machine_as_an_independent_engine_works_it_out() {
    let table = rows("second-machine.csv");
    let asked = ["boom length [m]", "dipper length [m]", "bucket length [m]", "swing angle [deg]"];
    let poses: Vec<[f64; 4]> = table.iter().map(|row| asked.map(|name| row.number(name))).collect();
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
                    let least = record[format!("{cut}-usable-{stance}").as_str()].as_f64().unwrap();
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

#[test]
fn extensions_in_millimetres_and_a_table_say_the_same() {
    let row = &rows("second-machine.csv")[0];
    let closed = [("boom", 705.0), ("dipper", 750.0), ("bucket", 675.0)];
    let out = closed.map(|(ram, closed)| row.number(&format!("{ram} length [m]")) * 1000.0 - closed);
    let text = format!(
        "pose;Boom extension [mm];dipper_extension (mm);bucket extension mm\nfirst;{:.3};{:.3};{:.3}\n",
        out[0], out[1], out[2]
    );
    let (_dir, file) = sheet(&text);
    let (table, code) = said(&["arm", SECOND, "--poses", &file]);
    assert_eq!(code, 0, "{table}");
    let table = table::read(&table);
    assert_eq!(table.len(), 1);
    let found = &table[0];
    assert_eq!(found.text("pose"), "first");
    for name in ["tooth-r [m]", "tooth-z [m]", "boom-hanging-thrust [N]", "curl-per-newton-dipper"] {
        close(found.number(name), row.number(name), 1e-9, 1e-9, name);
    }
    // What the book does not say stays empty, and is never nothing.
    assert_eq!(found.maybe("lift-rated-tracks [N]"), None);
    assert_eq!(found.text("rests-on-guess"), "no");
}

#[test]
fn an_impossible_pose_says_why_and_the_others_are_told() {
    let (_dir, file) = sheet("boom length [m],dipper length [m],bucket length [m]\n1.5,1,0.8\n1,1,0.8\n1,1,0.6\n");
    let told = json(&["arm", SECOND, "--poses", &file]);
    let poses = told["poses"].as_array().unwrap();
    let why = |pose: &Value| pose["impossible"].as_str().unwrap().to_owned();
    assert!(why(&poses[0]).contains("boom ram cannot be 1.5000 m long"), "{}", poses[0]);
    assert_eq!((why(&poses[1]).as_str(), poses[1]["tooth-r"].is_f64()), ("", true));
    assert!(why(&poses[2]).contains("bucket"), "{}", poses[2]);
    assert!(poses[2].get("tooth-r").is_none());
}

#[test]
fn everything_wrong_with_a_sheet_is_said_at_once_with_its_place() {
    let (_dir, file) = sheet("boom length,dipper length [mm],bucket reach [mm],stance\n900,x,800,ice\n1,2\n");
    let (text, code) = said(&["arm", SECOND, "--poses", &file]);
    assert_eq!(code, 3);
    for place in ["1:1 ·", "1:29 ·", "2:5 ·", "2:11 ·", "3:1 ·"] {
        assert!(text.contains(&format!("{file}:{place}")), "{place}: {text}");
    }
    assert!(text.contains("“boom length” names no unit") && text.contains("tracks and blade"), "{text}");
}

#[test]
fn a_force_at_the_tooth_and_a_load_in_the_bucket_are_asked_in_the_sheet() {
    let (_dir, file) = sheet(
        "boom length [m],dipper length [m],bucket length [m],load [kg],tooth force out [kN],tooth force up [kN]\n\
         1,1,0.8,0,0,0\n1,1,0.8,0,2,0\n1,1,0.8,0,0,2\n1,1,0.8,50,2,2\n1,1,0.8,50,,\n",
    );
    let told = json(&["arm", SECOND, "--poses", &file]);
    let poses = told["poses"].as_array().unwrap();
    for ram in ["boom", "dipper", "bucket"] {
        let (hanging, thrust) = (format!("{ram}-hanging-thrust"), format!("{ram}-thrust"));
        let of = |pose: usize, name: &str| poses[pose][name].as_f64().unwrap();
        close(of(0, &thrust), of(0, &hanging), 1e-12, 1e-9, ram);
        close(of(2, &thrust) - of(2, &hanging), 2000.0 * of(2, &format!("push-down-per-newton-{ram}")), 1e-10, 1e-6, ram);
        // Forces add up, and the load's share is in what hangs.
        let added = of(1, &thrust) + of(2, &thrust) - 2.0 * of(0, &hanging);
        close(of(3, &thrust) - of(3, &hanging), added, 1e-9, 1e-6, ram);
        assert!((of(4, &hanging) - of(0, &hanging)).abs() > 1.0);
        assert!(poses[4].get(thrust.as_str()).is_none());
    }
}

#[test]
fn squares_of_the_map_are_as_strong_as_their_poses_and_the_best_pose_is_no_weaker() {
    let map = json(&["arm", SECOND, "--map", "--direction", "crowd", "--steps", "21", "--square", "20 cm"]);
    let squares = map["squares"].as_array().unwrap();
    assert!(squares.len() > 100);
    let some: Vec<&Value> = squares.iter().step_by(29).collect();
    let lengths = |square: &Value| ["boom", "dipper", "bucket"].map(|ram| square[format!("{ram}-length").as_str()].as_f64().unwrap());
    let poses: Vec<[f64; 4]> = some.iter().map(|square| lengths(square)).map(|[boom, dipper, bucket]| [boom, dipper, bucket, 0.0]).collect();
    for (square, record) in some.iter().zip(records(SECOND, &poses)) {
        close(record["crowd-usable"].as_f64().unwrap(), square["usable"].as_f64().unwrap(), 1e-8, 1e-5, "usable");
        assert_eq!(record["crowd-governs"], square["governs"]);
        for (place, from) in [("tooth-r", "r-from"), ("tooth-z", "z-from")] {
            let (place, from) = (record[place].as_f64().unwrap(), square[from].as_f64().unwrap());
            assert!(place >= from - 1e-9 && place < from + 0.2 + 1e-9, "{place} {from}");
        }
    }
    let most = squares.iter().map(|square| square["usable"].as_f64().unwrap()).fold(0.0, f64::max);
    let best = json(&["arm", SECOND, "--strongest", "--direction", "crowd", "--steps", "21"]);
    let best = &best["strongest"][0];
    assert!(best["usable"].as_f64().unwrap() >= most * (1.0 - 1e-12), "{best}");
    let [boom, dipper, bucket] = lengths(best);
    let record = &records(SECOND, &[[boom, dipper, bucket, 0.0]])[0];
    close(record["crowd-usable"].as_f64().unwrap(), best["usable"].as_f64().unwrap(), 1e-8, 1e-5, "best");
}

#[test]
fn the_pins_are_told_with_how_they_are_known() {
    let told = json(&["arm", SECOND, "--survey"]);
    let pins = told["pins"].as_array().unwrap();
    let eye = pins.iter().find(|pin| pin["id"] == "boom-ram-rod").unwrap();
    assert_eq!((eye["on"].as_str(), eye["known"].as_str()), (Some("boom"), Some("measured")));
    assert_eq!(eye["at"], serde_json::json!([0.98, 0.24]));
    assert_eq!(told["guesses"]["shape"], false);
    let (text, code) = said(&["arm", SECOND, "--survey"]);
    assert!(code == 0 && text.contains("boom-ram-rod"), "{text}");
}

#[test]
fn a_machine_of_the_yard_is_asked_by_its_id() {
    let dir = TempDir::new().unwrap();
    let yard = |arguments: &[&str]| {
        let done = Command::cargo_bin("kingpost").unwrap().current_dir(root()).env("KINGPOST_DATA", dir.path().join("yard")).args(arguments).output().unwrap();
        assert!(done.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
        String::from_utf8(done.stdout).unwrap()
    };
    yard(&["yard", "new", "Invented yard", "--steward", "Jo"]);
    yard(&["book", "adopt", SECOND, "--by", "Jo"]);
    let (_sheet, file) = sheet("boom length [m],dipper length [m],bucket length [m]\n1,1,0.8\n");
    let by_id = yard(&["arm", "second-machine", "--poses", &file]);
    assert_eq!(by_id, yard(&["arm", SECOND, "--poses", &file]));
}

#[test]
fn a_book_without_a_shape_says_what_to_measure() {
    let (_dir, file) = sheet("boom length [m],dipper length [m],bucket length [m]\n1,1,0.8\n");
    let (text, code) = said(&["arm", "cases/book/foreign.toml", "--poses", &file]);
    assert_eq!(code, 3, "{text}");
    assert!(text.contains("pin"), "{text}");
}
