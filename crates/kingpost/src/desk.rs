//! The yard as a command sees it: the journal read once, states folded, names at hand; and the way an entry gets in.

use crate::{Exit, kit::Kit, trouble::Trouble};
use jiff::{Timestamp, tz::TimeZone};
use std::{cell::OnceCell, collections::BTreeMap};
use store::{Acceptance, Delivery, NewEntry, Person, Store, fresh_id, write_entry};
use words::BookNames;
use yard::{
    book::Book,
    entry::{Body, Entry},
    handover::{OtherMachines, Situation, YardHabits},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::{Deed, Role, may},
    state::{MachineState, YardState, fold_machine, fold_yard},
};

/// A yard, opened for one command.
pub(crate) struct Desk<'k> {
    /// At hand.
    pub(crate) kit: &'k Kit,
    /// The yard in the store.
    pub(crate) yard: store::Yard,
    /// Entries, in order of acceptance.
    pub(crate) entries: Vec<Entry>,
    /// The yard, folded.
    pub(crate) state: YardState,
    /// Everybody.
    pub(crate) people: Vec<Person>,
    /// Names of people.
    pub(crate) names: BTreeMap<PersonId, String>,
    /// The yard's habits.
    pub(crate) habits: YardHabits,
    /// Now.
    pub(crate) now: Timestamp,
    /// The yard's time zone.
    pub(crate) zone: TimeZone,
    /// Every machine, folded when one is first asked for beside another.
    others: OnceCell<BTreeMap<MachineId, MachineState>>,
}

impl OtherMachines for Desk<'_> {
    fn machine(&self, id: &MachineId) -> Option<&MachineState> {
        let fold = || {
            let all = self.state.machines.iter();
            let folded = all.map(|id| {
                let state = fold_machine(id, &self.entries, &self.state, &self.reading());
                (id.clone(), state)
            });
            folded.collect()
        };
        self.others.get_or_init(fold).get(id)
    }
}

/// A machine of the yard with its book.
pub(crate) struct Machine {
    /// Its id.
    pub(crate) id: MachineId,
    /// Its state.
    pub(crate) state: MachineState,
}

impl Machine {
    /// The book in force.
    pub(crate) fn book(&self, kit: &Kit) -> Result<&Book, Trouble> {
        let adopted = self.state.book().map(|adopted| adopted.book.as_ref());
        adopted.ok_or_else(|| {
            kit.mistake("machine-without-book", &[("name", self.id.as_str().into())])
        })
    }
}

impl<'k> Desk<'k> {
    /// Opens the yard to look at, also while a server has it.
    pub(crate) fn look(kit: &'k Kit) -> Result<Self, Trouble> {
        Self::of(kit, Store::open_to_look(&kit.data)?.yard()?)
    }

    /// Opens the yard to write; no other program may have it.
    pub(crate) fn write(kit: &'k Kit) -> Result<Self, Trouble> {
        if !store::holds_store(&kit.data) {
            let dir = kit.data.display().to_string();
            return Err(store::StoreError::NothingThere { dir }.into());
        }
        Self::of(kit, Store::open(&kit.data)?.yard()?)
    }

    /// The desk over a yard already open.
    pub(crate) fn of(kit: &'k Kit, yard: store::Yard) -> Result<Self, Trouble> {
        let entries = yard.entries()?;
        let people = yard.people()?;
        let names = people
            .iter()
            .filter_map(|person| Some((person.id, person.name.clone()?)))
            .collect();
        Ok(Self {
            kit,
            state: fold_yard(&entries),
            habits: yard.habits()?,
            now: kit.world.now(),
            zone: kit.world.zone(),
            yard,
            entries,
            people,
            names,
            others: OnceCell::new(),
        })
    }

    /// How numbers are read here.
    pub(crate) fn reading(&self) -> quantity::Habits {
        quantity::Habits {
            decimal_comma: self.habits.decimal_comma,
        }
    }

    /// A machine by its id.
    pub(crate) fn machine(&self, id: &str) -> Result<Machine, Trouble> {
        let known = self
            .state
            .machines
            .iter()
            .find(|machine| machine.as_str() == id);
        let Some(id) = known else {
            let here: Vec<&str> = self.state.machines.iter().map(MachineId::as_str).collect();
            return Err(self.kit.refused(
                "no-such-machine",
                &[("name", id.into()), ("reasons", self.listed(&here).into())],
            ));
        };
        let state = fold_machine(id, &self.entries, &self.state, &self.reading());
        Ok(Machine {
            id: id.clone(),
            state,
        })
    }

    /// A person by name, capitals or not, or by id.
    pub(crate) fn person(&self, name: &str) -> Result<PersonId, Trouble> {
        let same = |known: &&Person| {
            known.id.to_string() == name
                || known
                    .name
                    .as_ref()
                    .is_some_and(|own| own.to_lowercase() == name.to_lowercase())
        };
        self.people
            .iter()
            .find(same)
            .map(|person| person.id)
            .ok_or_else(|| {
                let here: Vec<&str> = self.names.values().map(String::as_str).collect();
                self.kit.refused(
                    "no-such-person",
                    &[
                        ("name", name.into()),
                        ("reasons", self.listed(&here).into()),
                    ],
                )
            })
    }

    fn listed(&self, names: &[&str]) -> String {
        if names.is_empty() {
            self.kit.t("nobody-and-nothing")
        } else {
            self.kit.words.list(names)
        }
    }

    /// What a verdict or a round is worked out from.
    pub(crate) fn situation<'a>(
        &'a self,
        machine: &'a MachineState,
        person: PersonId,
    ) -> Situation<'a> {
        Situation {
            machine,
            yard: &self.state,
            person,
            now: self.now,
            zone: &self.zone,
            habits: &self.habits,
            others: self,
        }
    }

    /// Names of people, and of things in a machine's book.
    pub(crate) fn names<'a>(&'a self, machine: Option<&'a MachineState>) -> BookNames<'a> {
        BookNames {
            book: machine
                .and_then(|state| state.book())
                .map(|adopted| adopted.book.as_ref()),
            people: &self.names,
            now: self.now,
            zone: &self.zone,
        }
    }

    /// A moment as one would say it.
    pub(crate) fn moment(&self, at: Timestamp) -> String {
        self.kit.words.moment(at, self.now, &self.zone)
    }

    /// Refuses where this person may not.
    pub(crate) fn may(
        &self,
        person: PersonId,
        machine: Option<&MachineId>,
        deed: Deed,
    ) -> Result<(), Trouble> {
        let role: Role = match machine {
            Some(machine) => self.state.role_on(person, machine, self.now),
            None => self.state.role_at(person, self.now),
        };
        if may(role, deed) {
            Ok(())
        } else {
            Err(self
                .kit
                .told("may-not", self.kit.words.may_not(role, deed), Exit::Refused))
        }
    }

    /// Writes an entry here and now. Whether its writer may, was asked before.
    pub(crate) fn keep(
        &self,
        machine: Option<&MachineId>,
        by: PersonId,
        body: Body,
    ) -> Result<EntryId, Trouble> {
        let id = EntryId(fresh_id(self.kit.world.as_ref()));
        let entry = NewEntry {
            id,
            yard: self.yard.id(),
            machine: machine.cloned(),
            at: self.now,
            by,
            device: DeviceId("command line".into()),
            counter: self.yard.tip()?.seq + 1,
            body,
        };
        match self
            .yard
            .accept(&write_entry(&entry), Delivery::here(self.now))?
        {
            Acceptance::New { .. } | Acceptance::Known { .. } => Ok(id),
            Acceptance::Conflict { .. } => {
                Err(Trouble::Ours("a fresh id met other bytes".to_owned()))
            }
        }
    }
}

/// The short tag of a yard in addresses: the last ten hex digits of its id, as on walls and papers.
pub(crate) fn tag(yard: &store::Yard) -> String {
    let id = yard.id().0.simple().to_string();
    id[id.len() - 10..].to_owned()
}
