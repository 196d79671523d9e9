//! The one way into the journal: forms, sheets and the API all end here.

mod aside;
mod delivery;
mod rules;
mod told;

pub(crate) use delivery::{Became, Why};
use rules::deeds_of;
pub(crate) use rules::{deed_of, is_peoples};

use crate::{app::App, desk::Desk, refusal::Refusal};
use delivery::Deliverer;
use jiff::Timestamp;
use store::{Acceptance, Delivery, NewEntry};
use yard::{
    entry::{Access, AccessWhat, Body},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::{Deed, may},
    world::World,
};

/// What these entries are written on.
pub(crate) const HERE: &str = "yard server";

/// Writes an entry made here, now, by the person at the desk.
pub(crate) fn keep(
    desk: &Desk,
    machine: Option<&MachineId>,
    body: Body,
) -> Result<EntryId, Refusal> {
    let by = desk.signed_in()?;
    for deed in deeds_of(&body, by, desk.view.as_ref()) {
        if !may(desk.role, deed) {
            return Err(Refusal::MayNot(deed.code()));
        }
    }
    if !is_peoples(&body, desk.view.as_ref()) {
        return Err(Refusal::BadRequest);
    }
    no_longer_than_it_may(&body)?;
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
    at: Timestamp,
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
    no_longer_than_it_may(&body)?;
    write(
        desk,
        Some(machine),
        walker,
        DeviceId(format!("paper, typed by {typist}")),
        at.min(desk.now),
        body,
    )
}

/// Takes in entries that devices wrote, delivered by somebody who may write here; `clock` is what their device's shows.
pub(crate) fn take_all(
    app: &App,
    person: PersonId,
    now: Timestamp,
    clock: Option<Timestamp>,
    entries: &[Vec<u8>],
) -> Result<Vec<Became>, Refusal> {
    let gate = app.gate()?;
    let deliverer = Deliverer {
        app,
        gate: &gate,
        person,
        now,
        clock,
    };
    deliverer.deliver(entries)
}

/// The bytes of a note of the program's own, for whoever writes it without a desk, or with other entries in one step.
pub(crate) fn note(
    yard: &store::Yard,
    world: &dyn World,
    by: PersonId,
    counter: u64,
    access: Access,
) -> Vec<u8> {
    store::write_entry(&NewEntry {
        id: EntryId(store::fresh_id(world)),
        yard: yard.id(),
        machine: None,
        at: world.now(),
        by,
        device: DeviceId(HERE.to_owned()),
        counter,
        body: Body::Access(access),
    })
}

/// What a form sends is still in the browser, to be shortened there; what a device brings is kept whole and asked about.
fn no_longer_than_it_may(body: &Body) -> Result<(), Refusal> {
    let mut inside = Some(body);
    while let Some(body) = inside {
        if body.too_long().is_some() {
            return Err(Refusal::TextTooLong);
        }
        inside = match body {
            Body::Correction(correction) => correction.instead.as_deref(),
            _ => None,
        };
    }
    Ok(())
}

fn write(
    desk: &Desk,
    machine: Option<&MachineId>,
    by: PersonId,
    device: DeviceId,
    at: Timestamp,
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
