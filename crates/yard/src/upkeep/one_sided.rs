//! An adjuster topped on one side only, week after week: it leaks, or what it tightens is worn. It is no upkeep done.

use crate::{
    book::Point,
    handover::Situation,
    id::PointId,
    state::{Work, WorkKind},
    walkround::{days_between_moments, twins},
};

/// How far back is looked, days: four weeks (a keeper's account of a track topped each week on the left only).
const WITHIN_DAYS: i64 = 28;
/// So often on the one side, and never on the other.
const TIMES: usize = 4;

/// A side adjusted again and again while its twin was left alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OneSided {
    /// The side that is adjusted.
    pub point: PointId,
    /// The side that is not.
    pub twin: PointId,
    /// How often in the last four weeks.
    pub times: usize,
}

/// Points adjusted four times or more in the last four weeks while the other side was not adjusted at all, in the book's
/// order. A repair or a part fitted at the point begins the count anew.
pub fn one_sided(situation: &Situation<'_>) -> Vec<OneSided> {
    let Some(book) = situation.book() else {
        return Vec::new();
    };
    let sided = |point: &Point| {
        let times = times(situation, &point.id);
        let mut others = twins(book, &point.id);
        let twin =
            others.find(|twin| times >= TIMES && adjusted(situation, &twin.id).count() == 0)?;
        Some(OneSided {
            point: point.id.clone(),
            twin: twin.id.clone(),
            times,
        })
    };
    book.points.iter().filter_map(sided).collect()
}

/// Adjustments since the last repair.
fn times(situation: &Situation<'_>, point: &PointId) -> usize {
    let machine = situation.machine;
    let repaired = |work: &&Work| {
        let kind = matches!(work.kind, WorkKind::Repaired | WorkKind::Fitted);
        let here = work.point.as_ref() == Some(point)
            || work.mends.iter().any(|of| of.point.as_ref() == Some(point));
        kind && here && work.at <= situation.now
    };
    let since = machine
        .work
        .iter()
        .filter(repaired)
        .map(|work| work.at)
        .max();
    adjusted(situation, point)
        .filter(|work| since.is_none_or(|since| work.at > since))
        .count()
}

fn adjusted<'a>(situation: &Situation<'a>, point: &PointId) -> impl Iterator<Item = &'a Work> {
    let (now, zone) = (situation.now, situation.zone);
    situation.machine.work.iter().filter(move |work| {
        work.kind == WorkKind::Adjusted
            && work.point.as_ref() == Some(point)
            && work.at <= now
            && days_between_moments(work.at, now, zone) <= WITHIN_DAYS
    })
}
