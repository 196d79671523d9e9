//! What a book does not say is listed, and what bears on safety comes first.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use std::collections::BTreeSet;
use yard::book::{Gap, GapCode, gaps, joints_to_find, read};

const MACHINE: &str = "kingpost = 1\n[machine]\nid = \"m\"\nname = \"M\"\nkind = \"k\"\n";
const STATION: &str = "[[station]]\nid = \"here\"\nname = \"Here\"\n";

fn found(rest: &str) -> Vec<Gap> {
    let text = format!("{MACHINE}{rest}");
    let read = read(&text, &Habits::default());
    assert_eq!(read.troubles, [], "{text}");
    gaps(&read.book.unwrap())
}

fn point(kind: &str, more: &str) -> String {
    format!(
        "{STATION}[[point]]\nid = \"p\"\nstation = \"here\"\nkind = \"{kind}\"\nwhat = \"What\"\nrhythm = \"every start\"\n{more}\n"
    )
}

/// Each gap with the smallest book that has it: what is written, its id, whether it bears on safety.
fn cases() -> Vec<(String, &'static str, bool)> {
    let of = |text: &str, id, safety| (text.to_owned(), id, safety);
    vec![
        of("", "no-stop", true),
        of("", "no-danger-zone", true),
        of("", "no-ground", true),
        of("", "no-points", true),
        of("", "no-meter", false),
        of("", "no-greasing-habit", false),
        of("", "no-rams", false),
        of("", "no-distances", false),
        of("", "no-masses", false),
        of("", "no-start", false),
        of("", "no-stop-and-tell", false),
        of("", "no-drawing", false),
        of("", "no-rest-step:lowered", true),
        of("", "no-rest-step:neutral", true),
        of("", "no-rest-step:brake", true),
        of("", "no-rest-step:engine-off", true),
        of("[ground]\non = \"wheels\"\n", "ground-not-measured", false),
        of(STATION, "station-without-place:here", false),
        of(
            "[[fluid]]\nid = \"oil\"\nname = \"Oil\"\n",
            "fluid-without-grade:oil",
            false,
        ),
        of(
            "[[fluid]]\nid = \"oil\"\nname = \"Oil\"\n",
            "fluid-without-quantity:oil",
            false,
        ),
        of(
            "[[ram]]\nid = \"boom\"\nname = \"Boom\"\nbore = \"90 mm\"\n",
            "ram-not-measured:boom",
            false,
        ),
        of(
            "[[ram]]\nid = \"boom\"\nname = \"Boom\"\nmoves = \"boom\"\n",
            "arm-lacks:ram.moves bucket",
            false,
        ),
        of(
            "[[weakness]]\nid = \"frost\"\nwhat = \"Frost\"\n",
            "weakness-not-watched:frost",
            false,
        ),
        of(
            "[[control]]\nid = \"lever\"\nname = \"Lever\"\n",
            "control-not-known:lever",
            false,
        ),
        of(
            "[[rest]]\nid = \"pin\"\nis = \"lock\"\nwhat = \"Pin in\"\n",
            "rest-without-proof:pin",
            false,
        ),
        of(
            "[[joint]]\nid = \"eye\"\nname = \"Eye\"\n",
            "joint-without-fitting:eye",
            false,
        ),
        (
            point("function", "about = \"signals\""),
            "no-point-for:brakes",
            true,
        ),
        (
            point("function", "about = \"signals\""),
            "no-point-for:steering",
            true,
        ),
        (
            point("function", "about = \"signals\""),
            "no-point-for:seat-belt",
            true,
        ),
        (
            point("function", "about = \"signals\""),
            "no-point-for:guards",
            true,
        ),
        (point("function", "about = \"signals\""), "no-crank", true),
        (
            point(
                "function",
                "about = \"signals\"\n[[joint]]\nid = \"eye\"\nname = \"Eye\"\nlubrication = \"sealed\"",
            ),
            "no-pin-clips",
            true,
        ),
        (
            point("level", "about = \"hydraulic-oil\""),
            "level-without-pose:p",
            true,
        ),
        (
            point("level", "about = \"coolant\""),
            "level-without-pose:p",
            false,
        ),
        (
            point("measure", "about = \"brakes\""),
            "measure-without-limit:p",
            true,
        ),
        (
            point("measure", "about = \"joints\""),
            "measure-without-limit:p",
            false,
        ),
        (point("fitting", ""), "fitting-without-joint:p", false),
        (
            point("fitting", "remote = true"),
            "remote-without-joint:p",
            false,
        ),
        (point("pin-clip", "at = [0, 0.5, 1]"), "no-twin:p", false),
        (
            point(
                "level",
                "about = \"hydraulic-oil\"\npose = \"low\"\n[[pose]]\nid = \"low\"\nwhat = \"Low\"\n[[ram]]\nid = \"boom\"\nname = \"Boom\"",
            ),
            "pose-without-rods:low",
            false,
        ),
    ]
}

#[test]
fn each_gap_is_found_where_it_is() {
    for (text, id, safety) in cases() {
        let all = found(&text);
        let gap = all.iter().find(|gap| gap.id == id).unwrap_or_else(|| {
            panic!(
                "{id} is not among {:?}",
                all.iter().map(|gap| &gap.id).collect::<Vec<_>>()
            )
        });
        assert_eq!(gap.bears_on_safety, safety, "{id}");
        assert!(!gap.blocks.is_empty(), "{id} blocks nothing");
        assert!(
            all.is_sorted_by_key(|gap| !gap.bears_on_safety),
            "what bears on safety comes first"
        );
    }
}

#[test]
fn every_code_has_a_case() {
    let seen: BTreeSet<&str> = cases()
        .iter()
        .map(|(_, id, _)| id.split(':').next().unwrap())
        .collect();
    let all: BTreeSet<&str> = GapCode::ALL.iter().map(|code| code.code()).collect();
    assert_eq!(seen, all);
}

#[test]
fn what_stands_on_a_frame_needs_no_brakes() {
    let frame = format!(
        "[ground]\non = \"frame\"\n{}",
        point("function", "about = \"signals\"")
    );
    let ids: Vec<String> = found(&frame).into_iter().map(|gap| gap.id).collect();
    assert!(
        !ids.iter().any(|id| id.starts_with("no-point-for")
            || id == "no-crank"
            || id == "no-rest-step:brake"),
        "{ids:?}"
    );
    assert!(ids.contains(&"no-rest-step:engine-off".to_owned()));
}

#[test]
fn sealed_joints_are_not_looked_for() {
    let joints = "[[joint]]\nid = \"a\"\nname = \"A\"\n[[joint]]\nid = \"b\"\nname = \"B\"\nlubrication = \"oil-bath\"\n[[joint]]\nid = \"c\"\nname = \"C\"\n";
    let fitting = point("fitting", "joint = \"c\"");
    let book = read(&format!("{MACHINE}{joints}{fitting}"), &Habits::default())
        .book
        .unwrap();
    let ids: Vec<&str> = joints_to_find(&book).iter().map(|id| id.as_str()).collect();
    assert_eq!(ids, ["a"]);
}

/// A saw, a trailer or a generator has no arm: nobody is asked for its rams, nor to lower what cannot sink.
#[test]
fn what_has_no_rams_is_not_asked_for_an_arm() {
    let ids = |without: &str| -> Vec<String> {
        let machine = MACHINE.replace("kind = \"k\"\n", &format!("kind = \"k\"\n{without}"));
        let text = format!("{machine}[ground]\non = \"wheels\"\n");
        let book = read(&text, &Habits::default()).book.unwrap();
        gaps(&book).into_iter().map(|gap| gap.id).collect()
    };
    let (with, lacking) = (ids(""), ids("without = [\"rams\"]\n"));
    let of_the_arm = ["no-rest-step:lowered", "no-rams", "no-distances"];
    for id in of_the_arm {
        assert!(with.iter().any(|gap| gap == id), "{with:?}");
    }
    let other: Vec<&String> = with
        .iter()
        .filter(|gap| !of_the_arm.contains(&gap.as_str()))
        .collect();
    assert_eq!(lacking.iter().collect::<Vec<_>>(), other);
}

/// The habit of greasing is asked for where something is greased, or may be.
#[test]
fn what_has_nothing_to_grease_is_not_asked_when() {
    let asked = |rest: &str| found(rest).iter().any(|gap| gap.id == "no-greasing-habit");
    assert!(!asked(&point("function", "about = \"signals\"")));
    assert!(asked(&point("fitting", "")));
    assert!(asked(&format!(
        "[[joint]]\nid = \"a\"\nname = \"A\"\n{}",
        point("function", "about = \"signals\"")
    )));
}
