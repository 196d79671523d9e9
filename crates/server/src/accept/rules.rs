//! Who may write what: one deed for each kind of entry, and what nobody writes.

use crate::app::View;
use std::collections::BTreeMap;
use yard::{
    entry::{Body, Entry, RunPart},
    id::{EntryId, PersonId},
    people::Deed,
    state::{document_deed, keeps_harm, unsaying_deed},
};

/// Finds what a correction speaks of.
pub(crate) trait Found {
    /// The entry, where it was accepted.
    fn entry(&self, id: EntryId) -> Option<&Entry>;
}

impl Found for View {
    fn entry(&self, id: EntryId) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.id == id)
    }
}

impl Found for BTreeMap<EntryId, Entry> {
    fn entry(&self, id: EntryId) -> Option<&Entry> {
        self.get(&id)
    }
}

/// The deed that writing this body needs, by somebody who is `by`.
pub(crate) fn deed_of(body: &Body, by: PersonId, found: &impl Found) -> Deed {
    match body {
        Body::BookAdopted(_) | Body::GapAccepted(_) => Deed::AdoptBook,
        Body::MeterReading(_)
        | Body::MeterChange(_)
        | Body::MeterBroken(_)
        | Body::HoursTold(_) => Deed::ReadMeter,
        Body::Ruling(_) => Deed::Settle,
        Body::WalkRound(_) => Deed::WalkRound,
        Body::Run(_) => Deed::Run,
        Body::Greasing(_) | Body::TopUp(_) | Body::Adjustment(_) => Deed::Service,
        Body::Fault(_) => Deed::ReportFault,
        Body::Repair(_) | Body::PartFitted(_) | Body::ShelfCount(_) | Body::Attachment(_) => {
            Deed::Repair
        }
        Body::StandDown(_) => Deed::StandDown,
        Body::Release(_) => Deed::Release,
        Body::MovePermit(_) => Deed::PermitMove,
        Body::Handover(_) => Deed::HandOver,
        Body::Purchase(_) | Body::Lesson(_) | Body::SignOff(_) => Deed::SignOff,
        Body::Document(document) => document_deed(document),
        Body::DocumentEnded(_) => Deed::NeededDocuments,
        Body::Arrival(_) => Deed::Arrive,
        Body::LeftYard(_) | Body::CameBack(_) => Deed::LetGo,
        Body::Note(_) | Body::Photo(_) | Body::Unknown { .. } | Body::Unreadable { .. } => {
            Deed::Note
        }
        // No deed lets one in: see `is_peoples`.
        Body::RoleGiven(_) | Body::Access(_) => Deed::ManagePeople,
        Body::Correction(correction) => {
            // What told of harm its author alone cannot unsay.
            let own = found.entry(correction.of).is_some_and(|target| {
                target.by == by && keeps_harm(&target.body, correction.instead.as_deref())
            });
            if own {
                Deed::CorrectOwn
            } else {
                Deed::CorrectAny
            }
        }
    }
}

/// All deeds that writing this body needs: a correction needs its own and that of what it puts in the place, so that nobody
/// writes by a correction what they may not write outright.
pub(crate) fn deeds_of(body: &Body, by: PersonId, found: &impl Found) -> Vec<Deed> {
    let instead = match body {
        Body::Correction(correction) => correction.instead.as_deref(),
        _ => None,
    };
    // A correction of a correction corrects what that one said: whose it was is asked of the outermost.
    let inner = instead.into_iter().flat_map(|instead| match instead {
        Body::Correction(_) => deeds_of(instead, by, found).split_off(1),
        _ => vec![deed_of(instead, by, found)],
    });
    let struck = match body {
        Body::Correction(correction) => found.entry(correction.of),
        _ => None,
    };
    std::iter::once(deed_of(body, by, found))
        .chain(inner)
        .chain(struck.and_then(|target| unsaying_deed(&target.body)))
        .collect()
}

/// Whether people write such an entry. What the program notes about signing in is neither written nor corrected by anybody.
///
/// What a correction speaks of is looked up once, not along a chain of corrections: no correction of such a note was ever let in.
pub(crate) fn is_peoples(body: &Body, found: &impl Found) -> bool {
    match body {
        Body::Access(_) => false,
        // Of a version to come, or damaged: no less the program's own.
        Body::Unknown { kind, .. } | Body::Unreadable { kind, .. } => kind != "access",
        Body::Correction(correction) => {
            let of = found.entry(correction.of);
            let not_program =
                |of: &Entry| matches!(of.body, Body::Correction(_)) || is_peoples(&of.body, found);
            let instead = correction.instead.as_deref();
            of.is_none_or(not_program) && instead.is_none_or(|instead| is_peoples(instead, found))
        }
        _ => true,
    }
}

/// Whether a body says that somebody stood in sight, as only a PIN typed on that device may.
pub(super) fn claims_sight(body: &Body) -> bool {
    match body {
        Body::Run(run) => run.in_sight_of.is_some(),
        Body::Correction(correction) => correction.instead.as_deref().is_some_and(claims_sight),
        _ => false,
    }
}

/// Whether a body is the start of a run: a learner's needs the word of somebody in sight, so no device brings it by itself.
pub(super) fn is_start(body: &Body) -> bool {
    match body {
        Body::Run(run) => run.part == RunPart::Start,
        Body::Correction(correction) => correction.instead.as_deref().is_some_and(is_start),
        _ => false,
    }
}

/// The entries that a body's corrections speak of.
pub(super) fn spoken_of(body: &Body) -> Vec<EntryId> {
    let mut all = Vec::new();
    let mut inside = Some(body);
    while let Some(Body::Correction(correction)) = inside {
        all.push(correction.of);
        inside = correction.instead.as_deref();
    }
    all
}
