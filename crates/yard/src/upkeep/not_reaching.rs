//! Grease that goes in and does not reach its joint: taken again and again, never seen there, or the play grows meanwhile.

use crate::{
    book::{Book, GreaseUntil, GreasingRule, MeasureLimit, Point, PointKind},
    entry::{Answer, Reading},
    handover::Situation,
    id::PointId,
    state::{MachineState, UnseenGrease},
    walkround::days_between_moments,
};
use jiff::Timestamp;
use quantity::Exact;

/// A plain joint that never once showed fresh grease in so many days has to be looked at. Common practice, no source.
const NEVER_SEEN_DAYS: i64 = 30;
/// And in so many greasings: one that was not looked at says nothing yet. Common practice, no source.
const NEVER_SEEN_TIMES: u32 = 3;
/// So many greasings while the play grew.
const GROWN_TIMES: u32 = 2;

/// Why the grease of a fitting does not seem to reach its joint.
#[derive(Clone, Debug, PartialEq)]
pub enum NotReaching {
    /// It took grease so often in so many days, and none was ever seen at the joint.
    NeverSeen {
        /// How often.
        times: u32,
        /// In how many days.
        days: i64,
    },
    /// It takes grease, none is seen at the joint, and the play there has grown by more than the readings are sure to.
    PlayGrows {
        /// The measure.
        at: PointId,
        /// Play when the grease was last known to arrive, or first after it, as written.
        from: String,
        /// Play now, as written.
        to: String,
    },
}

/// Whether the grease of this fitting does not seem to reach its joint; none where it does, or where it cannot be told.
///
/// A remote line that is not seen for its days is told of by a rule of its own, and a sealed bearing shows no grease: of these
/// only the play is looked at.
pub fn not_reaching(situation: &Situation<'_>, point: &Point) -> Option<NotReaching> {
    let PointKind::Fitting(rule) = &point.kind else {
        return None;
    };
    let machine = situation.machine;
    let unseen = machine.unseen_grease.get(&point.id)?;
    if unseen.first.at > situation.now {
        return None;
    }
    play_grows(situation, rule, unseen).or_else(|| {
        let days = days_between_moments(unseen.first.at, situation.now, situation.zone);
        let looked_for = !rule.remote && rule.until == GreaseUntil::Shows;
        let never = !machine.seen_at_joint.contains_key(&point.id)
            && days >= NEVER_SEEN_DAYS
            && unseen.times >= NEVER_SEEN_TIMES;
        (looked_for && never).then_some(NotReaching::NeverSeen {
            times: unseen.times,
            days,
        })
    })
}

fn play_grows(
    situation: &Situation<'_>,
    rule: &GreasingRule,
    unseen: &UnseenGrease,
) -> Option<NotReaching> {
    if unseen.times < GROWN_TIMES {
        return None;
    }
    let joint = rule.joint.as_ref()?;
    let plays =
        plays_of(situation.book()?).filter(|(_, limit)| limit.joint.as_ref() == Some(joint));
    let grown = |(point, limit): (&Point, &MeasureLimit)| {
        let readings = readings(situation.machine, &point.id, situation.now);
        let before = readings.iter().rev().find(|(at, _)| *at <= unseen.first.at);
        let (_, from) = before.or(readings.first())?;
        let (_, to) = readings.last()?;
        let usual = limit.usual_plus_minus.as_ref();
        let sure = half(from, usual)? + half(to, usual)?;
        (to.si() - from.si() > sure).then(|| NotReaching::PlayGrows {
            at: point.id.clone(),
            from: from.text().to_owned(),
            to: to.text().to_owned(),
        })
    };
    plays.into_iter().find_map(grown)
}

fn plays_of(book: &Book) -> impl Iterator<Item = (&Point, &MeasureLimit)> {
    book.points.iter().filter_map(|point| match &point.kind {
        PointKind::Measure(limit) => Some((point, limit)),
        _ => None,
    })
}

/// The greatest value of each reading of a measure until now, in order.
fn readings(
    machine: &MachineState,
    point: &PointId,
    now: Timestamp,
) -> Vec<(Timestamp, quantity::Quantity)> {
    let given = machine
        .rounds
        .values()
        .filter_map(|round| round.answers.get(point))
        .filter(|given| given.at <= now);
    let mut readings: Vec<_> = given
        .filter_map(|given| {
            let Answer::Measure {
                readings,
                by_method,
                ..
            } = &given.answered.answer
            else {
                return None;
            };
            if *by_method == Some(false) {
                return None;
            }
            let values = readings.iter().filter_map(|reading| match reading {
                Reading::Value(value) => Some(value),
                Reading::Between { .. } => None,
            });
            let worst = values.max_by_key(|value| value.si())?;
            Some((given.at, worst.clone()))
        })
        .collect();
    readings.sort_by_key(|(at, _)| *at);
    readings
}

/// Half width of a reading, in its unit of reckoning: its own ±, else the usual one, else nothing; none where it has another
/// dimension.
fn half(value: &quantity::Quantity, usual: Option<&quantity::Quantity>) -> Option<Exact> {
    if let Some(own) = value.plus_minus_si() {
        return Some(own);
    }
    match usual {
        None => Some(Exact::zero()),
        Some(usual) => (usual.dimension() == value.dimension()).then(|| usual.si()),
    }
}
