//! A level read in another pose than its mark's: corrected by rods and tank where that is sure, unknown where not.

#![allow(clippy::unwrap_used)]

use quantity::Habits;
use yard::book::{Book, PointKind, read};
use yard::entry::{Answer, FluidLooks, LevelReads};
use yard::handover::What;
use yard::id::ItemId;
use yard::walkround::{Weighed, weigh};

const BOOK: &str = r#"kingpost = 1
[machine]
id = "digger"
name = "Digger"
kind = "excavator"
[[station]]
id = "left"
name = "Left side"
[[ram]]
id = "boom"
name = "Boom ram"
moves = "boom"
rod = "56 mm"
closed = "1 m"
open = "1.8 m"
[[ram]]
id = "feet"
name = "Feet"
count = 2
rod = "50 mm"
closed = "1 m"
open = "1.5 m"
[[ram]]
id = "swing"
name = "Swing rams"
moves = "swing"
count = 2
[[pose]]
id = "packed"
what = "all rods in"
rods-in = ["boom", "feet"]
[[pose]]
id = "dug-in"
what = "arm out, feet down"
rods-out = ["boom", "feet"]
[[pose]]
id = "half-said"
what = "arm out"
rods-out = ["boom"]
[[pose]]
id = "also-packed"
what = "all rods in, lock in"
rods-in = ["feet", "boom"]
[[fluid]]
id = "hydraulic"
name = "Hydraulic oil"
[oil-tank]
length = "0.6 m"
width = "0.3 m"
[[point]]
id = "oil"
station = "left"
kind = "level"
what = "Hydraulic oil"
rhythm = "every start"
about = "hydraulic-oil"
fluid = "hydraulic"
pose = "packed"
"#;

fn book(text: &str) -> Book {
    let read = read(text, &Habits::default());
    assert_eq!(read.troubles, []);
    read.book.unwrap()
}

fn shifts(text: &str) -> Vec<(String, f64)> {
    let book = book(text);
    let PointKind::Level(mark) = &book.points[0].kind else {
        panic!("no level");
    };
    let each = mark.elsewhere.iter();
    each.map(|shift| (shift.pose.to_string(), shift.higher))
        .collect()
}

fn weighed(text: &str, reads: LevelReads, pose: &str) -> Weighed {
    let answer = Answer::Level {
        reads,
        pose: ItemId::new(pose),
        oil: None,
        looks: FluidLooks::Clean,
    };
    weigh(&book(text).points[0], &answer)
}

fn unknown(higher_by: Option<i32>, read_in: &str) -> Weighed {
    Weighed::Unknown(What::LevelPose {
        read_in: ItemId::new(read_in),
        mark_is_for: ItemId::new("packed"),
        higher_by,
    })
}

#[test]
fn rods_that_are_out_lower_the_level() {
    // Volume of cylinders by hand: pi/4 (0.056^2 x 0.8 + 2 x 0.05^2 x 0.5) m3 over 0.18 m2.
    let by_hand = std::f64::consts::FRAC_PI_4 * (0.056 * 0.056 * 0.8 + 0.0025) / 0.18;
    let found = shifts(BOOK);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[0].0, "dug-in");
    assert!((found[0].1 + by_hand).abs() < 1e-12, "{found:?}");
    assert_eq!(found[1], ("also-packed".to_owned(), 0.0));
}

#[test]
fn nothing_is_worked_out_where_something_is_missing() {
    for (that, this) in [
        ("rod = \"56 mm\"\n", ""),
        ("width = \"0.3 m\"\n", ""),
        ("pose = \"packed\"\n", ""),
        ("about = \"hydraulic-oil\"", "about = \"engine-oil\""),
        ("rods-in = [\"boom\", \"feet\"]", "rods-in = [\"boom\"]"),
    ] {
        let found = shifts(&BOOK.replacen(that, this, 1));
        let moved = found.iter().filter(|shift| shift.1 != 0.0).count();
        assert_eq!(moved, 0, "{that}: {found:?}");
    }
}

#[test]
fn what_holds_all_the_more_is_told_and_the_rest_stays_unknown() {
    use LevelReads::*;
    // Arm out, feet down: the oil stands 22 mm lower. At the mark there is over it in the mark's pose.
    assert_eq!(weighed(BOOK, AtMark, "dug-in"), Weighed::Well);
    assert_eq!(weighed(BOOK, Below, "dug-in"), unknown(Some(-22), "dug-in"));
    assert_eq!(
        weighed(BOOK, Nothing, "dug-in"),
        unknown(Some(-22), "dug-in")
    );
    let upper = BOOK.replace("pose = \"packed\"", "pose = \"packed\"\nupper-mark = true");
    assert_eq!(
        weighed(&upper, AtMark, "dug-in"),
        unknown(Some(-22), "dug-in")
    );
    assert_eq!(weighed(&upper, TooFull, "dug-in"), Weighed::Amiss);
    // The mark is for the arm out: with all rods in the oil stands higher.
    let out = BOOK.replace("pose = \"packed\"", "pose = \"dug-in\"");
    let higher = |reads| weighed(&out, reads, "packed");
    assert_eq!(higher(Below), Weighed::Amiss);
    assert_eq!(higher(Nothing), Weighed::Amiss);
    assert!(matches!(
        higher(AtMark),
        Weighed::Unknown(What::LevelPose {
            higher_by: Some(22),
            ..
        })
    ));
    assert!(matches!(higher(TooFull), Weighed::Unknown(_)));
    // The same rods: the same level.
    assert_eq!(weighed(BOOK, Below, "also-packed"), Weighed::Amiss);
    assert_eq!(weighed(BOOK, AtMark, "also-packed"), Weighed::Well);
    // A pose that does not say where every rod is tells nothing.
    for reads in [AtMark, Below, TooFull] {
        assert_eq!(
            weighed(BOOK, reads, "half-said"),
            unknown(None, "half-said")
        );
    }
}

#[test]
fn the_heat_of_the_oil_is_still_asked_for() {
    let hot = BOOK.replace("pose = \"packed\"", "pose = \"packed\"\noil = \"warm\"");
    let level = weighed(&hot, LevelReads::AtMark, "dug-in");
    assert_eq!(level, Weighed::Unknown(What::LevelHeat));
}
