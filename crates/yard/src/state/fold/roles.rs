//! Who holds which role: role entries and their corrections, taken forward in time.
//!
//! Roles decide who may correct, and corrections change roles. The knot is cut by time: a correction of a role counts from
//! the moment of the correction on, and who was entitled at an earlier time stays so.

use super::super::{PersonState, Question};
use crate::{
    entry::{Body, Entry, RoleGiven},
    id::{EntryId, MachineId, PersonId},
    people::{Deed, Role, may},
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// Roles as they come to stand.
#[derive(Debug, Default)]
pub(super) struct Roles<'a> {
    /// People with their roles over time.
    pub(super) people: BTreeMap<PersonId, PersonState>,
    /// Role entries and corrections of them by people who may not.
    pub(super) questions: Vec<Question>,
    /// Accepted role entries in order, each with what it says now (none = voided).
    given: Vec<(EntryId, Option<&'a RoleGiven>)>,
    /// For each role entry its corrections in force, in order.
    corrections: BTreeMap<EntryId, Vec<(EntryId, Option<&'a RoleGiven>)>>,
    /// The role entry that each correction in force speaks of.
    speaks_of: BTreeMap<EntryId, EntryId>,
    /// What each accepted role entry said at first.
    first_said: BTreeMap<EntryId, &'a RoleGiven>,
}

/// Takes all role entries and their corrections in order.
pub(super) fn roles<'a>(ordered: &[&'a Entry]) -> Roles<'a> {
    let mut roles = Roles::default();
    for entry in ordered.iter().copied() {
        match &entry.body {
            Body::RoleGiven(given) => roles.take(entry, given),
            Body::Correction(correction) => {
                roles.correct(entry, correction.of, correction.instead.as_deref())
            }
            _ => {}
        }
    }
    roles
}

impl<'a> Roles<'a> {
    /// The role somebody holds in the yard at a time reached so far.
    fn held(&self, person: PersonId, when: Timestamp) -> Role {
        self.people
            .get(&person)
            .map_or(Role::Visitor, |person| person.role_at(when))
    }

    fn take(&mut self, entry: &Entry, given: &'a RoleGiven) {
        let founds = self.given.is_empty() && entry.by == given.person;
        if !founds && !may(self.held(entry.by, entry.ordered_at), Deed::ManagePeople) {
            self.questions.push(Question::not_entitled(entry));
            return;
        }
        self.given.push((entry.id, Some(given)));
        self.first_said.insert(entry.id, given);
        self.stand(given, entry, true);
    }

    /// Takes a correction of a role entry, or of a correction of one. Others are not for here.
    fn correct(&mut self, entry: &Entry, of: EntryId, instead: Option<&'a Body>) {
        let root = self.speaks_of.get(&of).copied().unwrap_or(of);
        let Some(first) = self.first_said.get(&root).copied() else {
            return;
        };
        if !may(self.held(entry.by, entry.ordered_at), Deed::ManagePeople) {
            return;
        }
        let before = self.says(root).unwrap_or(first);
        let in_force = self.corrections.entry(root).or_default();
        if of == root {
            let instead = match instead {
                Some(Body::RoleGiven(given)) => Some(given),
                _ => None,
            };
            in_force.push((entry.id, instead));
            self.speaks_of.insert(entry.id, root);
        } else {
            correct_correction(in_force, of, root, instead);
        }
        let now = in_force.last().map_or(Some(first), |(_, says)| *says);
        if let Some(given) = self.given.iter_mut().find(|(id, _)| *id == root) {
            given.1 = now;
        }
        self.stand(before, entry, false);
        if let Some(now) = now {
            self.stand(now, entry, false);
        }
    }

    fn says(&self, root: EntryId) -> Option<&'a RoleGiven> {
        self.given
            .iter()
            .find(|(id, _)| *id == root)
            .and_then(|(_, says)| *says)
    }

    /// Brings the roles of the person named up to what now stands, from the time of this entry on. A role that stands as
    /// before is written again only where somebody really gave it again.
    fn stand(&mut self, about: &RoleGiven, entry: &Entry, given_again: bool) {
        let said = || {
            self.given
                .iter()
                .rev()
                .filter_map(|(_, says)| *says)
                .filter(|says| says.person == about.person)
        };
        let whole = said()
            .find(|says| says.machines.is_empty())
            .and_then(|says| says.role);
        let on = |machine: &MachineId| {
            said()
                .find(|says| says.machines.contains(machine))
                .and_then(|says| says.role)
        };
        let here: Vec<_> = about
            .machines
            .iter()
            .map(|machine| (machine.clone(), on(machine)))
            .collect();
        let person = self.people.entry(about.person).or_default();
        let write = |roles: &mut Vec<(Timestamp, Option<Role>, EntryId)>, role: Option<Role>| {
            if given_again || roles.last().is_none_or(|(_, last, _)| *last != role) {
                roles.push((entry.ordered_at, role, entry.id));
            }
        };
        if about.machines.is_empty() {
            write(&mut person.roles, whole);
        }
        for (machine, role) in here {
            write(person.on_machines.entry(machine).or_default(), role);
        }
    }
}

/// A correction of the correction `of`: voids it, or gives it other words about the same role entry.
fn correct_correction<'a>(
    in_force: &mut Vec<(EntryId, Option<&'a RoleGiven>)>,
    of: EntryId,
    root: EntryId,
    instead: Option<&'a Body>,
) {
    match instead {
        Some(Body::Correction(other)) if other.of == root => {
            let says = match other.instead.as_deref() {
                Some(Body::RoleGiven(given)) => Some(given),
                _ => None,
            };
            in_force
                .iter_mut()
                .filter(|(id, _)| *id == of)
                .for_each(|correction| correction.1 = says);
        }
        _ => in_force.retain(|(id, _)| *id != of),
    }
}
