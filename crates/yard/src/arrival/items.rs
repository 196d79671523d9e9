//! What is looked at when a machine comes, thing by thing: fluids, pairs, measures, fittings, weaknesses.

use crate::{
    book::{Book, MeasureLimit, Place, Point, PointKind, joints_to_find},
    entry::{Answer, ArrivalStep, FluidNow, Reading},
    handover::Situation,
    id::{ItemId, PointId},
    state::Given,
    upkeep::fittings,
    walkround::twins,
};
use quantity::{Exact, Quantity};
use std::collections::BTreeSet;

/// One thing of a step.
#[derive(Clone, Debug, PartialEq)]
pub enum ArrivalItem {
    /// A fluid: unknown until it is changed or analysed.
    Fluid {
        /// Which.
        fluid: ItemId,
        /// Why it is known; none = not known.
        now: Option<FluidNow>,
    },
    /// The same point on both sides.
    Pair(Box<Pair>),
    /// A measure.
    Measure {
        /// Its point.
        point: PointId,
        /// Whether the book has a limit for it.
        has_limit: bool,
        /// Whether it was ever read.
        read: bool,
    },
    /// All fittings, counted on a lap.
    Fittings {
        /// How many the book knows.
        in_book: u32,
        /// How many were counted on this lap.
        counted: Option<u32>,
        /// Joints for which no fitting is known.
        without: Vec<ItemId>,
    },
    /// A known weakness.
    Weakness {
        /// Which.
        weakness: ItemId,
        /// Points that watch it.
        points: Vec<PointId>,
        /// Whether somebody looked at it, or answered every point that watches it.
        looked: bool,
    },
}

/// A point and its twin, with what was last said of each.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The one on the left, or written first.
    pub left: PointId,
    /// The other.
    pub right: PointId,
    /// What was said of the left.
    pub of_left: Option<Given>,
    /// What was said of the right.
    pub of_right: Option<Given>,
    /// Whether both were answered and the answers differ by more than their ±.
    pub differs: bool,
}

impl ArrivalItem {
    /// Whether there is nothing left to do about it.
    pub fn done(&self) -> bool {
        match self {
            ArrivalItem::Fluid { now, .. } => now.is_some(),
            ArrivalItem::Pair(pair) => pair.of_left.is_some() && pair.of_right.is_some(),
            ArrivalItem::Measure {
                has_limit, read, ..
            } => *has_limit && *read,
            ArrivalItem::Fittings { counted, .. } => counted.is_some(),
            ArrivalItem::Weakness { looked, .. } => *looked,
        }
    }
}

/// The things of a step, in the order they are attended to; none for steps that are about the machine as a whole.
pub(super) fn items(situation: &Situation<'_>, step: ArrivalStep) -> Vec<ArrivalItem> {
    let Some(book) = situation.book() else {
        return Vec::new();
    };
    match step {
        ArrivalStep::Fluids => fluids(situation, book),
        ArrivalStep::Sides => pairs(situation, book),
        ArrivalStep::Measures => measures(situation, book),
        ArrivalStep::FittingsFirst | ArrivalStep::FittingsSecond => {
            vec![fittings_on_lap(situation, book, step)]
        }
        ArrivalStep::Weaknesses => weaknesses(situation, book),
        _ => Vec::new(),
    }
}

fn fluids(situation: &Situation<'_>, book: &Book) -> Vec<ArrivalItem> {
    let known = situation.machine.arrival.as_ref();
    let now = |fluid: &ItemId| known?.fluids_known.get(fluid).map(|(now, _)| *now);
    let each = book.fluids.iter().map(|fluid| ArrivalItem::Fluid {
        fluid: fluid.id.clone(),
        now: now(&fluid.id),
    });
    each.collect()
}

/// Each pair once, in the book's order.
fn pairs(situation: &Situation<'_>, book: &Book) -> Vec<ArrivalItem> {
    let mut seen: BTreeSet<&PointId> = BTreeSet::new();
    let mut all = Vec::new();
    for point in &book.points {
        let Some(twin) = twins(book, &point.id).next() else {
            continue;
        };
        if !seen.contains(&point.id) && !seen.contains(&twin.id) {
            all.push(ArrivalItem::Pair(Box::new(pair(situation, point, twin))));
            seen.extend([&point.id, &twin.id]);
        }
    }
    all
}

fn pair(situation: &Situation<'_>, point: &Point, twin: &Point) -> Pair {
    let y = |at: Option<Place>| at.map_or(0.0, |at| at.y);
    let (left, right) = if y(twin.at) > y(point.at) {
        (twin, point)
    } else {
        (point, twin)
    };
    let (of_left, of_right) = (said(situation, &left.id), said(situation, &right.id));
    let differs = match (of_left, of_right) {
        (Some(one), Some(other)) => {
            answers_differ(&one.answered.answer, &other.answered.answer, limit(left))
        }
        _ => false,
    };
    Pair {
        left: left.id.clone(),
        right: right.id.clone(),
        of_left: of_left.cloned(),
        of_right: of_right.cloned(),
        differs,
    }
}

/// What was last said of a point; "could not check" says nothing of it.
fn said<'a>(situation: &Situation<'a>, point: &PointId) -> Option<&'a Given> {
    let given = situation.machine.answers.get(point)?;
    let checked = !matches!(given.answered.answer, Answer::NotChecked(_));
    (checked && given.at <= situation.now).then_some(given)
}

fn limit(point: &Point) -> Option<&MeasureLimit> {
    match &point.kind {
        PointKind::Measure(limit) => Some(limit),
        _ => None,
    }
}

/// Strokes, poses and methods do not make a difference of the machine; readings do beyond the ± of both.
fn answers_differ(one: &Answer, other: &Answer, limit: Option<&MeasureLimit>) -> bool {
    match (one, other) {
        (
            Answer::Measure { readings, .. },
            Answer::Measure {
                readings: others, ..
            },
        ) => {
            let usual = limit.and_then(|limit| limit.usual_plus_minus.as_ref());
            readings.len() != others.len()
                || (readings.iter().zip(others)).any(|(a, b)| readings_differ(a, b, usual))
        }
        (Answer::Fitting { took, .. }, Answer::Fitting { took: other, .. }) => took != other,
        (
            Answer::Level { reads, looks, .. },
            Answer::Level {
                reads: other,
                looks: others,
                ..
            },
        ) => (reads, looks) != (other, others),
        _ => one != other,
    }
}

fn readings_differ(one: &Reading, other: &Reading, usual: Option<&Quantity>) -> bool {
    let (Reading::Value(one), Reading::Value(other)) = (one, other) else {
        return one != other;
    };
    let unit = one.unit();
    let Some(value) = other.in_unit(unit) else {
        return true;
    };
    let good_for = |read: &Quantity| {
        let own = read.plus_minus_in(unit);
        own.or_else(|| usual?.in_unit(unit))
            .unwrap_or_else(Exact::zero)
    };
    let apart = one.value() - &value;
    let apart = if apart < Exact::zero() {
        &Exact::zero() - &apart
    } else {
        apart
    };
    apart > &good_for(one) + &good_for(other)
}

/// What to measure first: what has no limit and bears on safety, then what has none, then what was never read; the book's
/// order within.
fn measures(situation: &Situation<'_>, book: &Book) -> Vec<ArrivalItem> {
    let mut all: Vec<(bool, bool, bool, ArrivalItem)> = Vec::new();
    for point in &book.points {
        let Some(limit) = limit(point) else { continue };
        let has_limit = limit.min.is_some() || limit.max.is_some();
        let read = said(situation, &point.id).is_some();
        let item = ArrivalItem::Measure {
            point: point.id.clone(),
            has_limit,
            read,
        };
        all.push((item.done(), !point.about.bears_on_safety(), has_limit, item));
    }
    all.sort_by_key(|(done, minor, has_limit, _)| (*done, *minor, *has_limit));
    all.into_iter().map(|(.., item)| item).collect()
}

fn fittings_on_lap(situation: &Situation<'_>, book: &Book, step: ArrivalStep) -> ArrivalItem {
    let arrived = situation.machine.arrival.as_ref();
    ArrivalItem::Fittings {
        in_book: fittings(book),
        counted: arrived.and_then(|arrived| arrived.counted(step)),
        without: joints_to_find(book).into_iter().cloned().collect(),
    }
}

fn weaknesses(situation: &Situation<'_>, book: &Book) -> Vec<ArrivalItem> {
    let arrived = situation.machine.arrival.as_ref();
    let steps = arrived.and_then(|arrived| arrived.steps.get(&ArrivalStep::Weaknesses));
    let told = |weakness: &ItemId| {
        let mut said = steps.into_iter().flatten();
        said.any(|said| said.about.as_ref() == Some(weakness))
    };
    let each = book.weaknesses.iter().map(|weakness| {
        let watched = !weakness.points.is_empty()
            && weakness
                .points
                .iter()
                .all(|point| said(situation, point).is_some());
        ArrivalItem::Weakness {
            weakness: weakness.id.clone(),
            points: weakness.points.clone(),
            looked: watched || told(&weakness.id),
        }
    });
    each.collect()
}
