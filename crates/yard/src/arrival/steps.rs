//! The steps of taking in a machine: which are done, and what keeps the others open.

use super::items::{ArrivalItem, items};
use crate::{book::Without, code::Coded, entry::ArrivalStep, handover::Situation};

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct StepPlan {
    /// Which.
    pub step: ArrivalStep,
    /// Whether it is done. Never so without data.
    pub done: bool,
    /// What keeps it open; none where it is done.
    pub why: Option<Open>,
    /// The things it is about, what comes first first.
    pub items: Vec<ArrivalItem>,
}

/// What keeps a step open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Open {
    /// Nobody has said anything yet.
    NotSaid,
    /// There is no book in force.
    NoBook,
    /// The book does not say how the engine is stopped.
    StopNotInBook,
    /// The book names no such thing; whoever looked says so.
    NothingNamed,
    /// Things left to do.
    Left {
        /// How many.
        left: u32,
        /// Of how many.
        of: u32,
    },
    /// The first lap is not counted.
    FirstLapFirst,
    /// Two counts of fittings differ: book and second lap.
    CountsDiffer {
        /// In the book.
        in_book: u32,
        /// Counted.
        counted: u32,
    },
}

/// Every step in order.
pub(super) fn steps(situation: &Situation<'_>) -> Vec<StepPlan> {
    let plan = |step: &ArrivalStep| {
        let items = items(situation, *step);
        let why = open(situation, *step, &items);
        StepPlan {
            step: *step,
            done: why.is_none(),
            why,
            items,
        }
    };
    ArrivalStep::ALL.iter().map(plan).collect()
}

fn open(situation: &Situation<'_>, step: ArrivalStep, items: &[ArrivalItem]) -> Option<Open> {
    let arrived = situation.machine.arrival.as_ref();
    let said = arrived.is_some_and(|arrived| arrived.said(step));
    let unsaid = (!said).then_some(Open::NotSaid);
    match step {
        ArrivalStep::Came | ArrivalStep::Plates => unsaid,
        ArrivalStep::Stop => stop(situation).or(unsaid),
        ArrivalStep::Over => arrived
            .is_none_or(|arrived| arrived.over.is_none())
            .then_some(Open::NotSaid),
        _ if situation.book().is_none() => Some(Open::NoBook),
        ArrivalStep::FittingsSecond => second_lap(situation, items),
        ArrivalStep::FittingsFirst => items
            .iter()
            .any(|item| !item.done())
            .then_some(Open::NotSaid),
        _ if items.is_empty() => unsaid.map(|_| Open::NothingNamed),
        _ => left(items),
    }
}

fn stop(situation: &Situation<'_>) -> Option<Open> {
    let Some(book) = situation.book() else {
        return Some(Open::NoBook);
    };
    let known = book.stop.is_some() || book.lacks(Without::Engine);
    (!known).then_some(Open::StopNotInBook)
}

fn left(items: &[ArrivalItem]) -> Option<Open> {
    let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    let left = items.iter().filter(|item| !item.done()).count();
    (left > 0).then(|| Open::Left {
        left: count(left),
        of: count(items.len()),
    })
}

/// The second lap counts after the first, and ends only with as many fittings in the book.
fn second_lap(situation: &Situation<'_>, items: &[ArrivalItem]) -> Option<Open> {
    let arrived = situation.machine.arrival.as_ref();
    let first = arrived.and_then(|arrived| arrived.counted(ArrivalStep::FittingsFirst));
    if first.is_none() {
        return Some(Open::FirstLapFirst);
    }
    match items.first() {
        Some(ArrivalItem::Fittings {
            in_book,
            counted: Some(counted),
            ..
        }) => {
            let (in_book, counted) = (*in_book, *counted);
            (in_book != counted).then_some(Open::CountsDiffer { in_book, counted })
        }
        _ => Some(Open::NotSaid),
    }
}
