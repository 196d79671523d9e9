//! The other side: what was found on one side asks the same point on the other side at the next round.

use super::today::Today;
use crate::{
    book::{Book, Point},
    handover::Situation,
    id::{FaultRef, PointId},
    state::{Finding, Round},
};
use jiff::{SignedDuration, Timestamp};

/// A point that the next round asks because of what was found on the other side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TwinAsk {
    /// The point asked.
    pub point: PointId,
    /// The point on the other side.
    pub of: PointId,
    /// What was found there.
    pub finding: FaultRef,
}

/// The same point on the other side, whichever of the two names the other in the book.
pub fn twins<'a>(book: &'a Book, point: &'a PointId) -> impl Iterator<Item = &'a Point> {
    let named = book
        .points
        .iter()
        .find(|known| known.id == *point)
        .and_then(|known| known.mirror.as_ref());
    book.points.iter().filter(move |other| {
        other.id != *point && (Some(&other.id) == named || other.mirror.as_ref() == Some(point))
    })
}

/// Everything that the other side asks now, in the book's order; nothing without a book.
pub fn twin_asks(situation: &Situation<'_>) -> Vec<TwinAsk> {
    let Some(today) = Today::of(situation) else {
        return Vec::new();
    };
    let asks = today
        .book
        .points
        .iter()
        .filter_map(|point| ask(&today, point));
    asks.collect()
}

/// Whether the other side asks this point now: something was found there since this one was last looked at.
///
/// What is found in a round asks from the next one on, so that no round grows while it is walked. Whoever looked at both
/// sides in one round has looked.
pub(super) fn ask(today: &Today<'_>, point: &Point) -> Option<TwinAsk> {
    let machine = today.machine();
    let others: Vec<&PointId> = twins(today.book, &point.id).map(|twin| &twin.id).collect();
    if others.is_empty() {
        return None;
    }
    let asks = machine.findings.values().filter_map(|finding| {
        let of = machine.point_today(finding.point()?);
        (others.contains(&&of) && still_asks(today, point, finding)).then_some((finding, of))
    });
    let (finding, of) = asks.min_by_key(|(finding, _)| (finding.at, finding.id.clone()))?;
    Some(TwinAsk {
        point: point.id.clone(),
        of,
        finding: finding.id.clone(),
    })
}

fn still_asks(today: &Today<'_>, point: &Point, finding: &Finding) -> bool {
    let (machine, now) = (today.machine(), today.situation.now);
    let done = machine.done.get(&point.id);
    if finding.at > now || done.is_some_and(|done| done.at >= finding.at) {
        return false;
    }
    let walked_then = |round: &&Round| round.begun <= finding.at && finding.at <= last(round, now);
    let looked = |round: &Round| {
        let given = round.answers.get(&point.id);
        given.is_some_and(|given| done.is_some_and(|done| done.entry == given.entry))
    };
    let mut rounds = machine.rounds.values().filter(walked_then);
    !rounds.any(|round| under_way(today, round) || looked(round))
}

fn last(round: &Round, now: Timestamp) -> Timestamp {
    match round.closed {
        Some((at, ..)) => at,
        None => now,
    }
}

/// Whether a round is still walked now, or is the one just being closed.
fn under_way(today: &Today<'_>, round: &Round) -> bool {
    let now = today.situation.now;
    let hours = i64::from(today.situation.habits.round_holds_hours);
    match round.closed {
        Some((at, ..)) => at >= now,
        None => now.duration_since(round.begun) < SignedDuration::from_hours(hours),
    }
}
