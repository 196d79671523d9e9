//! Signs of a round that was not really walked. They are told to the steward, to talk about; nothing is refused for them.

use super::today::day_of;
use crate::{
    book::Book,
    entry::{Answer, Reading},
    id::{PersonId, PointId},
    state::{Given, MachineState, Round},
};
use jiff::{Timestamp, civil::Date, tz::TimeZone};
use std::collections::BTreeMap;

/// A round that took less than one part in so many of the time its points are given in the book was quick. The share is this
/// yard book's own choice: looking is often quicker than the book thinks, four times as quick it is not.
pub const QUICKEST: u32 = 4;
/// The same measured value on so many days running, by the same person. The yard book's own choice.
pub const SAME_DAYS: usize = 7;
/// So many rounds of one person with every answer the same, the numbers too. The yard book's own choice.
const SAME_ROUNDS: usize = 10;
/// Fewer points say nothing.
const FEWEST_POINTS: usize = 5;

/// A sign that a round may not have been walked.
#[derive(Clone, Debug, PartialEq)]
pub enum Sign {
    /// Too quick for its points.
    TooQuick {
        /// How many points were answered in that time.
        points: usize,
        /// Seconds it took.
        took: i64,
        /// Seconds that the book gives these points.
        given: u32,
    },
    /// The same measured value day after day.
    SameValue {
        /// The point.
        point: PointId,
        /// The value, as written.
        value: String,
        /// Days running.
        days: usize,
    },
    /// Every answer the same as in the rounds before, the numbers too.
    AlwaysTheSame {
        /// How many rounds, this one counted.
        rounds: usize,
        /// How many points.
        points: usize,
    },
}

/// The signs of one round. A sheet typed in from paper has no times of its own, but its values are looked at.
pub fn signs(machine: &MachineState, round: &Round, zone: &TimeZone) -> Vec<Sign> {
    let book = machine
        .revision(round.book)
        .or(machine.book())
        .map(|adopted| adopted.book.as_ref());
    let quick = book.and_then(|book| too_quick(book, round));
    let same = same_values(machine, round, zone);
    let always = always_the_same(machine, round);
    quick.into_iter().chain(same).chain(always).collect()
}

/// Points answered in the first part were looked at before anything was written: only what came after it has a time.
fn too_quick(book: &Book, round: &Round) -> Option<Sign> {
    if round.from_paper {
        return None;
    }
    let end = round.closed.map_or(round.last, |(at, ..)| at);
    let timed = |given: &&Given| given.at > round.begun && given.at <= end;
    let seconds = |given: &Given| {
        let point = book
            .points
            .iter()
            .find(|point| point.id == given.answered.point);
        point.map_or(0, |point| point.seconds)
    };
    let after: Vec<u32> = round.answers.values().filter(timed).map(seconds).collect();
    let given = after.iter().copied().fold(0u32, u32::saturating_add);
    let took = end.duration_since(round.begun).as_secs().max(0);
    // Two who walk together look at two points at once.
    let people = i64::try_from(round.by.len().max(1)).unwrap_or(i64::MAX);
    let quick = took
        .saturating_mul(people)
        .saturating_mul(i64::from(QUICKEST))
        < i64::from(given);
    (quick && after.len() >= FEWEST_POINTS).then_some(Sign::TooQuick {
        points: after.len(),
        took,
        given,
    })
}

/// Measures of this round whose value its writer has written on so many days running.
fn same_values(machine: &MachineState, round: &Round, zone: &TimeZone) -> Vec<Sign> {
    let measured = |given: &&Given| matches!(given.answered.answer, Answer::Measure { .. });
    let sign = |given: &Given| {
        let days = by_day(machine, given, zone);
        let same = days
            .iter()
            .rev()
            .take_while(|(_, answer)| same_readings(answer, &given.answered.answer))
            .count();
        (same >= SAME_DAYS).then(|| Sign::SameValue {
            point: given.answered.point.clone(),
            value: written(&given.answered.answer),
            days: same,
        })
    };
    let own = round.answers.values().filter(measured);
    own.filter_map(sign).collect()
}

/// What the same person answered at the same point until then, the last answer of each day.
fn by_day<'a>(
    machine: &'a MachineState,
    of: &Given,
    zone: &TimeZone,
) -> BTreeMap<Date, &'a Answer> {
    let point = &of.answered.point;
    let mut given: Vec<&Given> = machine
        .rounds
        .values()
        .filter_map(|round| round.answers.get(point))
        .filter(|given| given.by == of.by && given.at <= of.at)
        .collect();
    given.sort_by_key(|given| (given.at, given.entry));
    let day = |at: Timestamp| day_of(at, zone);
    given
        .into_iter()
        .map(|given| (day(given.at), &given.answered.answer))
        .collect()
}

fn same_readings(one: &Answer, other: &Answer) -> bool {
    let (
        Answer::Measure { readings: one, .. },
        Answer::Measure {
            readings: other, ..
        },
    ) = (one, other)
    else {
        return false;
    };
    let same = |(one, other): (&Reading, &Reading)| match (one, other) {
        (Reading::Value(one), Reading::Value(other)) => one.same_value(other),
        (one, other) => one == other,
    };
    one.len() == other.len() && one.iter().zip(other).all(same)
}

fn written(answer: &Answer) -> String {
    let Answer::Measure { readings, .. } = answer else {
        return String::new();
    };
    let texts = readings.iter().filter_map(|reading| match reading {
        Reading::Value(value) => Some(value.text().to_owned()),
        Reading::Between { over, under } => over
            .as_ref()
            .or(under.as_ref())
            .map(|limit| limit.text().to_owned()),
    });
    texts.collect::<Vec<_>>().join(", ")
}

/// The last rounds of this walker answered alike, where a number stands among the answers: words are alike on any good day.
fn always_the_same(machine: &MachineState, round: &Round) -> Option<Sign> {
    let walker = round.walker()?;
    let mine = |other: &&Round| {
        other.walker() == Some(walker)
            && other.purpose == round.purpose
            && other.begun <= round.begun
    };
    let mut rounds: Vec<&Round> = machine.rounds.values().filter(mine).collect();
    rounds.sort_by_key(|other| (other.begun, other.id));
    let answered: BTreeMap<&PointId, &Given> = own_answers(round, walker);
    let same = |other: &&&Round| {
        let theirs = own_answers(other, walker);
        let shared: Vec<_> = answered
            .iter()
            .filter_map(|(point, given)| Some((*given, *theirs.get(point)?)))
            .collect();
        shared.len() >= FEWEST_POINTS
            && shared
                .iter()
                .any(|(given, _)| has_number(&given.answered.answer))
            && shared.iter().all(|(one, other)| {
                one.answered.answer == other.answered.answer
                    && one.answered.note.is_none()
                    && other.answered.note.is_none()
            })
    };
    let count = rounds.iter().rev().take_while(same).count();
    (count >= SAME_ROUNDS).then_some(Sign::AlwaysTheSame {
        rounds: count,
        points: answered.len(),
    })
}

fn own_answers(round: &Round, walker: PersonId) -> BTreeMap<&PointId, &Given> {
    let own = round.answers.iter();
    own.filter(|(_, given)| given.by == walker).collect()
}

fn has_number(answer: &Answer) -> bool {
    matches!(
        answer,
        Answer::Measure { .. }
            | Answer::Fitting {
                strokes: Some(_),
                ..
            }
    )
}
