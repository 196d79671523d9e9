//! Corrections: what each entry says once everything that voids or replaces it has been heard.

use super::{
    super::{Asks, Question},
    harm::keeps_harm,
    kept::unsaying_deed,
};
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
    pub(super) questions: Questions,
}

/// A correction in force.
#[derive(Clone, Copy, Debug)]
struct Said<'a> {
    entry: &'a Entry,
    instead: Option<&'a Body>,
    /// Whether everybody who made it say so may correct anybody's entry.
    leads: bool,
}

/// The corrections of each entry that are in force, in order.
type InForce<'a> = BTreeMap<EntryId, Vec<Said<'a>>>;

/// What is asked, with the entry it is about.
type Questions = Vec<(Question, EntryId)>;

/// Hears all corrections.
///
/// The pass goes from the last entry to the first, so that a correction of a correction is settled before the one it
/// corrects; of rivals the later in order applies. A correction counts for a plain entry wherever it stands in order; for
/// another correction only where it is the later of the two, so that corrections that correct each other come to an end.
/// What was told of harm stays told unless deputy or steward correct it: see [`lawful`].
pub(super) fn hear<'a>(ordered: &[&'a Entry], role: &RoleOf<'_>) -> Corrected<'a> {
    let by_id: BTreeMap<EntryId, &Entry> = ordered.iter().map(|entry| (entry.id, *entry)).collect();
    let mut said = InForce::new();
    let mut settled: BTreeMap<EntryId, Heard<'a>> = BTreeMap::new();
    let mut questions = Questions::new();
    for entry in ordered.iter().rev().copied() {
        let heard = heard(entry, &lawful(entry, said.get(&entry.id)));
        let Some(Body::Correction(correction)) = heard.body else {
            continue;
        };
        settled.insert(entry.id, heard);
        keep_harm(entry, &mut said, &mut questions);
        let of = correction.of;
        let Some(target) = by_id.get(&of) else {
            continue;
        };
        if !entitled(entry, target, role) {
            let asks = Asks::CorrectionNotEntitled { of };
            questions.push((Question::by(entry, asks), of));
        } else if settled.contains_key(&of) {
            questions.push((Question::by(entry, Asks::Rivals { of }), of));
        } else {
            let one = Said {
                entry,
                instead: correction.instead.as_deref(),
                leads: leads(&heard, target, role),
            };
            said.entry(of).or_default().insert(0, one);
        }
    }
    for entry in ordered
        .iter()
        .filter(|entry| !settled.contains_key(&entry.id))
    {
        keep_harm(entry, &mut said, &mut questions);
    }
    let told = |entry: &&'a Entry| match settled.get(&entry.id) {
        Some(correction) => *correction,
        None => heard(entry, said.get(&entry.id).map_or(&[], Vec::as_slice)),
    };
    let heard = ordered.iter().map(told).collect();
    let rivals = rivals(&said, &mut questions);
    questions.sort_by_key(|(question, of)| (question.at, question.entry, *of));
    Corrected {
        heard,
        rivals,
        questions,
    }
}

/// Leaves out the corrections of an entry that are not lawful, and asks about them.
fn keep_harm<'a>(entry: &'a Entry, said: &mut InForce<'a>, questions: &mut Questions) {
    let Some(all) = said.get_mut(&entry.id) else {
        return;
    };
    let kept = lawful(entry, Some(all));
    let stays = |one: &Said<'_>| kept.iter().any(|kept| kept.entry.id == one.entry.id);
    for one in all.iter().filter(|one| !stays(one)) {
        let asks = Asks::CorrectionNotEntitled { of: entry.id };
        questions.push((Question::by(one.entry, asks), entry.id));
    }
    *all = kept;
}

/// The corrections of an entry but those that take away harm told by it, or by a correction before them, unless everybody
/// who made them say so may correct anybody's entry: what somebody was told to look at, its author alone cannot unsay.
fn lawful<'a>(entry: &'a Entry, corrections: Option<&Vec<Said<'a>>>) -> Vec<Said<'a>> {
    let mut now = Some(&entry.body);
    let mut lawful = Vec::new();
    for one in corrections.into_iter().flatten() {
        if one.leads || now.is_none_or(|now| keeps_harm(now, one.instead)) {
            now = one.instead;
            lawful.push(*one);
        }
    }
    lawful
}

/// Entries with more than one correction in force; the last of them is asked about.
fn rivals(said: &InForce<'_>, questions: &mut Questions) -> BTreeMap<EntryId, Vec<EntryId>> {
    let mut rivals = BTreeMap::new();
    for (of, all) in said.iter().filter(|(_, all)| all.len() > 1) {
        let asks = Asks::Rivals { of: *of };
        questions.extend(all.last().map(|last| (Question::by(last.entry, asks), *of)));
        rivals.insert(*of, all.iter().map(|said| said.entry.id).collect());
    }
    rivals
}

/// What an entry says under these corrections, in order.
fn heard<'a>(entry: &'a Entry, corrections: &[Said<'a>]) -> Heard<'a> {
    match corrections.last() {
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

/// Whether a correction's writer may correct this entry: one's own, or anybody's as deputy or steward; roles only as steward;
/// what the program noted about signing in, nobody.
fn entitled(correction: &Entry, target: &Entry, role: &RoleOf<'_>) -> bool {
    let held = role(
        correction.by,
        target.machine.as_ref(),
        correction.ordered_at,
    );
    match target.body {
        Body::RoleGiven(_) => may(held, Deed::ManagePeople),
        Body::Access(_) => false,
        _ => {
            let unsays = unsaying_deed(&target.body);
            let corrects = may(held, Deed::CorrectAny)
                || (correction.by == target.by && may(held, Deed::CorrectOwn));
            corrects && unsays.is_none_or(|deed| may(held, deed))
        }
    }
}

/// Whether a correction's writer, and whoever corrected it in turn, may correct anybody's entry on this machine.
fn leads(correction: &Heard<'_>, target: &Entry, role: &RoleOf<'_>) -> bool {
    let writer = (correction.entry.by, correction.entry.ordered_at);
    let machine = target.machine.as_ref();
    [Some(writer), correction.corrected_by]
        .into_iter()
        .flatten()
        .all(|(person, when)| may(role(person, machine, when), Deed::CorrectAny))
}
