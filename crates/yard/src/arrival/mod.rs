//! Taking in a machine that came: what to do in which order, what its book does not say yet, and the first month.
//!
//! All of it is derived from the book, of any kind, and from the journal. A step without data is never done.

mod items;
mod month;
mod ranked;
mod steps;

pub use items::*;
pub use month::{MonthLine, MonthWhat, QUIET_ROUNDS, quiet_rounds};
pub use ranked::{RankedGap, ranked};
pub use steps::{Open, StepPlan};

use crate::{
    book::{Book, Fluid},
    handover::Situation,
    state::Arrived,
};

/// What taking in a machine comes to today.
#[derive(Clone, Debug, PartialEq)]
pub struct ArrivalPlan {
    /// Every step, in order.
    pub steps: Vec<StepPlan>,
    /// What the book does not say, what matters most first. Every gap of the book once.
    pub gaps: Vec<RankedGap>,
    /// The first month, in order of days.
    pub month: Vec<MonthLine>,
}

/// The plan of taking in a machine, whatever its kind, begun or not. Without a book there are steps, and a book to write.
pub fn plan(situation: &Situation<'_>) -> ArrivalPlan {
    let gaps = ranked(situation);
    ArrivalPlan {
        steps: steps::steps(situation),
        month: month::month(situation, &gaps),
        gaps,
    }
}

/// Fluids of the book that were neither changed nor analysed since the machine came, in the book's order.
pub fn unknown_fluids<'a>(book: &'a Book, arrived: &'a Arrived) -> impl Iterator<Item = &'a Fluid> {
    let known = |fluid: &&Fluid| !arrived.fluids_known.contains_key(&fluid.id);
    book.fluids.iter().filter(known)
}
