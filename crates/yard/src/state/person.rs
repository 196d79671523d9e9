//! One person's state, and the yard's.

use super::Question;
use crate::{
    id::{EntryId, MachineId, PersonId},
    people::Role,
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// What the journal says of one person.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PersonState {
    /// Roles over time for the whole yard: since when, which (none = taken away), by which entry. In order.
    pub roles: Vec<(Timestamp, Option<Role>, EntryId)>,
    /// Roles over time on single machines only, e.g. deputy for the loader. A later role for the whole yard ends them.
    pub on_machines: BTreeMap<MachineId, Vec<(Timestamp, Option<Role>, EntryId)>>,
    /// Last time on each machine.
    pub machines: BTreeMap<MachineId, Timestamp>,
    /// Lessons taken: when, what.
    pub lessons: Vec<(Timestamp, String)>,
}

impl PersonState {
    /// The role held in the whole yard at a time; visitor where none was given.
    pub fn role_at(&self, when: Timestamp) -> Role {
        in_force(&self.roles, when)
            .and_then(|(_, role)| role)
            .unwrap_or(Role::Visitor)
    }
    /// The role held on one machine at a time: that of the whole yard, or one given for this machine since.
    pub fn role_on(&self, machine: &MachineId, when: Timestamp) -> Role {
        let whole = in_force(&self.roles, when);
        let here = self
            .on_machines
            .get(machine)
            .and_then(|roles| in_force(roles, when));
        let later =
            here.filter(|(since, _)| whole.is_none_or(|(whole_since, _)| *since >= whole_since));
        later
            .and_then(|(_, role)| role)
            .unwrap_or_else(|| self.role_at(when))
    }
}

/// The last of these roles given up to a time, with its time.
fn in_force(
    roles: &[(Timestamp, Option<Role>, EntryId)],
    when: Timestamp,
) -> Option<(Timestamp, Option<Role>)> {
    let (since, role, _) = roles
        .iter()
        .take_while(|(since, ..)| *since <= when)
        .last()?;
    Some((*since, *role))
}

/// What the journal says of the yard as a whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct YardState {
    /// People by id.
    pub people: BTreeMap<PersonId, PersonState>,
    /// Machines that have entries, by id.
    pub machines: Vec<MachineId>,
    /// Questions about entries of the yard that nobody has settled, by the entry that raised them.
    pub questions: BTreeMap<EntryId, Question>,
    /// Entries of the yard that rival corrections speak of.
    pub rivals: BTreeMap<EntryId, Vec<EntryId>>,
    /// Entries of the yard of unknown kinds or versions: kept and passed over.
    pub unknown: Vec<(EntryId, String)>,
    /// Documents of the yard as a whole, in the order they were written down.
    pub documents: Vec<super::KeptDocument>,
}

impl YardState {
    /// The role a person held at a time.
    pub fn role_at(&self, person: PersonId, when: Timestamp) -> Role {
        self.people
            .get(&person)
            .map_or(Role::Visitor, |p| p.role_at(when))
    }
    /// The role a person held on one machine at a time.
    pub fn role_on(&self, person: PersonId, machine: &MachineId, when: Timestamp) -> Role {
        self.people
            .get(&person)
            .map_or(Role::Visitor, |p| p.role_on(machine, when))
    }
}
