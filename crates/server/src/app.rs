//! The running server's state: the store, the words, the world, and folds kept until the journal grows.

use crate::{gate::Gate, https::Https, page::Page, refusal::Refusal};
use std::{
    collections::BTreeMap,
    sync::{Arc, Mutex, PoisonError, RwLock},
};
use store::{Changes, Yard};
use words::Words;
use yard::{
    entry::Entry,
    handover::YardHabits,
    id::{MachineId, PersonId},
    people::Role,
    state::{MachineState, YardState, fold_machine, fold_yard},
    world::World,
};

/// Everything a request needs.
pub struct App {
    /// The yard served.
    pub yard: Yard,
    /// Sentences.
    pub words: Arc<Words>,
    /// Clock, zone, chance.
    pub world: Arc<dyn World>,
    /// How phones reach this server, e.g. `http://192.168.1.20:4720`, for QR codes.
    pub address: String,
    /// One argon2 at a time: each takes 19 MB.
    pub hashing: tokio::sync::Semaphore,
    /// How many writing requests came from where within the minute.
    pub(crate) rates: Mutex<crate::limits::Rates>,
    /// How the yard is served over HTTPS, where it is.
    pub(crate) https: RwLock<Option<Arc<Https>>>,
    view: Mutex<Option<Arc<View>>>,
    gate: Mutex<Arc<Gate>>,
}

/// The journal folded, as of one entry.
pub(crate) struct View {
    /// Entries, in order of acceptance.
    pub(crate) entries: Vec<Entry>,
    /// The yard.
    pub(crate) yard: YardState,
    /// Machines.
    pub(crate) machines: BTreeMap<MachineId, MachineState>,
    /// Names of people.
    pub(crate) names: BTreeMap<PersonId, String>,
    /// The yard's habits.
    pub(crate) habits: YardHabits,
    /// The store's change count that this view rests on.
    changes: Changes,
}

impl View {
    /// Name of a person, or their id's end where the name was erased.
    pub(crate) fn name(&self, person: PersonId) -> String {
        let known = self.names.get(&person).cloned();
        known.unwrap_or_else(|| words::end_of(person))
    }
    /// Whether any machine here is invented.
    pub(crate) fn invented(&self) -> bool {
        self.machines
            .values()
            .any(|m| m.book().is_some_and(|b| b.book.machine.invented))
    }
}

impl App {
    /// A server's state over a yard.
    pub fn new(yard: Yard, words: Arc<Words>, world: Arc<dyn World>, address: String) -> Self {
        Self {
            yard,
            words,
            world,
            address,
            hashing: tokio::sync::Semaphore::new(1),
            rates: Mutex::default(),
            https: RwLock::new(None),
            view: Mutex::new(None),
            gate: Mutex::default(),
        }
    }

    /// The journal folded as it is now. Refolds only machines that have new entries.
    pub(crate) fn view(&self) -> Result<Arc<View>, Refusal> {
        let changes = self.yard.changes()?;
        let mut kept = self.view.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(view) = kept.as_ref().filter(|view| view.changes == changes) {
            return Ok(view.clone());
        }
        let fresh = Arc::new(self.refold(kept.take(), changes)?);
        *kept = Some(fresh.clone());
        Ok(fresh)
    }

    /// Roles as the journal has them now. Cheap: no machine is folded for it.
    pub(crate) fn gate(&self) -> Result<Arc<Gate>, Refusal> {
        let tip = self.yard.tip()?.seq;
        let mut kept = self.gate.lock().unwrap_or_else(PoisonError::into_inner);
        if !kept.is_as_of(tip) {
            Arc::make_mut(&mut kept).catch_up(&self.yard)?;
        }
        Ok(kept.clone())
    }

    /// Forgets the folded journal, as when a setting changes how books and readings are read.
    pub(crate) fn forget_view(&self) {
        *self.view.lock().unwrap_or_else(PoisonError::into_inner) = None;
    }

    fn refold(&self, old: Option<Arc<View>>, changes: Changes) -> Result<View, Refusal> {
        let (mut entries, mut machines) = match old {
            // Usually nobody else holds the old view any more, and nothing is copied.
            Some(old) => match Arc::try_unwrap(old) {
                Ok(old) => (old.entries, old.machines),
                Err(old) => (old.entries.clone(), old.machines.clone()),
            },
            None => (Vec::new(), BTreeMap::new()),
        };
        let since = entries.last().map_or(0, |e| e.seq);
        let new = self.yard.entries_since(since)?;
        let yard_changed = new.iter().any(|e| e.machine.is_none());
        let mut touched: Vec<MachineId> = new.iter().filter_map(|e| e.machine.clone()).collect();
        // A correction counts wherever it was written: the machine of what it corrects is folded again as well.
        let corrected = new.iter().filter_map(|e| match &e.body {
            yard::entry::Body::Correction(correction) => Some(correction.of),
            _ => None,
        });
        let corrected: Vec<_> = corrected.collect();
        entries.extend(new);
        let whose = entries.iter().filter(|e| corrected.contains(&e.id));
        touched.extend(whose.filter_map(|e| e.machine.clone()));
        let yard = fold_yard(&entries);
        if yard_changed {
            // Roles decide who was entitled to close what: every machine is folded again.
            touched = yard.machines.clone();
        }
        touched.sort();
        touched.dedup();
        let habits = self.yard.habits()?;
        let reading = quantity::Habits {
            decimal_comma: habits.decimal_comma,
        };
        for id in touched {
            let state = fold_machine(&id, &entries, &yard, &reading);
            machines.insert(id, state);
        }
        let names = self
            .yard
            .people()?
            .into_iter()
            .filter_map(|person| Some((person.id, person.name?)))
            .collect();
        Ok(View {
            entries,
            yard,
            machines,
            names,
            habits,
            changes,
        })
    }

    /// The short tag of the yard in addresses printed on walls: the last ten hex digits of its id. Never changes meaning.
    pub fn tag(&self) -> String {
        let id = self.yard.id().0.simple().to_string();
        id[id.len() - 10..].to_owned()
    }

    /// A page frame for somebody.
    pub(crate) fn page(&self, view: &View, person: Option<PersonId>, role: Role) -> Page {
        Page {
            words: self.words.clone(),
            tag: self.tag(),
            invented: view.invented(),
            person_name: person.map(|p| view.name(p)).unwrap_or_default(),
            role,
            shared: false,
            https: self.https().is_some(),
            time: self.words.clock(self.world.now(), &self.world.zone()),
        }
    }
}
