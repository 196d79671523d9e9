//! The best and the worst answer to any point.

use quantity::{Exact, Quantity};
use yard::{
    book::{CrankCase, LeakClass, MeasureLimit, OilHeat, Point, PointKind},
    entry::*,
};

/// An answer that is well.
pub fn well(point: &Point) -> Answer {
    match &point.kind {
        PointKind::Level(_) => level(point, LevelReads::AtMark),
        PointKind::Fitting(_) => greased(GreaseTook::Seen),
        PointKind::PinClip => Answer::PinClip(ClipState::Present),
        PointKind::Bolts => bolts(BoltState::Tight, 0),
        PointKind::Measure(limit) => measured(limit, &inside(limit)),
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look => Answer::Look(LookState::Well),
        PointKind::Crank(cases) => cranked(cases, |case| case.may_crank),
    }
}

/// The worst answer there is.
pub fn bad(point: &Point) -> Answer {
    match &point.kind {
        PointKind::Level(_) => level(point, LevelReads::Nothing),
        PointKind::Fitting(_) => greased(GreaseTook::Refused),
        PointKind::PinClip => Answer::PinClip(ClipState::Missing),
        PointKind::Bolts => bolts(BoltState::Missing, 1),
        PointKind::Measure(limit) => measured(limit, &outside(limit)),
        PointKind::Leak { .. } => Answer::Leak(Some(LeakClass::III)),
        PointKind::Hose => Answer::Hose(HoseState::Bulged),
        PointKind::Structure => Answer::Structure(StructureState::RustInCrack),
        PointKind::Function => Answer::Function(FunctionState::Fails),
        PointKind::Look => Answer::Look(LookState::Missing),
        PointKind::Crank(cases) => cranked(cases, |case| !case.may_crank),
    }
}

/// Read in the mark's own pose and heat.
fn level(point: &Point, reads: LevelReads) -> Answer {
    let PointKind::Level(mark) = &point.kind else {
        panic!("{} is no level", point.id)
    };
    let oil = match mark.oil {
        OilHeat::Any => OilHeat::Cold,
        other => other,
    };
    Answer::Level {
        reads,
        pose: mark.pose.clone(),
        oil: Some(oil),
        looks: FluidLooks::Clean,
    }
}

fn greased(took: GreaseTook) -> Answer {
    let strokes = None;
    Answer::Fitting { took, strokes }
}

fn bolts(state: BoltState, how_many: u32) -> Answer {
    Answer::Bolts { state, how_many }
}

fn cranked(cases: &[CrankCase], turns: impl Fn(&CrankCase) -> bool) -> Answer {
    Answer::Crank {
        cranked: cases.iter().map(|case| Some(turns(case))).collect(),
        bypassed: false,
    }
}

/// The same value in each of the readings the method wants.
fn measured(limit: &MeasureLimit, value: &Quantity) -> Answer {
    Answer::Measure {
        readings: vec![Reading::Value(value.clone()); limit.readings.len().max(1)],
        by_method: Some(true),
        condition_held: Some(true),
    }
}

/// Midway between the limits; twice the least, or half the most, where there is one only.
fn inside(limit: &MeasureLimit) -> Quantity {
    match (&limit.min, &limit.max) {
        (Some(min), Some(max)) => {
            let max = max.in_unit(min.unit()).unwrap();
            like(min, (min.value() + &max) * &exact("0.5"))
        }
        (Some(min), None) => like(min, min.value() * &exact("2")),
        (None, Some(max)) => like(max, max.value() * &exact("0.5")),
        (None, None) => panic!("no limit"),
    }
}

/// Twice the most, or half the least.
fn outside(limit: &MeasureLimit) -> Quantity {
    match (&limit.max, &limit.min) {
        (Some(max), _) => like(max, max.value() * &exact("2")),
        (None, Some(min)) => like(min, min.value() * &exact("0.5")),
        (None, None) => panic!("no limit"),
    }
}

fn like(one: &Quantity, value: Exact) -> Quantity {
    Quantity::from_exact(value, one.unit(), None)
}

fn exact(text: &str) -> Exact {
    Exact::parse(text).unwrap()
}
