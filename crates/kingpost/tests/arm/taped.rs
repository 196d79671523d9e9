//! The second machine taped from pin to pin, with a tape's own errors: its figures by the tape alone, against the true ones.

use serde_json::Value;
use std::{collections::BTreeMap, fs};
use tempfile::TempDir;

use crate::program::{SECOND, asked, json, root};
use crate::table::{close, rows};

/// Pins that one can put a tape to without moving the arm.
const ON_ONE_LINK: [&[&str]; 4] = [
    &["boom-foot", "boom-ram-barrel", "ground", "swing-axis"],
    &[
        "boom-foot",
        "boom-ram-rod",
        "dipper-ram-barrel",
        "dipper-pin",
    ],
    &[
        "dipper-pin",
        "dipper-ram-rod",
        "bucket-ram-barrel",
        "lever-pin",
        "bucket-pin",
    ],
    &["bucket-pin", "link-pin", "tooth", "heel"],
];

/// True places, each in the frame of its own link.
fn pins() -> BTreeMap<String, [f64; 2]> {
    let told = json(&["arm", SECOND, "--survey"]);
    let number = |value: &Value| value.as_f64().unwrap();
    let pin = |pin: &Value| {
        (
            pin["id"].as_str().unwrap().to_owned(),
            [number(&pin["at"][0]), number(&pin["at"][1])],
        )
    };
    told["pins"].as_array().unwrap().iter().map(pin).collect()
}

/// Errors of a tape: about normal, sums of evenly spread numbers, of this standard deviation in metres.
struct Tape {
    state: u64,
    spread: f64,
}

impl Tape {
    fn reads(&mut self, length: f64) -> f64 {
        let mut even = || {
            self.state = self
                .state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (self.state >> 11) as f64 / (1_u64 << 53) as f64
        };
        let sum: f64 = (0..12).map(|_| even()).sum();
        length + (sum - 6.0) * self.spread
    }
}

/// The book as it is with a blank's pins, some centimetres off, and what the tape says.
fn taped(mut tape: Tape) -> String {
    let pins = pins();
    let mut distances = String::new();
    for link in ON_ONE_LINK {
        for (at, one) in link.iter().enumerate() {
            for other in &link[at + 1..] {
                let Some(length) = between(&pins, link, one, other) else {
                    continue;
                };
                let reads = tape.reads(length);
                distances += &format!(
                    "[[distance]]\nfrom = \"{one}\"\nto = \"{other}\"\nis = \"{reads:.5} m ± 3 mm\"\n\n"
                );
            }
        }
    }
    let text = fs::read_to_string(root().join(SECOND)).unwrap();
    let nominal = text
        .replace("known = \"measured\"", "known = \"guess\"")
        .replace("[\"0.98 m\", \"0.24 m\"]", "[\"1 m\", \"0.2 m\"]")
        .replace("[\"965 mm\", \"30 mm\"]", "[\"95 cm\", \"5 cm\"]");
    assert_ne!(nominal, text);
    nominal.replace("# --- Rams ---", &format!("{distances}# --- Rams ---"))
}

/// The true distance; none between the ground and the swing axis.
fn between(
    pins: &BTreeMap<String, [f64; 2]>,
    link: &[&str],
    one: &str,
    other: &str,
) -> Option<f64> {
    // The first pin of a link beyond the post is where its frame begins.
    let place = |pin: &str| {
        if pin == link[0] && link[2] != "ground" {
            [0.0, 0.0]
        } else {
            pins[pin]
        }
    };
    Some(match (one, other) {
        ("ground", _) => return None,
        (pin, "ground") => place(pin)[1],
        (pin, "swing-axis") => place(pin)[0],
        _ => {
            let ([ar, az], [br, bz]) = (place(one), place(other));
            ((ar - br).powi(2) + (az - bz).powi(2)).sqrt()
        }
    })
}

/// The figures of the table's first poses by a taped book, beside the true ones.
fn beside_truth(tape: Tape, see: impl Fn(&Value, &crate::table::Row)) -> Value {
    let dir = TempDir::new().unwrap();
    let file = dir.path().join("taped.toml");
    fs::write(&file, taped(tape)).unwrap();
    let book = file.to_str().unwrap();
    let table = rows("second-machine.csv");
    let lengths = ["boom length [m]", "dipper length [m]", "bucket length [m]"];
    let sheet: Vec<Vec<String>> = table
        .iter()
        .take(20)
        .map(|row| lengths.map(|name| row.text(name).to_owned()).to_vec())
        .collect();
    for (row, record) in table.iter().zip(asked(book, &lengths.join(","), &sheet)) {
        see(&record, row);
    }
    json(&["arm", book, "--survey"])
}

#[test]
fn a_perfect_tape_gives_the_machine_back() {
    let perfect = Tape {
        state: 1,
        spread: 0.0,
    };
    let told = beside_truth(perfect, |record, row| {
        for name in ["tooth-r", "tooth-z"] {
            // Distances are written to a hundredth of a millimetre.
            close(
                record[name].as_f64().unwrap(),
                row.number(&format!("{name} [m]")),
                0.0,
                1e-3,
                name,
            );
        }
        close(
            record["boom-hanging-thrust"].as_f64().unwrap(),
            row.number("boom-hanging-thrust [N]"),
            1e-3,
            1.0,
            "thrust",
        );
    });
    assert_eq!(told["survey"]["complete"], true);
    assert_eq!(told["survey"]["findings"], serde_json::json!([]));
}

#[test]
fn a_tape_with_its_errors_stays_within_what_it_says_of_itself() {
    let tape = Tape {
        state: 20_260_511,
        spread: 0.0015,
    };
    let told = beside_truth(tape, |record, row| {
        for axis in ["r", "z"] {
            let half = record[format!("tooth-plus-minus-{axis}").as_str()]
                .as_f64()
                .unwrap();
            let name = format!("tooth-{axis}");
            // Twenty poses of one survey: twice the 95 % half width is four standard deviations.
            close(
                record[name.as_str()].as_f64().unwrap(),
                row.number(&format!("{name} [m]")),
                0.0,
                2.0 * half,
                &name,
            );
            assert!(half > 0.001 && half < 0.12, "{half}");
        }
        for ram in ["boom", "dipper"] {
            let name = format!("{ram}-hanging-thrust");
            let expected = row.number(&format!("{name} [N]"));
            close(
                record[name.as_str()].as_f64().unwrap(),
                expected,
                0.03,
                250.0,
                &name,
            );
        }
    });
    assert_eq!(told["survey"]["complete"], true);
    assert!(told["survey"]["tooth_plus_minus"].as_f64().unwrap() > 0.01);
}

#[test]
fn how_likely_each_limit_is_comes_with_pins_that_were_taped() {
    let dir = TempDir::new().unwrap();
    let (book, sheet) = (dir.path().join("taped.toml"), dir.path().join("poses.csv"));
    fs::write(
        &book,
        taped(Tape {
            state: 7,
            spread: 0.0015,
        }),
    )
    .unwrap();
    fs::write(
        &sheet,
        "boom length [m],dipper length [m],bucket length [m]\n1,1,0.8\n",
    )
    .unwrap();
    let told = json(&[
        "arm",
        book.to_str().unwrap(),
        "--poses",
        sheet.to_str().unwrap(),
        "--likely",
        "200",
    ]);
    let pose = &told["poses"][0];
    for cut in ["curl", "crowd", "push-down", "pull-up"] {
        let of = |what: &str| {
            pose[format!("{cut}-likely-{what}").as_str()]
                .as_f64()
                .unwrap()
        };
        assert!(of("share") > 0.25 && of("share") <= 1.0, "{pose}");
        let usable = pose[format!("{cut}-usable").as_str()].as_f64().unwrap();
        assert!(
            of("usable-low") < usable && usable < of("usable-high"),
            "{cut}: {pose}"
        );
        assert!(
            of("usable-high") - of("usable-low") < 0.15 * usable,
            "{cut}: {pose}"
        );
    }
}
