//! Repeat faults: the same clip, bolt group, part or point failing again after it was mended is one fault.

use super::cures::{Cure, alike, cure};
use crate::{
    book::Book,
    entry::{Answer, BoltState},
    id::{EntryId, FaultRef, ItemId, PointId},
    state::{Finding, Found, LifeHours, MachineState, Work, WorkKind},
    walkround::days_between_moments,
};
use jiff::{Timestamp, tz::TimeZone};
use quantity::Exact;
use std::collections::BTreeMap;

/// So many cures alike that did not hold ask for the cause before the next.
const ALIKE_ASK: usize = 2;
/// So many cures of any kind that did not hold ask for it too.
const ANY_ASK: usize = 3;
/// The third time loose is a thread that no longer holds (common practice; an owner's account of bolts re-tightened for years).
const LOOSE_AGAIN: usize = 3;

/// A point that failed more than once.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeat {
    /// Point, by its id of today.
    pub point: PointId,
    /// The findings that began each failure, in order; two or more.
    pub failures: Vec<FaultRef>,
    /// When each was found.
    pub at: Vec<Timestamp>,
    /// Life hours from each failure to the next; none where they are not known.
    pub gaps_hours: Vec<Option<Exact>>,
    /// What was done about each failure; none where nothing was, or nobody wrote it.
    pub cures: Vec<Option<Cure>>,
    /// Every entry of work that names it, for what it cost.
    pub work: Vec<EntryId>,
    /// Bolts found loose for the third time running: the thread does not hold.
    pub stripped: bool,
}

impl Repeat {
    /// Days from each failure to the next, by the yard's calendar.
    pub fn gaps_days(&self, zone: &TimeZone) -> Vec<i64> {
        gaps_days(&self.at, zone)
    }

    /// Cures of the earlier failures: each of them was followed by another failure.
    pub fn did_not_hold(&self) -> impl Iterator<Item = &Cure> {
        let earlier = self.cures.len().saturating_sub(1);
        self.cures[..earlier].iter().flatten()
    }

    /// How many times running the same cure was tried and did not hold, and which it was.
    pub fn same_cure(&self) -> Option<(usize, &Cure)> {
        let tried: Vec<&Cure> = self.did_not_hold().collect();
        let last = tried.last()?;
        let same = tried.iter().rev().take_while(|cure| alike(cure, last));
        Some((same.count(), last))
    }

    /// Whether whoever mends it now is asked for the cause: the same cure failed twice, or any three did.
    pub fn asks_cause(&self) -> bool {
        let same = self.same_cure().map_or(0, |(times, _)| times);
        same >= ALIKE_ASK || self.did_not_hold().count() >= ANY_ASK
    }
}

/// A part of the book that was fitted more than once.
#[derive(Clone, Debug, PartialEq)]
pub struct PartAgain {
    /// The part.
    pub part: ItemId,
    /// When each was fitted; two or more.
    pub at: Vec<Timestamp>,
    /// Life hours from each fitting to the next; none where they are not known.
    pub gaps_hours: Vec<Option<Exact>>,
    /// The fittings, and what was bought for them.
    pub work: Vec<EntryId>,
}

impl PartAgain {
    /// Days from each fitting to the next, by the yard's calendar.
    pub fn gaps_days(&self, zone: &TimeZone) -> Vec<i64> {
        gaps_days(&self.at, zone)
    }
}

/// Points that failed again after they were mended, the most frequent first, then by id.
///
/// Found again while it is still open is the same failure told twice, not another one.
pub fn repeats(machine: &MachineState) -> Vec<Repeat> {
    let mut by_point: BTreeMap<PointId, Vec<&Finding>> = BTreeMap::new();
    for finding in machine.findings.values() {
        if let Some(point) = finding.point() {
            by_point
                .entry(machine.point_today(point))
                .or_default()
                .push(finding);
        }
    }
    let repeats = by_point
        .into_iter()
        .filter_map(|(point, findings)| repeat(machine, point, findings));
    let mut repeats: Vec<Repeat> = repeats.collect();
    repeats.sort_by_key(|repeat| std::cmp::Reverse(repeat.failures.len()));
    repeats
}

/// The repeat at one point, where it failed more than once.
pub fn repeat_at(machine: &MachineState, point: &PointId) -> Option<Repeat> {
    let today = machine.point_today(point);
    let here = |finding: &&Finding| {
        let at = finding.point().map(|point| machine.point_today(point));
        at.as_ref() == Some(&today)
    };
    let findings = machine.findings.values().filter(here).collect();
    repeat(machine, today, findings)
}

/// Parts fitted more than once, the most frequent first, then by id.
pub fn parts_again(machine: &MachineState) -> Vec<PartAgain> {
    let mut by_part: BTreeMap<&ItemId, Vec<&Work>> = BTreeMap::new();
    for work in &machine.work {
        if let Some(part) = &work.part {
            by_part.entry(part).or_default().push(work);
        }
    }
    let again = by_part.into_iter().filter_map(|(part, work)| {
        let fitted: Vec<&&Work> = work
            .iter()
            .filter(|work| work.kind == WorkKind::Fitted)
            .collect();
        let hours: Vec<_> = fitted.iter().map(|work| work.life_hours.as_ref()).collect();
        (fitted.len() > 1).then(|| PartAgain {
            part: part.clone(),
            at: fitted.iter().map(|work| work.at).collect(),
            gaps_hours: gaps_hours(&hours),
            work: work.iter().map(|work| work.entry).collect(),
        })
    });
    let mut again: Vec<PartAgain> = again.collect();
    again.sort_by_key(|part| std::cmp::Reverse(part.at.len()));
    again
}

fn repeat(machine: &MachineState, point: PointId, findings: Vec<&Finding>) -> Option<Repeat> {
    let failures = failures(machine, findings);
    if failures.len() < 2 {
        return None;
    }
    let hours: Vec<_> = failures.iter().map(|one| one.life_hours.as_ref()).collect();
    let book = machine.book().map(|adopted| adopted.book.as_ref());
    let work: Vec<&Work> = machine
        .work
        .iter()
        .filter(|work| names(machine, book, work, &point))
        .collect();
    let ends = failures.iter().skip(1).map(|next| next.at);
    let ends = ends.chain([Timestamp::MAX]);
    let cures = failures
        .iter()
        .zip(ends)
        .map(|(failure, end)| cure(&work, failure.at, end))
        .collect();
    Some(Repeat {
        gaps_hours: gaps_hours(&hours),
        at: failures.iter().map(|failure| failure.at).collect(),
        cures,
        work: work.iter().map(|work| work.entry).collect(),
        stripped: failures.len() >= LOOSE_AGAIN
            && failures[failures.len() - LOOSE_AGAIN..]
                .iter()
                .all(|failure| is_loose(failure)),
        failures: failures
            .into_iter()
            .map(|finding| finding.id.clone())
            .collect(),
        point,
    })
}

/// The findings that began a failure each: the first one, and each that came after the one before was mended.
fn failures<'a>(machine: &MachineState, mut findings: Vec<&'a Finding>) -> Vec<&'a Finding> {
    findings.sort_by_key(|finding| (finding.at, finding.id.entry));
    let mut failures: Vec<&Finding> = Vec::new();
    let mut mended: Option<Timestamp> = None;
    for finding in findings {
        if failures.is_empty() || mended.is_some_and(|mended| mended <= finding.at) {
            failures.push(finding);
            mended = None;
        }
        mended = mended.max(first_mended(machine, finding));
    }
    failures
}

fn first_mended(machine: &MachineState, finding: &Finding) -> Option<Timestamp> {
    finding
        .mended
        .iter()
        .chain(&finding.released)
        .filter_map(|entry| machine.closed_at.get(entry))
        .min()
        .copied()
}

/// Whether work names a point: by itself, by a finding there, or by a part that belongs to this point alone.
fn names(machine: &MachineState, book: Option<&Book>, work: &Work, point: &PointId) -> bool {
    let of_finding = |of: &FaultRef| {
        let at = machine.finding(of).and_then(Finding::point);
        at.or(of.point.as_ref())
            .is_some_and(|at| machine.point_today(at) == *point)
    };
    let of_part = || {
        let part = book?
            .parts
            .iter()
            .find(|part| Some(&part.id) == work.part.as_ref())?;
        Some(part.points == std::slice::from_ref(point))
    };
    match &work.point {
        Some(named) => machine.point_today(named) == *point,
        None => work.mends.iter().any(of_finding) || of_part().unwrap_or(false),
    }
}

fn is_loose(finding: &Finding) -> bool {
    let Found::Answer(answered) = &finding.what else {
        return false;
    };
    matches!(
        answered.answer,
        Answer::Bolts {
            state: BoltState::Loose | BoltState::StripeTurned,
            ..
        }
    )
}

fn gaps_hours(hours: &[Option<&LifeHours>]) -> Vec<Option<Exact>> {
    let gap = |pair: &[Option<&LifeHours>]| Some(&pair[1]?.hours - &pair[0]?.hours);
    hours.windows(2).map(gap).collect()
}

fn gaps_days(at: &[Timestamp], zone: &TimeZone) -> Vec<i64> {
    at.windows(2)
        .map(|pair| days_between_moments(pair[0], pair[1], zone))
        .collect()
}
