//! Answers in words: `missing`, `2 1/8 in`, `class II`, `at-mark, pose arm-out, milky`.

use super::machine::{item, quantity};
use yard::{
    book::{LeakClass, OilHeat, Point, PointKind},
    code::Coded,
    entry::*,
};

/// The answer that is well for a point.
pub(crate) fn well_answer(point: &Point) -> Answer {
    answer_from(
        point,
        match &point.kind {
            PointKind::Level(_) => "at-mark",
            PointKind::Fitting(_) => "seen",
            PointKind::PinClip => "present",
            PointKind::Bolts => "tight",
            PointKind::Measure(_) if point.id.as_str() == "oil-gauge" => "45 psi",
            PointKind::Measure(_) if point.id.as_str() == "belt-play" => "1/4 in",
            PointKind::Measure(_) => "1 1/4 in",
            PointKind::Leak { .. } => "none",
            PointKind::Hose | PointKind::Structure => "sound",
            PointKind::Function => "works",
            PointKind::Look => "well",
            PointKind::Crank(_) => "cranked yes no no no",
        },
    )
}

/// The answer these words give at this point; panics with what it did not understand.
pub(crate) fn answer_from(point: &Point, text: &str) -> Answer {
    if let Some(why) = text.strip_prefix("could not check: ") {
        return Answer::NotChecked(NotChecked {
            because: coded(why),
        });
    }
    match &point.kind {
        PointKind::Level(mark) => level(text, mark.pose.clone()),
        PointKind::Fitting(_) => Answer::Fitting {
            took: coded(text),
            strokes: None,
        },
        PointKind::PinClip => Answer::PinClip(coded(text)),
        PointKind::Bolts => Answer::Bolts {
            state: coded(text),
            how_many: u32::from(text != "tight"),
        },
        PointKind::Measure(_) => measure(text),
        PointKind::Leak { .. } => Answer::Leak(text.strip_prefix("class ").map(coded::<LeakClass>)),
        PointKind::Hose => Answer::Hose(coded(text)),
        PointKind::Structure => Answer::Structure(coded(text)),
        PointKind::Function => Answer::Function(coded(text)),
        PointKind::Look => Answer::Look(coded(text)),
        PointKind::Crank(_) => crank(text),
    }
}

fn coded<T: Coded>(word: &str) -> T {
    T::from_code(word).unwrap_or_else(|| panic!("no such word here: {word:?}"))
}

/// `below`, then, in any order: `pose X`, `pose not said`, `oil cold`, `milky`.
fn level(text: &str, mut pose: Option<yard::id::ItemId>) -> Answer {
    let mut parts = text.split(", ");
    let reads = coded(parts.next().unwrap());
    let (mut oil, mut looks) = (Some(OilHeat::Any), FluidLooks::Clean);
    for part in parts {
        match part.split_once(' ') {
            Some(("pose", "not said")) => pose = None,
            Some(("pose", other)) => pose = Some(item(other)),
            Some(("oil", heat)) => oil = Some(coded(heat)),
            _ => looks = coded(part),
        }
    }
    Answer::Level {
        reads,
        pose,
        oil,
        looks,
    }
}

/// `2 1/8 in`, or several with ` | ` between; `, by eye` for another method than the limit's.
fn measure(text: &str) -> Answer {
    let (readings, by_method) = match text.strip_suffix(", by eye") {
        Some(readings) => (readings, false),
        None => (text, true),
    };
    Answer::Measure {
        readings: readings
            .split(" | ")
            .map(|reading| Reading::Value(quantity(reading)))
            .collect(),
        by_method: Some(by_method),
        condition_held: Some(true),
    }
}

/// `cranked yes no no ?`, then `, bypassed`.
fn crank(text: &str) -> Answer {
    let (tried, bypassed) = match text.strip_suffix(", bypassed") {
        Some(tried) => (tried, true),
        None => (text, false),
    };
    let words = tried.strip_prefix("cranked ").expect("cranked yes no ?");
    let cranked = words.split(' ').map(|word| match word {
        "yes" => Some(true),
        "no" => Some(false),
        "?" => None,
        other => panic!("yes, no or ?, not {other:?}"),
    });
    Answer::Crank {
        cranked: cranked.collect(),
        bypassed,
    }
}
