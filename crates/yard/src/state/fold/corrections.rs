//! Corrections: what each entry says once everything that voids or replaces it has been heard.

use super::super::{Asks, Question};
use crate::{
    entry::{Body, Entry},
    id::{EntryId, MachineId, PersonId},
    people::{Deed, Role, may},
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// Who held which role, on which machine (none: in the yard), when.
pub(super) type RoleOf<'f> = dyn Fn(PersonId, Option<&MachineId>, Timestamp) -> Role + 'f;

/// An entry with what it says after corrections.
#[derive(Clone, Copy, Debug)]
pub(super) struct Heard<'a> {
    /// The entry as written.
    pub(super) entry: &'a Entry,
    /// What it says now; none = voided.
    pub(super) body: Option<&'a Body>,
    /// Who corrected it, and when.
    pub(super) corrected_by: Option<(PersonId, Timestamp)>,
}

impl Heard<'_> {
    /// Whether it may have this effect: its author then, and whoever corrected it when they did, are both entitled. A deputy
    /// thus cannot turn a steward's note into a book.
    pub(super) fn may(&self, deed: Deed, role: &RoleOf<'_>) -> bool {
        let machine = self.entry.machine.as_ref();
        let author = role(self.entry.by, machine, self.entry.ordered_at);
        may(author, deed)
            && self
                .corrected_by
                .is_none_or(|(person, when)| may(role(person, machine, when), deed))
    }
}

/// All entries after corrections, and what the corrections leave open.
#[derive(Debug, Default)]
pub(super) struct Corrected<'a> {
    /// Every entry, in order.
    pub(super) heard: Vec<Heard<'a>>,
    /// Entries corrected more than once, with the corrections in order.
    pub(super) rivals: BTreeMap<EntryId, Vec<EntryId>>,
    /// Questions raised, with the entry each is about.
    pub(super) questions: Vec<(Question, EntryId)>,
}

/// A correction in force.
#[derive(Clone, Copy, Debug)]
struct Said<'a> {
    entry: &'a Entry,
    instead: Option<&'a Body>,
}

/// Hears all corrections.
///
/// The pass goes from the last entry to the first, so that a correction of a correction is settled before the one it
/// corrects; of rivals the later in order applies. A correction counts for a plain entry wherever it stands in order; for
/// another correction only where it is the later of the two, so that corrections that correct each other come to an end.
pub(super) fn hear<'a>(ordered: &[&'a Entry], role: &RoleOf<'_>) -> Corrected<'a> {
    let by_id: BTreeMap<EntryId, &Entry> = ordered.iter().map(|entry| (entry.id, *entry)).collect();
    let mut said: BTreeMap<EntryId, Vec<Said<'a>>> = BTreeMap::new();
    let mut settled: BTreeMap<EntryId, Heard<'a>> = BTreeMap::new();
    let mut questions = Vec::new();
    for entry in ordered.iter().rev().copied() {
        let heard = heard(entry, said.get(&entry.id));
        let Some(Body::Correction(correction)) = heard.body else {
            continue;
        };
        settled.insert(entry.id, heard);
        let Some(target) = by_id.get(&correction.of) else {
            continue;
        };
        let ask = |asks| Question {
            entry: entry.id,
            asks,
            at: entry.ordered_at,
        };
        if !entitled(entry, target, role) {
            questions.push((
                ask(Asks::CorrectionNotEntitled { of: correction.of }),
                correction.of,
            ));
        } else if settled.contains_key(&correction.of) {
            questions.push((ask(Asks::Rivals { of: correction.of }), correction.of));
        } else {
            said.entry(correction.of).or_default().push(Said {
                entry,
                instead: correction.instead.as_deref(),
            });
        }
    }
    for (of, corrections) in said.iter().filter(|(_, corrections)| corrections.len() > 1) {
        let last = corrections[0].entry;
        questions.push((
            Question {
                entry: last.id,
                asks: Asks::Rivals { of: *of },
                at: last.ordered_at,
            },
            *of,
        ));
    }
    questions.sort_by_key(|(question, of)| (question.at, question.entry, *of));
    let rivals = said
        .iter()
        .filter(|(_, all)| all.len() > 1)
        .map(|(of, all)| (*of, all.iter().rev().map(|s| s.entry.id).collect()));
    let rivals = rivals.collect();
    let heard = ordered.iter().map(|entry| {
        settled
            .get(&entry.id)
            .copied()
            .unwrap_or_else(|| heard(entry, said.get(&entry.id)))
    });
    Corrected {
        heard: heard.collect(),
        rivals,
        questions,
    }
}

/// What an entry says under these corrections, the latest of them first.
fn heard<'a>(entry: &'a Entry, corrections: Option<&Vec<Said<'a>>>) -> Heard<'a> {
    match corrections.and_then(|all| all.first()) {
        Some(last) => Heard {
            entry,
            body: last.instead,
            corrected_by: Some((last.entry.by, last.entry.ordered_at)),
        },
        None => Heard {
            entry,
            body: Some(&entry.body),
            corrected_by: None,
        },
    }
}

/// Whether a correction's writer may correct this entry: one's own, or anybody's as deputy or steward; roles only as steward.
fn entitled(correction: &Entry, target: &Entry, role: &RoleOf<'_>) -> bool {
    let held = role(
        correction.by,
        target.machine.as_ref(),
        correction.ordered_at,
    );
    match target.body {
        Body::RoleGiven(_) => may(held, Deed::ManagePeople),
        _ => {
            may(held, Deed::CorrectAny)
                || (correction.by == target.by && may(held, Deed::CorrectOwn))
        }
    }
}
