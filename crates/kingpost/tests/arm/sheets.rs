//! Sheets of poses: what may be written, what is told, what is wrong.

use serde_json::Value;

use crate::program::{REFERENCE, SECOND, json, said, sheet};
use crate::table::{self, close, rows};

#[test]
fn extensions_in_millimetres_and_a_table_say_the_same() {
    let row = &rows("second-machine.csv")[0];
    let closed = [("boom", 705.0), ("dipper", 750.0), ("bucket", 675.0)];
    let out =
        closed.map(|(ram, closed)| row.number(&format!("{ram} length [m]")) * 1000.0 - closed);
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
    for name in [
        "tooth-r [m]",
        "tooth-z [m]",
        "boom-hanging-thrust [N]",
        "curl-per-newton-dipper",
    ] {
        close(found.number(name), row.number(name), 1e-9, 1e-9, name);
    }
    // What the book does not say stays empty, and is never nothing.
    assert_eq!(found.maybe("lift-rated-tracks [N]"), None);
    assert_eq!(found.text("rests-on-guess"), "no");
}

#[test]
fn an_impossible_pose_says_why_and_the_others_are_told() {
    let (_dir, file) =
        sheet("boom length [m],dipper length [m],bucket length [m]\n1.5,1,0.8\n1,1,0.8\n1,1,0.6\n");
    let told = json(&["arm", SECOND, "--poses", &file]);
    let poses = told["poses"].as_array().unwrap();
    let why = |pose: &Value| pose["impossible"].as_str().unwrap().to_owned();
    assert!(
        why(&poses[0]).contains("boom ram cannot be 1.5000 m long"),
        "{}",
        poses[0]
    );
    assert_eq!(
        (why(&poses[1]).as_str(), poses[1]["tooth-r"].is_f64()),
        ("", true)
    );
    assert!(why(&poses[2]).contains("bucket"), "{}", poses[2]);
    assert!(poses[2].get("tooth-r").is_none());
}

#[test]
fn a_pose_swung_past_the_stop_is_none() {
    let (_dir, file) = sheet(
        "boom length [m],dipper length [m],bucket length [m],swing angle [deg]\n1.29,1.2045,0.96554,75\n1.29,1.2045,0.96554,-76\n",
    );
    let told = json(&["arm", REFERENCE, "--poses", &file]);
    assert_eq!(told["poses"][0]["impossible"], "");
    let why = told["poses"][1]["impossible"].as_str().unwrap();
    assert!(why.contains("75.0°"), "{why}");
}

#[test]
fn everything_wrong_with_a_sheet_is_said_at_once_with_its_place() {
    let (_dir, file) =
        sheet("boom length,dipper length [mm],bucket reach [mm],stance\n900,x,800,ice\n1,2\n");
    let (text, code) = said(&["arm", SECOND, "--poses", &file]);
    assert_eq!(code, 3);
    for place in ["1:1 ·", "1:32 ·", "2:5 ·", "2:11 ·", "3:1 ·"] {
        assert!(text.contains(&format!("{file}:{place}")), "{place}: {text}");
    }
    assert_eq!(text.matches(" · ").count(), 5, "{text}");
    assert!(
        text.contains("“boom length” names no unit") && text.contains("tracks and blade"),
        "{text}"
    );
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
        close(
            of(2, &thrust) - of(2, &hanging),
            2000.0 * of(2, &format!("push-down-per-newton-{ram}")),
            1e-10,
            1e-6,
            ram,
        );
        // Forces add up, and the load's share is in what hangs.
        let added = of(1, &thrust) + of(2, &thrust) - 2.0 * of(0, &hanging);
        close(of(3, &thrust) - of(3, &hanging), added, 1e-9, 1e-6, ram);
        assert!((of(4, &hanging) - of(0, &hanging)).abs() > 1.0);
        assert!(poses[4].get(thrust.as_str()).is_none());
    }
}

#[test]
fn a_book_without_a_shape_says_what_to_measure() {
    let (_dir, file) = sheet("boom length [m],dipper length [m],bucket length [m]\n1,1,0.8\n");
    let (text, code) = said(&["arm", "cases/book/foreign.toml", "--poses", &file]);
    assert_eq!(code, 3, "{text}");
    assert!(text.contains("at in the table pin: boom-foot"), "{text}");
}
