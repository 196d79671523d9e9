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

/// All well; measures read inside their limits.
pub(crate) fn answer(point: &Point) -> Answer {
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
            measured(limit, vec![usual(limit); limit.readings.len().max(1)])
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

/// A value well inside: two thirds of the way up, or as far from the one limit there is.
fn usual(limit: &MeasureLimit) -> Quantity {
    let share =
        |over, under| Exact::from_ratio(over, under).expect("no share here is over nothing");
    match (&limit.min, &limit.max) {
        (Some(min), Some(max)) => {
            let low = min.in_unit(max.unit()).unwrap_or_else(Exact::zero);
            let value = &low + &((max.value() - &low) * share(2, 3));
            Quantity::from_exact(value, max.unit(), None)
        }
        (None, Some(max)) => Quantity::from_exact(max.value() * &share(3, 5), max.unit(), None),
        (Some(min), None) => Quantity::from_exact(min.value() * &share(6, 5), min.unit(), None),
        (None, None) => written("1"),
    }
}

/// So many thirty-seconds of an inch, as one reads them off a tape.
pub(crate) fn inches(thirty_seconds: u32) -> Quantity {
    let exact = Exact::from_ratio(i64::from(thirty_seconds), 32).expect("32 is not nothing");
    written(&format_fraction_inches(&exact, 32))
}
