//! What was found and is not closed, a line for each thing: the same answer at the same point is one.

use crate::{
    handover::Judgement,
    id::FaultRef,
    state::{Finding, Found, MachineState},
};

/// One open thing: its latest finding, and every finding that an entry closing it has to name.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenThing<'a> {
    /// The latest finding.
    pub latest: &'a Finding,
    /// All of them, oldest first.
    pub all: Vec<&'a Finding>,
}

impl OpenThing<'_> {
    /// Their names, for an entry that closes them.
    pub fn names(&self) -> Vec<FaultRef> {
        self.all.iter().map(|finding| finding.id.clone()).collect()
    }
}

/// Everything open on a machine, latest first. Open is what nobody mended or released, and what was mended but still stands
/// in the verdict because it waits for its release.
pub fn open_things<'a>(machine: &'a MachineState, judgement: &Judgement) -> Vec<OpenThing<'a>> {
    let waits = |finding: &Finding| {
        let named = |reason: &crate::handover::Reason| reason.finding.as_ref() == Some(&finding.id);
        judgement.reasons.iter().any(named)
    };
    let open = machine
        .findings
        .values()
        .filter(|finding| finding.open() || (finding.released.is_none() && waits(finding)));
    // One thing is the same point with the same answer: a crack is never closed as the bend found after it.
    let mut things: Vec<Vec<&Finding>> = Vec::new();
    for finding in open {
        let same = things
            .iter_mut()
            .find(|thing| thing.iter().any(|other| same_thing(other, finding)));
        match same {
            Some(thing) => thing.push(finding),
            None => things.push(vec![finding]),
        }
    }
    let mut lines: Vec<OpenThing<'a>> = things
        .into_iter()
        .filter_map(|mut all| {
            all.sort_by(|a, b| (a.at, &a.id).cmp(&(b.at, &b.id)));
            all.last().copied().map(|latest| OpenThing { latest, all })
        })
        .collect();
    lines.sort_by(|a, b| (b.latest.at, &b.latest.id).cmp(&(a.latest.at, &a.latest.id)));
    lines
}

fn same_thing(a: &Finding, b: &Finding) -> bool {
    match (&a.what, &b.what) {
        (Found::Answer(x), Found::Answer(y)) => a.id.point == b.id.point && x.answer == y.answer,
        _ => a.id == b.id,
    }
}
