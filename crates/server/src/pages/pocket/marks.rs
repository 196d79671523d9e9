//! Which answers stand the machine down, marked at their choices: all that a phone out of range may judge.

use crate::pages::walkround::question::Question;
use quantity::{Exact, Quantity};
use yard::{
    book::{LeakClass, LevelMark, MeasureLimit, OilHeat, Point, PointKind},
    code::Coded,
    entry::{Answer, FluidLooks, GreaseTook, LevelReads, Reading},
    handover::Alone,
};

/// Marks the choices of a point's question, and says whether a measure over and under its limits stands the machine down.
pub(crate) fn mark(alone: &Alone<'_>, point: &Point, q: &mut Question) -> (bool, bool) {
    let id = point.id.as_str();
    let tried: Vec<(String, &str, Answer)> = match &point.kind {
        PointKind::Level(mark) => level(mark),
        PointKind::Fitting(_) => each("a", |took: GreaseTook| Answer::Fitting {
            took,
            strokes: None,
        }),
        PointKind::PinClip => each("a", Answer::PinClip),
        PointKind::Bolts => each("a", |state| Answer::Bolts { state, how_many: 1 }),
        PointKind::Leak { .. } => each("a", |class: LeakClass| Answer::Leak(Some(class))),
        PointKind::Hose => each("a", Answer::Hose),
        PointKind::Structure => each("a", Answer::Structure),
        PointKind::Function => each("a", Answer::Function),
        PointKind::Look => each("a", Answer::Look),
        PointKind::Crank(cases) => crank(cases.len()),
        PointKind::Measure(limit) => {
            return (
                limit.max.as_ref().is_some_and(|max| {
                    alone.stands_down(point, &measured(limit, max, &Exact::from(2)))
                }),
                limit.min.as_ref().is_some_and(|min| {
                    alone.stands_down(point, &measured(limit, min, &Exact::from(-2)))
                }),
            );
        }
    };
    for (field, code, answer) in tried {
        if alone.stands_down(point, &answer) {
            q.worse.insert((format!("{field}.{id}"), code.to_owned()));
        }
    }
    (false, false)
}

fn each<T: Coded>(
    field: &str,
    answer: impl Fn(T) -> Answer,
) -> Vec<(String, &'static str, Answer)> {
    let all = T::ALL.iter();
    all.map(|value| (field.to_owned(), value.code(), answer(*value)))
        .collect()
}

/// Each reading with a clean fluid, and each look at a level that is right.
fn level(mark: &LevelMark) -> Vec<(String, &'static str, Answer)> {
    let answer = |reads, looks| Answer::Level {
        reads,
        pose: mark.pose.clone(),
        oil: (mark.oil != OilHeat::Any).then_some(mark.oil),
        looks,
    };
    let mut tried = each("a", |reads: LevelReads| answer(reads, FluidLooks::Clean));
    tried.extend(each("looks", |looks: FluidLooks| {
        answer(LevelReads::AtMark, looks)
    }));
    tried
}

/// Each combination by itself, turned and not; and the switch found bypassed.
fn crank(cases: usize) -> Vec<(String, &'static str, Answer)> {
    let one = |at: usize, turned: bool| Answer::Crank {
        cranked: (0..cases).map(|i| (i == at).then_some(turned)).collect(),
        bypassed: false,
    };
    let each_case = (0..cases).flat_map(|at| [(at, "yes", true), (at, "no", false)]);
    let mut tried: Vec<_> = each_case
        .map(|(at, code, turned)| (format!("k{at}"), code, one(at, turned)))
        .collect();
    let bypassed = Answer::Crank {
        cranked: vec![None; cases],
        bypassed: true,
    };
    tried.push(("by".to_owned(), "yes", bypassed));
    tried
}

/// Readings far beyond a limit: the limit's own size away from it, and more.
fn measured(limit: &MeasureLimit, at: &Quantity, far: &Exact) -> Answer {
    let value = at.value().clone() + (at.value().abs() + Exact::one()) * far.clone();
    let reading = Reading::Value(Quantity::from_exact(value, at.unit(), None));
    Answer::Measure {
        readings: vec![reading; limit.readings.len()],
        by_method: Some(true),
        condition_held: Some(true),
    }
}
