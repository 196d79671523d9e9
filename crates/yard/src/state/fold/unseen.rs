//! What a permit to move could not know: findings the journal took in after it, whatever time they bear.

use super::super::MachineState;
use crate::{
    entry::{Body, Entry},
    id::{EntryId, FaultRef},
};
use std::collections::{BTreeMap, BTreeSet};

/// For each permit the findings that were accepted, or last corrected, after the permit was accepted.
///
/// By order of acceptance, not by time: a finding written earlier on a device out of range was not known to whoever gave
/// the permit. A correction counts for what it corrects, whoever wrote it: at worst a permit has to be given again.
pub(super) fn unseen_by_permits(
    ordered: &[&Entry],
    state: &MachineState,
) -> BTreeMap<EntryId, BTreeSet<FaultRef>> {
    if state.permits.is_empty() {
        return BTreeMap::new();
    }
    let seq: BTreeMap<EntryId, u64> = ordered.iter().map(|one| (one.id, one.seq)).collect();
    let last_said = last_said(ordered, &seq);
    let unseen = |permit: EntryId| {
        let accepted = seq.get(&permit).copied().unwrap_or(0);
        let later = state.findings.keys().filter(|finding| {
            last_said
                .get(&finding.entry)
                .is_some_and(|said| *said > accepted)
        });
        later.cloned().collect()
    };
    let permits = state.permits.iter().map(|(permit, ..)| *permit);
    permits.map(|permit| (permit, unseen(permit))).collect()
}

/// The place in the order of acceptance at which each entry, or the last correction of it, came.
fn last_said(ordered: &[&Entry], seq: &BTreeMap<EntryId, u64>) -> BTreeMap<EntryId, u64> {
    let corrects: BTreeMap<EntryId, EntryId> = ordered
        .iter()
        .filter_map(|one| match &one.body {
            Body::Correction(correction) => Some((one.id, correction.of)),
            _ => None,
        })
        .collect();
    let mut last = seq.clone();
    for (correction, of) in &corrects {
        let said = seq.get(correction).copied().unwrap_or(0);
        // Corrections may correct one another, in a circle even: each is followed once.
        let mut followed = BTreeSet::from([*correction]);
        let mut next = Some(*of);
        while let Some(entry) = next.filter(|entry| followed.insert(*entry)) {
            let known = last.entry(entry).or_insert(said);
            *known = said.max(*known);
            next = corrects.get(&entry).copied();
        }
    }
    last
}
