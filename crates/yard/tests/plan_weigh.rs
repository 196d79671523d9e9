//! What answers mean: well, amiss or unknown, point by point.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{
    book::{LeakClass, OilHeat, Point},
    entry::*,
    handover::What,
    walkround::{Weighed, says, weigh},
};

/// A point of the small book, or of the same book changed.
fn of_book(text: &str, id: &str) -> Point {
    let book = yard::book::read(text, &quantity::Habits::default())
        .book
        .unwrap();
    book.points
        .into_iter()
        .find(|known| known.id == point(id))
        .unwrap()
}

fn weighed(id: &str, answer: Answer) -> Weighed {
    weigh(&of_book(BOOK, id), &answer)
}

fn level(reads: LevelReads, pose: Option<&str>, oil: Option<OilHeat>, looks: FluidLooks) -> Answer {
    Answer::Level {
        reads,
        pose: pose.map(item),
        oil,
        looks,
    }
}

#[test]
fn the_best_answer_is_well_and_could_not_check_is_unknown_everywhere() {
    for (id, answer) in all_well() {
        assert_eq!(weighed(id, answer), Weighed::Well, "{id}");
        assert_eq!(
            weighed(id, not_checked()),
            Weighed::Unknown(What::CouldNotCheck(Hindrance::CannotSee)),
            "{id}"
        );
        assert_eq!(
            weighed(id, Answer::Structure(StructureState::Sound)),
            Weighed::Unknown(What::InQuestion),
            "{id}"
        );
    }
}

/// Read sources give five different poses for one level: read in another pose it says nothing.
#[test]
fn a_level_belongs_to_its_pose_and_its_oil_heat() {
    use LevelReads::*;
    let clean = FluidLooks::Clean;
    let cold = Some(OilHeat::Cold);
    let oil = |answer| weighed("oil-hydraulic", answer);
    let pose = |read_in: Option<&str>| {
        Weighed::Unknown(What::LevelPose {
            read_in: read_in.map(item),
            mark_is_for: Some(item("lowered")),
            higher_by: None,
        })
    };
    assert_eq!(
        oil(level(AtMark, Some("raised"), cold, clean)),
        pose(Some("raised"))
    );
    assert_eq!(oil(level(Below, None, cold, clean)), pose(None));
    assert_eq!(
        oil(level(AtMark, Some("lowered"), None, clean)),
        Weighed::Unknown(What::LevelHeat)
    );
    assert_eq!(
        oil(level(AtMark, Some("lowered"), Some(OilHeat::Hot), clean)),
        Weighed::Unknown(What::LevelHeat)
    );
    for reads in [Below, Nothing, TooFull] {
        assert_eq!(
            oil(level(reads, Some("lowered"), cold, clean)),
            Weighed::Amiss,
            "{reads:?}"
        );
    }
    assert_eq!(
        oil(level(AtMark, Some("lowered"), cold, FluidLooks::Dark)),
        Weighed::Well
    );
    let no_upper = of_book(&BOOK.replace("upper-mark = true\n", ""), "oil-hydraulic");
    assert_eq!(
        weigh(&no_upper, &level(TooFull, Some("lowered"), cold, clean)),
        Weighed::Well
    );
}

#[test]
fn milky_and_wrong_oil_are_amiss_in_any_pose() {
    for looks in [FluidLooks::Milky, FluidLooks::Wrong] {
        let answer = level(LevelReads::AtMark, None, None, looks);
        assert_eq!(
            says(&of_book(BOOK, "oil-hydraulic"), &answer),
            Some(What::Fluid(looks))
        );
    }
}

/// Sag not under 3/4 in, not over 2 in: 2 1/8 is outside, 2 ± 1/16 too close, and so is 2 with a tape good for 1/16.
#[test]
fn sag_is_decided_with_its_uncertainty() {
    let sag_left = of_book(BOOK, "sag-left");
    let close = |text: &str| {
        let (read, limit) = (vec![text.to_owned()], "2 in".to_owned());
        Weighed::Unknown(What::TooClose {
            read,
            side: quantity::Side::Over,
            limit,
        })
    };
    assert_eq!(weigh(&sag_left, &sag("2 1/8 in")), Weighed::Amiss);
    assert_eq!(weigh(&sag_left, &sag("2 in")), Weighed::Well);
    assert_eq!(
        weigh(&sag_left, &sag("2 in ± 1/16 in")),
        close("2 in ± 1/16 in")
    );
    let tape = of_book(
        &BOOK.replace("max = \"2 in\"", "max = \"2 in\"\nplus-minus = \"1/16 in\""),
        "sag-left",
    );
    assert_eq!(weigh(&tape, &sag("2 in")), close("2 in"));
    assert_eq!(
        weigh(&tape, &sag("2 in ± 1/64 in")),
        close("2 in ± 1/64 in"),
        "a reading's own ± goes before the usual one"
    );
    assert_eq!(weigh(&tape, &sag("2 1/32 in ± 1/64 in")), Weighed::Amiss);
    assert_eq!(
        weigh(&sag_left, &sag("51 mm")),
        Weighed::Amiss,
        "2 in is 50.8 mm"
    );
    assert_eq!(weigh(&sag_left, &sag("50.8 mm")), Weighed::Well);
    let Some(What::Outside { side, limit, .. }) = says(&sag_left, &sag("1/2 in")) else {
        panic!("not outside")
    };
    assert_eq!((side, limit.as_str()), (quantity::Side::Under, "3/4 in"));
}

#[test]
fn a_measure_by_another_method_condition_or_kind_is_not_compared() {
    let sag_left = of_book(BOOK, "sag-left");
    let measure = |readings: Vec<Reading>, by_method, condition_held| Answer::Measure {
        readings,
        by_method,
        condition_held,
    };
    let one = || vec![Reading::Value(q("1 in"))];
    for by_method in [None, Some(false)] {
        assert_eq!(
            weigh(&sag_left, &measure(one(), by_method, None)),
            Weighed::Unknown(What::OtherMethod)
        );
    }
    assert_eq!(
        weigh(&sag_left, &measure(vec![], Some(true), None)),
        Weighed::Unknown(What::OtherMethod)
    );
    let two = [one(), one()].concat();
    assert_eq!(
        weigh(&sag_left, &measure(two, Some(true), None)),
        Weighed::Unknown(What::OtherMethod)
    );
    assert_eq!(
        weigh(&sag_left, &sag("1 kg")),
        Weighed::Unknown(What::NotComparable)
    );
    let coasted = of_book(
        &BOOK.replace(
            "max = \"2 in\"",
            "max = \"2 in\"\ncondition = \"coasted to a stop\"",
        ),
        "sag-left",
    );
    for held in [None, Some(false)] {
        assert_eq!(
            weigh(&coasted, &measure(one(), Some(true), held)),
            Weighed::Unknown(What::ConditionNotHeld)
        );
    }
    assert_eq!(
        weigh(&coasted, &measure(one(), Some(true), Some(true))),
        Weighed::Well
    );
}

/// An army manual's improvised gauge: a cup on its side hidden, upright visible: between two gauges.
#[test]
fn between_two_gauges_is_an_interval() {
    let sag_left = of_book(BOOK, "sag-left");
    let between = |over: Option<&str>, under: Option<&str>| {
        let reading = Reading::Between {
            over: over.map(q),
            under: under.map(q),
        };
        weigh(
            &sag_left,
            &Answer::Measure {
                readings: vec![reading],
                by_method: Some(true),
                condition_held: None,
            },
        )
    };
    assert_eq!(between(Some("1 in"), Some("1 1/2 in")), Weighed::Well);
    assert_eq!(between(Some("2 in"), Some("3 in")), Weighed::Amiss);
    assert!(matches!(
        between(Some("1 in"), Some("3 in")),
        Weighed::Unknown(What::TooClose { .. })
    ));
    assert!(matches!(
        between(Some("1 in"), None),
        Weighed::Unknown(What::TooClose { .. })
    ));
    assert_eq!(
        between(Some("1 in"), Some("3 kg")),
        Weighed::Unknown(What::NotComparable)
    );
    assert_eq!(between(None, None), Weighed::Unknown(What::NotComparable));
}

/// The mean of two spans counts, not each: 1.00 and 1.50 in give 1.25, inside 1.14 to 1.6 in.
#[test]
fn the_mean_of_two_spans_counts_where_the_limit_says_so() {
    let text = BOOK
        .replace(
            "min = \"3/4 in\"\nmax = \"2 in\"",
            "min = \"1.14 in\"\nmax = \"1.6 in\"\ntake = \"mean\"",
        )
        .replace("[\"middle\"]", "[\"front\", \"rear\"]");
    let spans = |front: &str, rear: &str| Answer::Measure {
        readings: vec![Reading::Value(q(front)), Reading::Value(q(rear))],
        by_method: Some(true),
        condition_held: None,
    };
    assert_eq!(
        weigh(&of_book(&text, "sag-left"), &spans("1.00 in", "1.50 in")),
        Weighed::Well
    );
    let worst = text.replace("take = \"mean\"", "take = \"worst\"");
    assert_eq!(
        weigh(&of_book(&worst, "sag-left"), &spans("1.00 in", "1.50 in")),
        Weighed::Amiss
    );
}

/// The maker's check: the starter turns in neutral and in nothing else.
#[test]
fn the_starting_truth_table() {
    let crank = |neutral, in_gear, bypassed| {
        says(
            &of_book(BOOK, "crank"),
            &Answer::Crank {
                cranked: vec![neutral, in_gear],
                bypassed,
            },
        )
    };
    let with = |text: &str| text.to_owned();
    assert_eq!(crank(Some(true), Some(false), false), None);
    assert_eq!(
        crank(Some(true), Some(true), false),
        Some(What::CrankedIn {
            with: with("in gear")
        })
    );
    assert_eq!(
        crank(Some(false), Some(false), false),
        Some(What::DidNotCrankIn {
            with: with("in neutral")
        })
    );
    assert_eq!(
        crank(Some(false), Some(true), false),
        Some(What::CrankedIn {
            with: with("in gear")
        }),
        "the danger goes first"
    );
    assert_eq!(crank(Some(true), None, false), Some(What::CrankNotTried));
    assert_eq!(
        crank(None, Some(true), false),
        Some(What::CrankedIn {
            with: with("in gear")
        })
    );
    assert_eq!(
        crank(Some(true), Some(false), true),
        Some(What::SwitchBypassed)
    );
    let short = Answer::Crank {
        cranked: vec![Some(true)],
        bypassed: false,
    };
    assert_eq!(weighed("crank", short), Weighed::Unknown(What::InQuestion));
}

#[test]
fn anything_but_the_best_is_amiss() {
    let amiss = [
        ("clip-left", clip(ClipState::Loose)),
        ("clip-left", clip(ClipState::Missing)),
        ("hose-boom", Answer::Hose(HoseState::Rubbed)),
        ("brake", Answer::Function(FunctionState::Weak)),
        ("monthly", look(LookState::Worn)),
        ("fit-boom", fitting(GreaseTook::Refused)),
    ];
    for (id, answer) in amiss {
        assert_eq!(
            weighed(id, answer.clone()),
            Weighed::Amiss,
            "{id} {answer:?}"
        );
    }
    assert_eq!(
        weighed("fit-ring", fitting(GreaseTook::Took)),
        Weighed::Well,
        "well for the day"
    );
    let leak = of_book(
        &BOOK.replace(
            "kind = \"hose\"",
            "kind = \"leak\"\nabout = \"hydraulic-oil\"",
        ),
        "hose-boom",
    );
    assert_eq!(weigh(&leak, &Answer::Leak(None)), Weighed::Well);
    for class in [LeakClass::I, LeakClass::II, LeakClass::III] {
        assert_eq!(
            weigh(&leak, &Answer::Leak(Some(class))),
            Weighed::Amiss,
            "{class:?}"
        );
    }
}
