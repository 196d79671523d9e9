//! The tables of the arm in a book: what reads, what is wrong, and that old books read on.

#![allow(clippy::unwrap_used)]

use quantity::Habits;
use yard::book::{Book, GapCode, Level, PinName, TroubleKind, gaps, read};

const MACHINE: &str =
    "kingpost = 1\n[machine]\nid = \"digger\"\nname = \"Digger\"\nkind = \"excavator\"\n";

fn troubles(tables: &str) -> Vec<(Level, &'static str)> {
    let read = read(&format!("{MACHINE}{tables}"), &Habits::default());
    let found = read.troubles.iter();
    found
        .map(|trouble| (trouble.level, trouble.what.code()))
        .collect()
}

fn book(tables: &str) -> Book {
    let read = read(&format!("{MACHINE}{tables}"), &Habits::default());
    assert_eq!(read.troubles, []);
    read.book.unwrap()
}

fn mistake(tables: &str) -> &'static str {
    let found = troubles(tables);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, Level::Mistake);
    found[0].1
}

#[test]
fn places_may_be_negative_and_carry_their_plus_minus() {
    let book = book(
        "[[pin]]\nid = \"dipper-ram-rod\"\non = \"dipper\"\nat = [\"-360 mm ± 4 mm\", 0.17]\nknown = \"measured\"\n\
         [[reading]]\nboom-ram = \"1.3 m\"\ndipper-ram = \"1.2 m\"\nbucket-ram = \"1 m\"\ntooth-height = \"-40 cm\"\n\
         [arm]\naxis-from-middle = \"-0.2 m\"\n",
    );
    let pin = &book.arm.pins[0];
    assert_eq!(pin.id, PinName::DipperRamRod);
    assert_eq!([pin.at[0].metres, pin.at[1].metres], [-0.36, 0.17]);
    assert_eq!(
        [pin.at[0].plus_minus, pin.at[1].plus_minus],
        [Some(0.004), None]
    );
    let height = book.arm.readings[0].tooth_height.as_ref().unwrap();
    assert_eq!(height.si_f64(), -0.4);
    let manner = book.arm.manner.unwrap();
    assert_eq!(manner.axis_from_middle.unwrap().si_f64(), -0.2);
}

#[test]
fn a_pin_stands_on_its_own_part_once() {
    let pin = |id: &str, on: &str, at: &str| {
        format!("[[pin]]\nid = \"{id}\"\non = \"{on}\"\nat = {at}\nknown = \"guess\"\n")
    };
    assert_eq!(
        mistake(&pin("lever-pin", "boom", "[\"1 m\", \"0 m\"]")),
        "pin-on-other-part"
    );
    for at in ["[\"0.85 m\", \"1 cm\"]", "[\"-0.85 m\", \"0 m\"]"] {
        assert_eq!(mistake(&pin("tooth", "bucket", at)), "pin-off-axis");
    }
    assert_eq!(
        mistake(&pin("linkage-pin", "dipper", "[\"1 m\", \"0 m\"]")),
        "unknown-word"
    );
    assert_eq!(
        mistake(&pin("heel", "bucket", "[\"1 m\"]")),
        "lengths-count"
    );
    let heel = pin("heel", "bucket", "[\"1 m\", \"0.4 m\"]");
    assert_eq!(mistake(&format!("{heel}{heel}")), "twice");
}

#[test]
fn a_distance_between_other_things_is_kept_and_warned_of() {
    let distance =
        |from: &str| format!("[[distance]]\nfrom = \"{from}\"\nto = \"ground\"\nis = \"1 m\"\n");
    assert_eq!(troubles(&distance("any old thing")), []);
    let pin = "[[pin]]\nid = \"boom-foot\"\non = \"post\"\nat = [0.24, 0.66]\nknown = \"guess\"\n";
    let distance = |from: &str| format!("{pin}{}", distance(from));
    assert_eq!(troubles(&distance("boom-foot")), []);
    assert_eq!(troubles(&distance("swing-axis")), []);
    assert_eq!(troubles(&distance("linkage-pin")), []);
    let read = read(
        &format!("{MACHINE}{}", distance("bom-foot")),
        &Habits::default(),
    );
    assert_eq!(read.book.unwrap().distances.len(), 1);
    let TroubleKind::PinNotKnown { nearest, known, .. } = &read.troubles[0].what else {
        panic!("{:?}", read.troubles);
    };
    assert_eq!(nearest.as_deref(), Some("boom-foot"));
    assert!(known.contains("lever-pin") && known.ends_with("ground, swing-axis"));
}

#[test]
fn readings_masses_supports_and_rams_that_cannot_be() {
    assert_eq!(
        mistake(
            "[[reading]]\nboom-ram = \"1.3 m\"\ndipper-ram = \"1.2 m\"\nbucket-ram = \"1 m\"\n"
        ),
        "reading-without-tooth"
    );
    assert_eq!(
        mistake("[[mass]]\nof = \"machine\"\nis = \"5 t\"\nat = [\"1 m\", \"0 m\"]\n"),
        "mass-place"
    );
    let support = |corner: &str| format!("[[support]]\nstance = \"tracks\"\ncorner = {corner}\n");
    for corner in [
        "[[1, 1], [-1, 1]]",
        "[[1, 1], [-1, 1], [0, 1]]",
        "[[2, 2], [0, 0.5], [-2, 2], [-2, -2], [2, -2]]",
        "[[1, 1], [-1, -1], [-1, 1], [1, -1]]",
    ] {
        assert_eq!(
            mistake(&support(corner)),
            "corners-enclose-nothing",
            "{corner}"
        );
    }
    let square = "[[1, 1], [-1, \"1 m\"], [-1, -1], [1, -1]]";
    assert_eq!(troubles(&support(square)), []);
    assert_eq!(mistake(&format!("{0}{0}", support(square))), "twice");
    let ram = |id: &str, moves: &str| {
        format!("[[ram]]\nid = \"{id}\"\nname = \"x\"\nmoves = \"{moves}\"\n")
    };
    assert_eq!(
        mistake(&format!("{}{}", ram("a", "boom"), ram("b", "boom"))),
        "twice"
    );
    assert_eq!(
        troubles(&format!("{}{}", ram("a", "feet"), ram("b", "feet"))),
        []
    );
}

#[test]
fn old_books_read_on_and_have_no_new_gap() {
    let old = book(
        "[[ram]]\nid = \"boom-ram\"\nname = \"Boom ram\"\nbore = \"110 mm\"\n[[distance]]\nfrom = \"boom-foot\"\nto = \"dipper-pin\"\n\
         is = \"2.35 m\"\n[[mass]]\nof = \"whole machine\"\nis = \"5 t\"\n",
    );
    assert_eq!(old.arm, yard::book::ArmTables::default());
    assert!(gaps(&old).iter().all(|gap| gap.code != GapCode::ArmLacks));
}

#[test]
fn an_arm_begun_names_the_one_measurement_that_unlocks_most() {
    let lacks = |tables: &str| {
        let all = gaps(&book(tables));
        let found: Vec<_> = all
            .into_iter()
            .filter(|gap| gap.code == GapCode::ArmLacks)
            .collect();
        assert!(found.len() <= 1);
        found
            .first()
            .map(|gap| (gap.id.clone(), gap.unlock.table, gap.unlock.key))
    };
    let begun = "[[ram]]\nid = \"boom-ram\"\nname = \"Boom ram\"\nmoves = \"boom\"\n";
    let (id, table, key) = lacks(begun).unwrap();
    assert_eq!(
        (id.as_str(), table, key),
        ("arm-lacks:ram.moves bucket", "ram", "moves")
    );
    let whole = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../cases/arm/reference-machine-book.toml"
    ));
    let whole = whole.unwrap();
    let reference = read(&whole, &Habits::default()).book.unwrap();
    assert!(
        gaps(&reference)
            .iter()
            .all(|gap| gap.code != GapCode::ArmLacks)
    );
}

/// What folds do without when they look for gaps that bear on safety.
#[test]
fn no_gap_of_the_arm_bears_on_safety() {
    use yard::book::{Blocks, gaps, read};
    for text in [
        include_str!("../../../blanks/tracked-loader-backhoe.toml"),
        include_str!("../../../blanks/mini-excavator.toml"),
    ] {
        let book = read(text, &quantity::Habits::default()).book.unwrap();
        let of_arm = |gap: &&yard::book::Gap| gap.blocks.contains(&Blocks::ArmFigures);
        let all = gaps(&book);
        assert!(all.iter().filter(of_arm).count() > 0);
        assert!(all.iter().filter(of_arm).all(|gap| !gap.bears_on_safety));
    }
}
