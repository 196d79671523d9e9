//! Answers, reasons to be due, rhythms and limits, one of each.
#![allow(clippy::unwrap_used)]

use super::*;
use crate::NoNames;
use quantity::{Exact, Habits, Take, parse};
use yard::{
    book::{LeakClass, OilHeat},
    entry::{
        BoltState, ClipState, FluidLooks, FunctionState, GreaseTook, Hindrance, HoseState,
        LevelReads, LookState, NotChecked, StructureState,
    },
    id::PointId,
};

fn names() -> NoNames {
    NoNames {
        now: "2026-11-14T06:00:00Z".parse().unwrap(),
    }
}

fn read(text: &str) -> Quantity {
    parse(text, &Habits::default(), None).unwrap()
}

fn item(id: &str) -> ItemId {
    ItemId::new(id).unwrap()
}

fn measured(
    readings: Vec<Reading>,
    by_method: Option<bool>,
    condition_held: Option<bool>,
) -> Answer {
    Answer::Measure {
        readings,
        by_method,
        condition_held,
    }
}

#[test]
fn answers_in_a_line() {
    let value = |text| Reading::Value(read(text));
    let between = |over: Option<&str>, under: Option<&str>| Reading::Between {
        over: over.map(read),
        under: under.map(read),
    };
    let answers = [
        Answer::Level {
            reads: LevelReads::Below,
            pose: Some(item("all-down")),
            oil: Some(OilHeat::Cold),
            looks: FluidLooks::Clean,
        },
        Answer::Level {
            reads: LevelReads::TooFull,
            pose: None,
            oil: None,
            looks: FluidLooks::Milky,
        },
        Answer::Fitting {
            took: GreaseTook::Seen,
            strokes: Some(4),
        },
        Answer::Fitting {
            took: GreaseTook::Refused,
            strokes: None,
        },
        Answer::PinClip(ClipState::Missing),
        Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        Answer::Bolts {
            state: BoltState::Loose,
            how_many: 2,
        },
        measured(
            vec![value("2 1/8 in"), value("2 in ± 1/16 in")],
            Some(true),
            None,
        ),
        measured(vec![value("54 mm")], Some(false), None),
        measured(
            vec![
                between(Some("1 in"), Some("2 in")),
                between(Some("1 in"), None),
            ],
            None,
            Some(false),
        ),
        Answer::Leak(None),
        Answer::Leak(Some(LeakClass::III)),
        Answer::Hose(HoseState::Bulged),
        Answer::Structure(StructureState::RustInCrack),
        Answer::Function(FunctionState::Weak),
        Answer::Look(LookState::Worn),
        Answer::Crank {
            cranked: vec![Some(true), Some(false), None],
            bypassed: true,
        },
        Answer::NotChecked(NotChecked {
            because: Hindrance::NoTool,
        }),
    ];
    let words = Words::english();
    let mut said: Vec<String> = answers
        .iter()
        .map(|answer| words.answer(answer, &names()))
        .collect();
    let point = PointId::new("horn").unwrap();
    let noted = Answered {
        point,
        answer: Answer::Function(FunctionState::Fails),
        note: Some("clicks only".into()),
        photos: vec![],
    };
    said.push(words.answered(&noted, &names()));
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn why_a_point_is_due() {
    let hours = |n: i64| Exact::from(n);
    let whys = [
        Because::EveryStart,
        Because::AfterUse,
        Because::NeverDone,
        Because::Hours {
            since: hours(52),
            every: hours(50),
        },
        Because::Days { since: 8, every: 7 },
        Because::ItsDay,
        Because::Season,
        Because::Standing { days: 31 },
        Because::FirstTime,
        Because::After {
            event: item("track-tensioned"),
        },
        Because::OtherOperator,
        Because::StillUnknown,
        Because::OpenFinding,
        Because::OtherSide {
            of: yard::id::PointId::new("clip-left").unwrap(),
        },
        Because::NotReaching,
        Because::FindIt,
        Because::HoursInQuestion,
        Because::Whole,
    ];
    let words = Words::english();
    let said: Vec<String> = whys
        .iter()
        .map(|why| words.because(why, &names()))
        .collect();
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn rhythms_and_limits() {
    let words = Words::english();
    let after = |then: Option<&str>| Rhythm::After {
        event: item("bolts-tightened"),
        every: read("5 h"),
        during: read("20 h"),
        then: then.map(read),
    };
    let limit = |min: Option<&str>, max: Option<&str>| MeasureLimit {
        min: min.map(read),
        max: max.map(read),
        method: "board along the top".into(),
        readings: vec!["middle".into()],
        take: Take::Worst,
        usual_plus_minus: None,
        condition: None,
        joint: None,
    };
    let said = [
        words.rhythms(&[Rhythm::Hours(read("10 h")), Rhythm::Days(7)], &names()),
        words.rhythms(&[Rhythm::EveryStart], &names()),
        words.rhythms(
            &[after(Some("50 h")), after(None), Rhythm::Standing(30)],
            &names(),
        ),
        words.limit(&limit(Some("3/4 in"), Some("2 in"))),
        words.limit(&limit(None, Some("180 bar"))),
        words.limit(&limit(Some("3/4 in"), None)),
        words.greasing(&GreasingRule {
            joint: None,
            remote: true,
            until: GreaseUntil::Shows,
            refused_runs: None,
            seen_within: None,
        }),
        words.greasing(&GreasingRule {
            joint: None,
            remote: false,
            until: GreaseUntil::Strokes(3),
            refused_runs: None,
            seen_within: None,
        }),
    ];
    insta::assert_snapshot!(said.join("\n"));
}
