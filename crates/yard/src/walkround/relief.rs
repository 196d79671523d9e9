//! The two-minute relief check between learners on a supervised day.
//!
//! It is a short look at what can hurt somebody soonest and shows in seconds: points of every start that bear on safety and
//! take ten seconds or less, pins and locks first, as many as fit two minutes with the walking. It never stands for the full
//! round: that must have been walked and closed today.

use super::{
    make::lay_out,
    plan::{Because, RoundPlan},
    today::Today,
};
use crate::{
    book::{About, Point, PointKind, Rhythm},
    entry::RoundPurpose,
    id::PointId,
};
use std::collections::BTreeSet;

/// What the whole check may take, seconds.
const TWO_MINUTES: u32 = 120;
/// What one point may take, seconds.
const AT_A_GLANCE: u32 = 10;
/// What comes loose, fails or leaks first between two learners, worst first; the rest follows in the order of [`About`].
const FIRST: [About; 8] = [
    About::Pins,
    About::Locks,
    About::Brakes,
    About::Steering,
    About::Fuel,
    About::Hoses,
    About::Structure,
    About::SeatBelt,
];

/// Whether a relief check will do now: the yard allows it, and somebody closed a full round before a start today.
pub(super) fn allowed(today: &Today<'_>) -> bool {
    let full_today = today.machine().rounds.values().any(|round| {
        let closed = round
            .closed
            .filter(|(at, ..)| *at <= today.situation.now && today.day_of(*at) == today.date);
        round.purpose == RoundPurpose::Start && closed.is_some()
    });
    today.situation.habits.relief_allowed && full_today
}

/// The check, from the points due before a start, in walking order.
pub(super) fn plan(today: &Today<'_>, due: Vec<(&Point, Because)>) -> RoundPlan {
    let mut short: Vec<&Point> = due
        .iter()
        .map(|(point, _)| *point)
        .filter(|point| at_a_glance(point))
        .collect();
    short.sort_by_key(|point| (!today.open.contains(&point.id), rank(point)));
    let mut taken: BTreeSet<&PointId> = BTreeSet::new();
    let with = |taken: &BTreeSet<&PointId>| {
        let points = due
            .iter()
            .filter(|(point, _)| taken.contains(&point.id))
            .cloned()
            .collect();
        lay_out(today, RoundPurpose::Relief, points)
    };
    for point in short {
        taken.insert(&point.id);
        if with(&taken).seconds > TWO_MINUTES {
            taken.remove(&point.id);
        }
    }
    with(&taken)
}

fn at_a_glance(point: &Point) -> bool {
    let safety = point.about.bears_on_safety()
        || matches!(
            point.kind,
            PointKind::PinClip | PointKind::Hose | PointKind::Structure
        );
    safety && point.seconds <= AT_A_GLANCE && point.rhythms.contains(&Rhythm::EveryStart)
}

fn rank(point: &Point) -> (usize, About) {
    let first = FIRST
        .iter()
        .position(|about| *about == point.about)
        .unwrap_or(FIRST.len());
    (first, point.about)
}
