//! The one way into the journal: forms, sheets and the API all end here.

use crate::{app::View, desk::Desk, refusal::Refusal};
use store::{Acceptance, Delivery, Envelope, NewEntry, Row};
use yard::{
    entry::{Access, AccessWhat, Body},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::{Deed, may},
    state::keeps_harm,
};

/// The deed that writing this body needs, by somebody who is `by` in a yard as it is in `view`.
pub(crate) fn deed_of(body: &Body, by: PersonId, view: &View) -> Deed {
    match body {
        Body::BookAdopted(_) | Body::GapAccepted(_) => Deed::AdoptBook,
        Body::MeterReading(_) | Body::MeterChange(_) => Deed::ReadMeter,
        Body::Ruling(_) => Deed::Settle,
        Body::WalkRound(_) => Deed::WalkRound,
        Body::Run(_) => Deed::Run,
        Body::Greasing(_) | Body::TopUp(_) | Body::Adjustment(_) => Deed::Service,
        Body::Fault(_) => Deed::ReportFault,
        Body::Repair(_) | Body::PartFitted(_) => Deed::Repair,
        Body::StandDown(_) => Deed::StandDown,
        Body::Release(_) => Deed::Release,
        Body::MovePermit(_) => Deed::PermitMove,
        Body::Handover(_) => Deed::HandOver,
        Body::Purchase(_) | Body::Lesson(_) | Body::SignOff(_) => Deed::SignOff,
        Body::Note(_) | Body::Photo(_) | Body::Unknown { .. } | Body::Unreadable { .. } => {
            Deed::Note
        }
        // No deed lets one in: see `note_access`.
        Body::RoleGiven(_) | Body::Access(_) => Deed::ManagePeople,
        Body::Correction(correction) => {
            let target = view.entries.iter().find(|e| e.id == correction.of);
            // What told of harm its author alone cannot unsay.
            let own = target.is_some_and(|target| {
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

/// Whether people write such an entry. What the program notes about signing in is neither written nor corrected by anybody.
pub(crate) fn is_peoples(body: &Body, view: &View) -> bool {
    match body {
        Body::Access(_) => false,
        Body::Correction(correction) => {
            let of = view.entries.iter().find(|e| e.id == correction.of);
            let of = of.is_none_or(|of| is_peoples(&of.body, view));
            let instead = correction.instead.as_deref();
            of && instead.is_none_or(|instead| is_peoples(instead, view))
        }
        _ => true,
    }
}

/// Writes an entry made here, now, by the person at the desk.
pub(crate) fn keep(
    desk: &Desk,
    machine: Option<&MachineId>,
    body: Body,
) -> Result<EntryId, Refusal> {
    let by = desk.signed_in()?;
    let deed = deed_of(&body, by, &desk.view);
    if !may(desk.role, deed) {
        return Err(Refusal::MayNot(deed.code()));
    }
    if !is_peoples(&body, &desk.view) {
        return Err(Refusal::BadRequest);
    }
    write(desk, machine, by, desk.device(), desk.now, body)
}

/// Notes something about signing in, by whoever is signed in, or by the program itself. The one writer of such entries.
pub(crate) fn note_access(
    desk: &Desk,
    what: AccessWhat,
    of: Option<PersonId>,
    note: Option<String>,
) -> Result<EntryId, Refusal> {
    let by = desk.person.unwrap_or(PersonId::PROGRAM);
    let access = Body::Access(Access { what, of, note });
    write(desk, None, by, desk.device(), desk.now, access)
}

/// Writes an entry that came back on paper: walked by `walker` at `at`, typed in by the person at the desk.
pub(crate) fn keep_from_paper(
    desk: &Desk,
    machine: &MachineId,
    walker: PersonId,
    at: jiff::Timestamp,
    body: Body,
) -> Result<EntryId, Refusal> {
    let typist = desk.signed_in()?;
    let least = if walker == typist {
        Deed::WalkRound
    } else {
        Deed::TakeInPaper
    };
    if !may(desk.role, least) {
        return Err(Refusal::MayNot(least.code()));
    }
    write(
        desk,
        Some(machine),
        walker,
        DeviceId(format!("paper, typed by {typist}")),
        at.min(desk.now),
        body,
    )
}

fn write(
    desk: &Desk,
    machine: Option<&MachineId>,
    by: PersonId,
    device: DeviceId,
    at: jiff::Timestamp,
    body: Body,
) -> Result<EntryId, Refusal> {
    let id = desk.new_id();
    let entry = NewEntry {
        id,
        yard: desk.app.yard.id(),
        machine: machine.cloned(),
        at,
        by,
        device,
        counter: desk.app.yard.tip()?.seq + 1,
        body,
    };
    let bytes = store::write_entry(&entry);
    match desk.app.yard.accept(
        &bytes,
        Delivery {
            written: desk.now,
            writers_clock_now: Some(desk.now),
        },
    )? {
        Acceptance::New { .. } | Acceptance::Known { .. } => Ok(id),
        Acceptance::Conflict { .. } => Err(Refusal::Ours("a fresh id met other bytes".to_owned())),
    }
}

/// Takes an entry's bytes as a device wrote them (the API). The signed-in person must be its writer.
pub(crate) fn take(
    desk: &Desk,
    bytes: &[u8],
    writers_clock_now: Option<jiff::Timestamp>,
) -> Result<Acceptance, Refusal> {
    // The role is asked before the body is read.
    let by = desk.may(Deed::Note)?;
    let now = Envelope {
        seq: 0,
        written: desk.now,
        ordered_at: desk.now,
        corrected: false,
        hash: [0; 32],
    };
    let head =
        store::form::read_head(bytes, desk.app.yard.id()).map_err(|_| Refusal::BadRequest)?;
    let read = store::form::read_entry(&Row {
        id: head.id,
        machine: head.machine,
        kind: head.kind,
        bytes: bytes.to_vec(),
        envelope: now,
    })
    .map_err(|_| Refusal::BadRequest)?;
    if read.by != by {
        return Err(Refusal::MayNot(Deed::TakeInPaper.code()));
    }
    let deed = deed_of(&read.body, by, &desk.view);
    if !may(desk.role, deed) {
        return Err(Refusal::MayNot(deed.code()));
    }
    if !is_peoples(&read.body, &desk.view) {
        return Err(Refusal::BadRequest);
    }
    if let Body::Correction(correction) = &read.body {
        let target = desk.view.entries.iter().find(|e| e.id == correction.of);
        if target.is_some_and(|target| target.machine != read.machine) {
            return Err(Refusal::BadRequest);
        }
    }
    Ok(desk.app.yard.accept(
        bytes,
        Delivery {
            written: desk.now,
            writers_clock_now,
        },
    )?)
}
