//! The arm's papers as they come out of the printer: the cab's sheet, the survey sheet, the teaching strips.
#![allow(clippy::unwrap_used)]

mod printed;
mod yard_of_one;

use papers::{PaperSize, SURVEY_DISTANCES};
use printed::Printed;
use std::collections::BTreeSet;
use words::{Words, plain_runs};
use yard::arm::{ArmOfBook, arm_of};
use yard_of_one::{ADDRESS, YardOfOne, project_file};

/// An invented machine with everything known of its arm.
const REFERENCE: &str = "cases/arm/reference-machine-book.toml";
/// A book that says nothing of its arm.
const FOREIGN: &str = "cases/book/foreign.toml";
const SIZES: [(PaperSize, &str); 2] = [
    (PaperSize::A4, "595.276 x 841.89 pts"),
    (PaperSize::Letter, "612 x 792 pts"),
];

fn papers(
    yard: &YardOfOne,
    arm: &ArmOfBook,
    words: &Words,
    size: PaperSize,
) -> [(&'static str, Vec<u8>); 3] {
    let sheet = yard.sheet(words, size);
    [
        ("arm-sheet", papers::arm_sheet(&sheet, arm).unwrap()),
        ("survey-sheet", papers::survey_sheet(&sheet, arm).unwrap()),
        (
            "teaching-strips",
            papers::teaching_strips(&sheet, arm).unwrap(),
        ),
    ]
}

#[test]
fn every_paper_of_the_arm_fits_its_paper() {
    let words = Words::english();
    for file in [REFERENCE, FOREIGN] {
        let yard = YardOfOne::of(file);
        let arm = arm_of(&yard.book);
        for (size, points) in SIZES {
            for (name, pdf) in papers(&yard, &arm, &words, size) {
                let printed = Printed::of(&pdf);
                let what = format!("{name} of {file}");
                assert!(printed.info("Page size").starts_with(points), "{what}");
                assert_eq!(printed.info("Tagged"), "yes", "{what}");
                let most = if name == "survey-sheet" { 2 } else { 1 };
                assert!(printed.pages() <= most, "{what}: {} pages", printed.pages());
                assert_eq!(printed.codes(1), [format!("{ADDRESS}/arm")], "{what}");
            }
        }
    }
}

#[test]
fn what_they_say() {
    let (yard, words) = (YardOfOne::of(REFERENCE), Words::english());
    let arm = arm_of(&yard.book);
    for (name, pdf) in papers(&yard, &arm, &words, PaperSize::A4) {
        insta::assert_snapshot!(name, Printed::of(&pdf).in_order());
    }
}

#[test]
fn a_guessed_arm_has_poses_and_no_force() {
    let text = project_file(REFERENCE).replace("known = \"drawing\"", "known = \"guess\"");
    let (yard, words) = (YardOfOne::with(&text, Vec::new()), Words::english());
    let arm = arm_of(&yard.book);
    for (name, pdf) in papers(&yard, &arm, &words, PaperSize::A4) {
        let said = Printed::of(&pdf).in_one_line();
        let says_so = said.contains("first guess") || name == "survey-sheet";
        assert!(says_so, "{name}: {said}");
        assert!(!said.contains(" kN"), "{name}: {said}");
        assert!(!said.contains(" bar ("), "{name}: {said}");
    }
}

#[test]
fn cautions_come_before_anything_is_measured() {
    let (yard, words) = (YardOfOne::of(FOREIGN), Words::english());
    let arm = arm_of(&yard.book);
    let said =
        Printed::of(&papers::survey_sheet(&yard.sheet(&words, PaperSize::A4), &arm).unwrap())
            .in_one_line();
    let at = |what: &str| said.find(what).unwrap_or_else(|| panic!("{what}: {said}"));
    assert!(
        at("Arm on the ground, engine off, key out, pressure bled")
            < at("Measure along the straight line")
    );
    assert!(at("Measure along the straight line") < at("Distances"));
    assert!(said.contains("A sketch of a usual arm"), "{said}");
}

/// With the needed distances every pin of a link is fixed: in each link as many as two for the first pin after the base and
/// two for each that follows.
#[test]
fn the_sheet_asks_for_enough_and_for_nothing_twice() {
    let mut pairs = BTreeSet::new();
    for distance in SURVEY_DISTANCES {
        let mut ends = [distance.from, distance.to];
        ends.sort_unstable();
        assert!(pairs.insert(ends), "{ends:?} twice");
        assert_ne!(distance.from, distance.to);
    }
    let links: [(&[&str], usize); 3] = [
        (
            &[
                "boom-foot",
                "boom-ram-rod",
                "dipper-ram-barrel",
                "dipper-pin",
            ],
            5,
        ),
        (
            &[
                "dipper-pin",
                "dipper-ram-rod",
                "bucket-ram-barrel",
                "lever-pin",
                "bucket-pin",
            ],
            7,
        ),
        (&["bucket-pin", "link-pin", "tooth"], 3),
    ];
    for (pins, least) in links {
        let within = |end: &str| pins.contains(&end);
        let needed = SURVEY_DISTANCES
            .iter()
            .filter(|distance| distance.first && within(distance.from) && within(distance.to));
        assert_eq!(needed.count(), least, "{pins:?}");
    }
}

#[test]
fn no_sentence_bypasses_words() {
    let (yard, words) = (YardOfOne::of(REFERENCE), Words::pseudo());
    let arm = arm_of(&yard.book);
    for (name, pdf) in papers(&yard, &arm, &words, PaperSize::A4) {
        let said = Printed::of(&pdf).in_order();
        let own = [
            "Reference machine (invented)",
            "tracked loader-backhoe",
            "kN",
            "lbf",
            "bar",
            "psi",
            "mm",
            "ft",
            "in",
            "m",
        ];
        let found = plain_runs(&said, &own);
        assert!(found.is_empty(), "{name}: {found:?}");
    }
}
