//! One person's state, and the yard's.

use crate::{
    id::{EntryId, MachineId, PersonId},
    people::Role,
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// What the journal says of one person.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PersonState {
    /// Roles over time: since when, which (none = taken away), by which entry. In order.
    pub roles: Vec<(Timestamp, Option<Role>, EntryId)>,
    /// Last time on each machine.
    pub machines: BTreeMap<MachineId, Timestamp>,
    /// Lessons taken: when, what.
    pub lessons: Vec<(Timestamp, String)>,
}

impl PersonState {
    /// The role held at a time; visitor where none was given.
    pub fn role_at(&self, when: Timestamp) -> Role {
        let held = self.roles.iter().take_while(|(since, ..)| *since <= when).last();
        held.and_then(|(_, role, _)| *role).unwrap_or(Role::Visitor)
    }
}

/// What the journal says of the yard as a whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct YardState {
    /// People by id.
    pub people: BTreeMap<PersonId, PersonState>,
    /// Machines that have entries.
    pub machines: Vec<MachineId>,
}

impl YardState {
    /// The role a person held at a time.
    pub fn role_at(&self, person: PersonId, when: Timestamp) -> Role {
        self.people.get(&person).map_or(Role::Visitor, |p| p.role_at(when))
    }
}
