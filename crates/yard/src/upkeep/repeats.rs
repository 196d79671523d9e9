//! Repeat faults: the same point failing again after it was mended.

use crate::{
    id::{FaultRef, PointId},
    state::{Finding, Found, LifeHours, MachineState},
};
use jiff::Timestamp;
use quantity::Exact;
use std::collections::BTreeMap;

/// A point that failed more than once.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeat {
    /// Point, by its id of today.
    pub point: PointId,
    /// The findings that began each failure, in order; two or more.
    pub failures: Vec<FaultRef>,
    /// Life hours from each failure to the next; none where they are not known.
    pub gaps_hours: Vec<Option<Exact>>,
}

/// Points that failed again after they were mended, the most frequent first, then by id.
///
/// Found again while it is still open is the same failure told twice, not another one.
pub fn repeats(machine: &MachineState) -> Vec<Repeat> {
    let mut by_point: BTreeMap<PointId, Vec<&Finding>> = BTreeMap::new();
    for finding in machine.findings.values() {
        if let Some(point) = point_of(&finding.what) {
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

fn point_of(what: &Found) -> Option<&PointId> {
    match what {
        Found::Answer(answered) => Some(&answered.point),
        Found::Fault(fault) => fault.point.as_ref(),
        Found::StoodDown(_) => None,
    }
}

fn repeat(machine: &MachineState, point: PointId, mut findings: Vec<&Finding>) -> Option<Repeat> {
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
    let gap = |pair: &[&Finding]| {
        let hours = |life: &Option<LifeHours>| life.as_ref().map(|life| life.hours.clone());
        Some(hours(&pair[1].life_hours)? - hours(&pair[0].life_hours)?)
    };
    let gaps_hours = failures.windows(2).map(gap).collect();
    let failures: Vec<FaultRef> = failures
        .into_iter()
        .map(|finding| finding.id.clone())
        .collect();
    (failures.len() > 1).then_some(Repeat {
        point,
        failures,
        gaps_hours,
    })
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
