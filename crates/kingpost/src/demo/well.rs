//! The answer to a point when all is well there.

use super::pen::written;
use quantity::{Exact, Quantity, format_fraction_inches};
use yard::{
    book::{LevelMark, MeasureLimit, OilHeat, Point, PointKind},
    entry::{
        Answer, BoltState, ClipState, FluidLooks, FunctionState, GreaseTook, HoseState, LevelReads,
        LookState, Reading, StructureState,
    },
};

/// All well; measures read inside their limits, not the same every day.
pub(crate) fn answer(point: &Point, day: usize) -> Answer {
    match &point.kind {
        PointKind::Level(mark) => level(point, mark),
        PointKind::Fitting(_) => Answer::Fitting {
            took: GreaseTook::Seen,
            strokes: Some(4 * point.count),
        },
        PointKind::PinClip => Answer::PinClip(ClipState::Present),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        PointKind::Measure(limit) => {
            let readings = 0..limit.readings.len().max(1);
            measured(
                limit,
                readings.map(|at| usual(limit, day + at * 2)).collect(),
            )
        }
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look => Answer::Look(LookState::Well),
        PointKind::Crank(cases) => Answer::Crank {
            cranked: cases.iter().map(|case| Some(case.may_crank)).collect(),
            bypassed: false,
        },
    }
}

fn level(point: &Point, mark: &LevelMark) -> Answer {
    let oil = if mark.oil == OilHeat::Any {
        OilHeat::Cold
    } else {
        mark.oil
    };
    let looks = if point.id.as_str() == "engine-oil" {
        FluidLooks::Dark
    } else {
        FluidLooks::Clean
    };
    Answer::Level {
        reads: LevelReads::AtMark,
        pose: mark.pose.clone(),
        oil: Some(oil),
        looks,
    }
}

/// Taken by the limit's own method, its condition held.
pub(crate) fn measured(limit: &MeasureLimit, readings: Vec<Quantity>) -> Answer {
    Answer::Measure {
        readings: readings.into_iter().map(Reading::Value).collect(),
        by_method: Some(true),
        condition_held: limit.condition.is_some().then_some(true),
    }
}

/// A value well inside: half way up, or as far from the one limit there is; off by as much as such a reading usually is.
fn usual(limit: &MeasureLimit, day: usize) -> Quantity {
    let share =
        |over, under| Exact::from_ratio(over, under).expect("no share here is over nothing");
    let (value, unit) = match (&limit.min, &limit.max) {
        (Some(min), Some(max)) => {
            let low = min.in_unit(max.unit()).unwrap_or_else(Exact::zero);
            let value = &low + &((max.value() - &low) * share(1, 2));
            (value, max.unit())
        }
        (None, Some(max)) => (max.value() * &share(3, 5), max.unit()),
        (Some(min), None) => (min.value() * &share(6, 5), min.unit()),
        (None, None) => return written("1"),
    };
    let usual_off = limit.usual_plus_minus.as_ref();
    let step = usual_off.and_then(|off| off.in_unit(unit));
    // Half of it up, all of it down, and so on, in no order that shows.
    let halves = [0, 1, -2, 2, -1, 1, 0, -1][(day * 5 + 3) % 8];
    let off = step.map(|step| step * share(halves, 2));
    Quantity::from_exact(value + off.unwrap_or_else(Exact::zero), unit, None)
}

/// So many thirty-seconds of an inch, as one reads them off a tape.
pub(crate) fn inches(thirty_seconds: u32) -> Quantity {
    let exact = Exact::from_ratio(i64::from(thirty_seconds), 32).expect("32 is not nothing");
    written(&format_fraction_inches(&exact, 32))
}
