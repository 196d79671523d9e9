//! The map, the best poses, the pins; a book and a machine of the yard are asked alike.

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

use crate::program::{SECOND, json, records, root, said, sheet};
use crate::table::close;

#[test]
fn squares_of_the_map_are_as_strong_as_their_poses_and_the_best_pose_is_no_weaker() {
    let map = json(&[
        "arm",
        SECOND,
        "--map",
        "--direction",
        "crowd",
        "--steps",
        "21",
        "--square",
        "20 cm",
    ]);
    let squares = map["squares"].as_array().unwrap();
    assert!(squares.len() > 100);
    let some: Vec<&Value> = squares.iter().step_by(29).collect();
    let lengths = |square: &Value| {
        ["boom", "dipper", "bucket"]
            .map(|ram| square[format!("{ram}-length").as_str()].as_f64().unwrap())
    };
    let poses: Vec<[f64; 4]> = some
        .iter()
        .map(|square| lengths(square))
        .map(|[boom, dipper, bucket]| [boom, dipper, bucket, 0.0])
        .collect();
    for (square, record) in some.iter().zip(records(SECOND, &poses)) {
        close(
            record["crowd-usable"].as_f64().unwrap(),
            square["usable"].as_f64().unwrap(),
            1e-8,
            1e-5,
            "usable",
        );
        assert_eq!(record["crowd-governs"], square["governs"]);
        for (place, from) in [("tooth-r", "r-from"), ("tooth-z", "z-from")] {
            let (place, from) = (
                record[place].as_f64().unwrap(),
                square[from].as_f64().unwrap(),
            );
            assert!(
                place >= from - 1e-9 && place < from + 0.2 + 1e-9,
                "{place} {from}"
            );
        }
    }
    let most = squares
        .iter()
        .map(|square| square["usable"].as_f64().unwrap())
        .fold(0.0, f64::max);
    let best = json(&[
        "arm",
        SECOND,
        "--strongest",
        "--direction",
        "crowd",
        "--steps",
        "21",
    ]);
    let best = &best["strongest"][0];
    assert!(
        best["usable"].as_f64().unwrap() >= most * (1.0 - 1e-12),
        "{best}"
    );
    let [boom, dipper, bucket] = lengths(best);
    let record = &records(SECOND, &[[boom, dipper, bucket, 0.0]])[0];
    close(
        record["crowd-usable"].as_f64().unwrap(),
        best["usable"].as_f64().unwrap(),
        1e-8,
        1e-5,
        "best",
    );
}

#[test]
fn the_pins_are_told_with_how_they_are_known() {
    let told = json(&["arm", SECOND, "--survey"]);
    let pins = told["pins"].as_array().unwrap();
    let eye = pins.iter().find(|pin| pin["id"] == "boom-ram-rod").unwrap();
    assert_eq!(
        (eye["on"].as_str(), eye["known"].as_str()),
        (Some("boom"), Some("measured"))
    );
    assert_eq!(eye["at"], serde_json::json!([0.98, 0.24]));
    assert_eq!(told["guesses"]["shape"], false);
    let (text, code) = said(&["arm", SECOND, "--survey"]);
    assert!(code == 0 && text.contains("boom-ram-rod"), "{text}");
}

#[test]
fn a_machine_of_the_yard_is_asked_by_its_id() {
    let dir = TempDir::new().unwrap();
    let yard = |arguments: &[&str]| {
        let done = Command::cargo_bin("kingpost")
            .unwrap()
            .current_dir(root())
            .env("KINGPOST_DATA", dir.path().join("yard"))
            .args(arguments)
            .output()
            .unwrap();
        assert!(
            done.status.success(),
            "{arguments:?}: {}",
            String::from_utf8_lossy(&done.stderr)
        );
        String::from_utf8(done.stdout).unwrap()
    };
    yard(&["yard", "new", "Invented yard", "--steward", "Jo"]);
    yard(&["book", "adopt", SECOND, "--by", "Jo"]);
    let (_sheet, file) = sheet("boom length [m],dipper length [m],bucket length [m]\n1,1,0.8\n");
    let by_id = yard(&["arm", "second-machine", "--poses", &file]);
    assert_eq!(by_id, yard(&["arm", SECOND, "--poses", &file]));
}
