//! What deciding about an entry needs of the journal: who holds which role, and when the yard began. Kept as the journal grows.
//!
//! No machine is folded for it, and of all entries only those that give roles, or correct such entries, are read.

use crate::refusal::Refusal;
use jiff::Timestamp;
use std::collections::BTreeSet;
use store::{Row, Yard};
use yard::{
    entry::{Body, Entry},
    id::{EntryId, PersonId},
    people::Role,
    state::{YardState, fold_yard},
};

/// Rows looked through at once.
const AT_ONCE: usize = 500;

/// Roles as of one entry of the journal.
#[derive(Clone, Default)]
pub(crate) struct Gate {
    /// The last entry looked at.
    seq: u64,
    /// Entries that give roles, and what may correct them.
    telling: Vec<Entry>,
    told_of: BTreeSet<EntryId>,
    roles: YardState,
    /// Whether `roles` lags behind `telling`.
    lags: bool,
    /// The time of the yard's first entry.
    began: Option<Timestamp>,
}

impl Gate {
    /// Whether nothing was accepted since.
    pub(crate) fn is_as_of(&self, seq: u64) -> bool {
        self.seq == seq
    }

    /// Looks at what was accepted since.
    pub(crate) fn catch_up(&mut self, yard: &Yard) -> Result<(), Refusal> {
        loop {
            let rows = yard.rows_since(self.seq, AT_ONCE)?;
            let Some(last) = rows.last() else { break };
            let seq = last.envelope.seq;
            for row in &rows {
                self.look_at(yard, row)?;
            }
            self.seq = seq;
        }
        if self.lags {
            self.roles = fold_yard(&self.telling);
            self.lags = false;
        }
        Ok(())
    }

    fn look_at(&mut self, yard: &Yard, row: &Row) -> Result<(), Refusal> {
        if row.envelope.seq == 1 {
            self.began = Some(row.envelope.ordered_at);
        }
        let tells = match row.kind.as_str() {
            "role-given" => true,
            "correction" => self.may_correct_a_role(yard, row)?,
            _ => false,
        };
        if tells {
            self.told_of.insert(row.id);
            self.telling.push(store::form::read_entry(row)?);
            self.lags = true;
        }
        Ok(())
    }

    /// A correction may come before what it corrects: only what is known to be about something else is passed over.
    fn may_correct_a_role(&self, yard: &Yard, row: &Row) -> Result<bool, Refusal> {
        let entry = store::form::read_entry(row)?;
        let Body::Correction(correction) = &entry.body else {
            return Ok(false);
        };
        let of = correction.of;
        let known = || Ok::<_, Refusal>(yard.row(of)?.is_some_and(|of| of.kind != "role-given"));
        Ok(self.told_of.contains(&of) || of == row.id || !known()?)
    }

    /// The role somebody holds in the yard at a time.
    pub(crate) fn role(&self, person: PersonId, when: Timestamp) -> Role {
        self.roles.role_at(person, when)
    }

    /// Whether somebody was given a role that holds at a time. Who was given none looks on, as anybody may.
    pub(crate) fn holds_role(&self, person: PersonId, when: Timestamp) -> bool {
        let given = self.roles.people.get(&person).map(|person| &person.roles);
        let in_force = given.and_then(|roles| roles.iter().rfind(|(since, ..)| *since <= when));
        in_force.is_some_and(|(_, role, _)| role.is_some())
    }

    /// When the yard began, by the journal.
    pub(crate) fn began(&self) -> Option<Timestamp> {
        self.began
    }
}
