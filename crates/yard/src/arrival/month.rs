//! The first month of a machine that came: by which day what.
//!
//! Days and counts are common practice, no source: bolts and play settle in the first weeks of work, and one reading alone
//! tells nothing of how fast a thing changes.

use super::{RankedGap, unknown_fluids};
use crate::{
    book::{Book, PointKind},
    entry::RoundPurpose,
    handover::Situation,
    id::{ItemId, PointId},
    state::{Arrived, Found, Round},
    walkround::day_of,
};
use jiff::{Span, civil::Date};

/// Rounds in a row that found nothing new, before a learner has it. Common practice, no source.
pub const QUIET_ROUNDS: u32 = 10;

/// Second readings: by which day, and from which day on a reading counts as that one. Common practice, no source.
const AGAIN: [(i32, i32); 3] = [(7, 4), (14, 11), (28, 21)];

/// One line of the month.
#[derive(Clone, Debug, PartialEq)]
pub struct MonthLine {
    /// By which day.
    pub by: Date,
    /// How many days after it came.
    pub day: i32,
    /// What.
    pub what: MonthWhat,
    /// Whether it is done.
    pub done: bool,
}

/// What is to be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MonthWhat {
    /// Adopt a book.
    AdoptBook,
    /// Fill the gaps that keep it from starting: their permanent names.
    BlocksStart(Vec<String>),
    /// Change a fluid, or have it analysed.
    Fluid(ItemId),
    /// Read a measure for the first time.
    FirstReading(PointId),
    /// Read measures and feel bolts again: those not yet done so.
    Again {
        /// All such points.
        of: u32,
        /// Those still to do.
        left: Vec<PointId>,
    },
    /// Rounds in a row that find nothing new, before a learner has it.
    QuietRounds {
        /// So many so far, at most as many as are wanted.
        quiet: u32,
    },
}

/// The month, counted from the day it came; from today where nobody wrote that down.
pub(super) fn month(situation: &Situation<'_>, gaps: &[RankedGap]) -> Vec<MonthLine> {
    let arrived = situation.machine.arrival.as_ref();
    let since = arrived.map_or(situation.now, |arrived| arrived.since);
    let came = day_of(since, situation.zone);
    let line = |day: i32, what: MonthWhat, done: bool| MonthLine {
        by: came.saturating_add(Span::new().days(day)),
        day,
        what,
        done,
    };
    let Some(book) = situation.book() else {
        return vec![line(0, MonthWhat::AdoptBook, false)];
    };
    let mut all = vec![line(0, MonthWhat::AdoptBook, true)];
    let blocking: Vec<String> = gaps
        .iter()
        .filter(|ranked| ranked.gap.bears_on_safety)
        .map(|ranked| ranked.gap.id.clone())
        .collect();
    let none = blocking.is_empty();
    all.push(line(0, MonthWhat::BlocksStart(blocking), none));
    let unknown: Vec<&ItemId> = match arrived {
        Some(arrived) => unknown_fluids(book, arrived)
            .map(|fluid| &fluid.id)
            .collect(),
        None => book.fluids.iter().map(|fluid| &fluid.id).collect(),
    };
    all.extend(book.fluids.iter().map(|fluid| {
        let done = !unknown.contains(&&fluid.id);
        line(7, MonthWhat::Fluid(fluid.id.clone()), done)
    }));
    all.extend(measures(book).map(|point| {
        let done = situation.machine.done.contains_key(point);
        line(7, MonthWhat::FirstReading(point.clone()), done)
    }));
    let readable: Vec<&PointId> = measures(book).chain(bolts(book)).collect();
    if !readable.is_empty() {
        all.extend(AGAIN.map(|(day, from)| {
            let from = came.saturating_add(Span::new().days(from));
            let left = not_since(situation, &readable, from);
            let of = u32::try_from(readable.len()).unwrap_or(u32::MAX);
            let done = left.is_empty();
            line(day, MonthWhat::Again { of, left }, done)
        }));
    }
    let quiet = arrived.map_or(0, |arrived| quiet_rounds(situation, arrived));
    let rounds = MonthWhat::QuietRounds { quiet };
    all.push(line(28, rounds, quiet >= QUIET_ROUNDS));
    all
}

fn measures(book: &Book) -> impl Iterator<Item = &PointId> {
    let points = book.points.iter();
    points
        .filter(|point| matches!(point.kind, PointKind::Measure(_)))
        .map(|point| &point.id)
}

fn bolts(book: &Book) -> impl Iterator<Item = &PointId> {
    let points = book.points.iter();
    points
        .filter(|point| matches!(point.kind, PointKind::Bolts))
        .map(|point| &point.id)
}

/// Those of the points that were not done on or after this day.
fn not_since(situation: &Situation<'_>, points: &[&PointId], from: Date) -> Vec<PointId> {
    let done = |point: &PointId| {
        let done = situation.machine.done.get(point);
        done.is_some_and(|done| day_of(done.at, situation.zone) >= from)
    };
    let left = points.iter().filter(|point| !done(point));
    left.map(|point| (*point).clone()).collect()
}

/// Finished rounds before a start in a row, up to the last one, that found nothing new since it came; at most
/// [`QUIET_ROUNDS`].
pub fn quiet_rounds(situation: &Situation<'_>, arrived: &Arrived) -> u32 {
    let mut rounds: Vec<&Round> = situation
        .machine
        .rounds
        .values()
        .filter(|round| {
            round.purpose == RoundPurpose::Start
                && round.begun >= arrived.since
                && round.closed.is_some_and(|(at, ..)| at <= situation.now)
        })
        .collect();
    rounds.sort_by_key(|round| std::cmp::Reverse((round.closed.map(|(at, ..)| at), round.id)));
    let quiet = rounds.iter().take_while(|round| is_quiet(situation, round));
    u32::try_from(quiet.count()).map_or(QUIET_ROUNDS, |count| count.min(QUIET_ROUNDS))
}

/// Whether no finding was made from its beginning to its end.
fn is_quiet(situation: &Situation<'_>, round: &Round) -> bool {
    let Some((closed, ..)) = round.closed else {
        return false;
    };
    !situation.machine.findings.values().any(|finding| {
        let within = round.begun <= finding.at && finding.at <= closed;
        within && matches!(finding.what, Found::Answer(_) | Found::Fault(_))
    })
}
