//! All that is kept about one person, gathered once for the page and the download.

use crate::{desk::Desk, guard, refusal::Refusal};
use jiff::Timestamp;
use serde_json::{Value, json};
use store::{Misses, Session};
use yard::{
    entry::{Body, Entry},
    id::{EntryId, MachineId, PersonId},
    people::Role,
    state::SignedOff,
};

/// See the module.
pub(crate) struct Kept<'d> {
    /// Who.
    pub(crate) person: PersonId,
    /// Name; none once erased.
    pub(crate) name: Option<&'d str>,
    /// Whether a PIN's hash is kept.
    pub(crate) pin: bool,
    /// Roles in the whole yard: since when, which (none = taken away), by which entry.
    pub(crate) roles: &'d [(Timestamp, Option<Role>, EntryId)],
    /// Sign-offs in force, by machine.
    pub(crate) sign_offs: Vec<(&'d MachineId, &'d SignedOff)>,
    /// Sign-ins that hold, each with the hash of its id.
    pub(crate) sign_ins: Vec<(String, Session)>,
    /// Wrong PINs within the last day, by counter.
    pub(crate) misses: Vec<(String, Misses)>,
    /// Entries they wrote.
    pub(crate) written: Vec<&'d Entry>,
    /// Entries by others, or by themselves, that name them.
    pub(crate) naming: Vec<&'d Entry>,
}

impl<'d> Kept<'d> {
    /// Gathers it.
    pub(crate) fn about(desk: &'d Desk, person: PersonId) -> Result<Self, Refusal> {
        let (view, yard) = (&desk.view, &desk.app.yard);
        let state = view.yard.people.get(&person);
        let sign_off = |(id, machine): (&'d MachineId, &'d yard::state::MachineState)| {
            Some((id, machine.sign_offs.get(&person)?))
        };
        let mut misses = yard.all_misses(desk.now)?;
        misses.retain(|(key, _)| guard::is_of(key, person));
        Ok(Self {
            person,
            name: view.names.get(&person).map(String::as_str),
            pin: yard.person(person)?.is_some_and(|p| p.pin_hash.is_some()),
            roles: state.map_or(&[], |state| &state.roles),
            sign_offs: view.machines.iter().filter_map(sign_off).collect(),
            sign_ins: yard.sessions_of(person, desk.now)?,
            misses,
            written: view.entries.iter().filter(|e| e.by == person).collect(),
            naming: view
                .entries
                .iter()
                .filter(|e| names(&e.body, person))
                .collect(),
        })
    }

    /// Photos named in entries they wrote.
    pub(crate) fn photos(&self) -> Vec<String> {
        let of = |e: &&Entry| photos(&e.body);
        self.written.iter().flat_map(of).collect()
    }

    /// How many wrong PINs within the last day.
    pub(crate) fn missed(&self) -> usize {
        self.misses.iter().map(|(_, misses)| misses.at.len()).sum()
    }

    /// Whether signing in as them is locked.
    pub(crate) fn locked(&self) -> bool {
        self.misses.iter().any(|(_, misses)| misses.locked)
    }

    /// As JSON, for the download.
    pub(crate) fn json(&self) -> Value {
        let ids = |entries: &[&Entry]| -> Vec<String> {
            entries.iter().map(|e| e.id.to_string()).collect()
        };
        let role = |(since, role, entry): &(Timestamp, Option<Role>, EntryId)| json!({ "since": since.to_string(), "role": role.map(Role::code), "entry": entry.to_string() });
        let sign_off = |(machine, signed): &(&MachineId, &SignedOff)| {
            json!({ "machine": machine.as_str(), "entry": signed.entry.to_string(), "until": signed.until.map(|d| d.to_string()),
                "in_sight": signed.in_sight, "limits": signed.limits })
        };
        let sign_in = |(_, held): &(String, Session)| json!({ "device": held.device, "shared": held.shared, "since": held.since.map(|t| t.to_string()), "until": held.expires.to_string() });
        let missed = self.misses.iter().flat_map(|(_, misses)| &misses.at);
        json!({
            "person": self.person.to_string(),
            "name": self.name,
            "has_pin": self.pin,
            "roles": self.roles.iter().map(role).collect::<Vec<_>>(),
            "sign_offs": self.sign_offs.iter().map(sign_off).collect::<Vec<_>>(),
            "sign_ins": self.sign_ins.iter().map(sign_in).collect::<Vec<_>>(),
            "wrong_pins": missed.map(|miss| miss.at.to_string()).collect::<Vec<_>>(),
            "locked": self.locked(),
            "entries_written": ids(&self.written),
            "entries_naming": ids(&self.naming),
            "photos": self.photos(),
        })
    }
}

/// Whether an entry's body names this person.
fn names(body: &Body, person: PersonId) -> bool {
    match body {
        Body::Run(run) => run.in_sight_of == Some(person),
        Body::MovePermit(permit) => permit.who == person,
        Body::Lesson(lesson) => lesson.person == person,
        Body::SignOff(sign_off) => sign_off.person == person,
        Body::RoleGiven(given) => given.person == person,
        Body::Access(access) => access.of == Some(person),
        Body::Correction(correction) => correction
            .instead
            .as_deref()
            .is_some_and(|instead| names(instead, person)),
        _ => false,
    }
}

/// Photos an entry's body holds.
fn photos(body: &Body) -> Vec<String> {
    match body {
        Body::Photo(photo) => vec![photo.photo.to_string()],
        Body::WalkRound(walk) => {
            let of_each = walk.answers.iter().flat_map(|one| &one.photos);
            of_each.map(ToString::to_string).collect()
        }
        _ => Vec::new(),
    }
}
