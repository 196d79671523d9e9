//! The running server's state: the store, the words, the world, and folds kept until the journal grows.

use crate::{gate::Gate, https::Https, page::Page, refusal::Refusal};
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::{Arc, Mutex, OnceLock, PoisonError, RwLock},
};
use store::{Changes, Yard};
use words::Words;
use yard::{
    entry::{Body, Entry},
    handover::YardHabits,
    id::{EntryId, MachineId, PersonId},
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
    /// Small pictures of lists.
    pub(crate) small_photos: crate::photo::Small,
    /// Arms that somebody looked at.
    pub(crate) arms: crate::arms::Arms,
    /// How the yard is served over HTTPS, where it is.
    pub(crate) https: RwLock<Option<Arc<Https>>>,
    view: Mutex<Option<Arc<View>>>,
    gate: Mutex<Arc<Gate>>,
}

/// The journal folded, as of one entry.
pub(crate) struct View {
    /// Entries, in order of acceptance.
    pub(crate) entries: Arc<Vec<Entry>>,
    /// The yard.
    pub(crate) yard: Arc<YardState>,
    /// Machines.
    pub(crate) machines: Machines,
    /// Whether this is an invented yard: everybody in it is.
    pub(crate) invented: bool,
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
}

/// The machines' states, each folded when somebody first asks for it.
pub(crate) struct Machines {
    states: BTreeMap<MachineId, OnceLock<MachineState>>,
    entries: Arc<Vec<Entry>>,
    yard: Arc<YardState>,
    reading: quantity::Habits,
}

impl Machines {
    /// A machine's state; none where the journal knows no such machine.
    pub(crate) fn get(&self, id: &MachineId) -> Option<&MachineState> {
        let (id, state) = self.states.get_key_value(id)?;
        Some(self.folded(id, state))
    }

    /// All machines, by id.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&MachineId, &MachineState)> {
        self.states
            .iter()
            .map(|(id, state)| (id, self.folded(id, state)))
    }

    /// All states, by the machines' ids.
    pub(crate) fn values(&self) -> impl Iterator<Item = &MachineState> {
        self.iter().map(|(_, state)| state)
    }

    fn folded<'a>(&'a self, id: &MachineId, state: &'a OnceLock<MachineState>) -> &'a MachineState {
        state.get_or_init(|| fold_machine(id, &self.entries, &self.yard, &self.reading))
    }
}

impl yard::handover::OtherMachines for Machines {
    fn machine(&self, id: &MachineId) -> Option<&MachineState> {
        self.get(id)
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
            small_photos: crate::photo::Small::default(),
            arms: crate::arms::Arms::default(),
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
        let before = old.as_ref().map(|old| old.yard.clone());
        let (mut entries, mut states) = match old {
            // Usually nobody else holds the old view any more, and nothing is copied.
            Some(old) => match Arc::try_unwrap(old) {
                Ok(old) => (old.entries, old.machines.states),
                Err(old) => (old.entries.clone(), old.machines.states.clone()),
            },
            None => (Arc::default(), BTreeMap::new()),
        };
        let since = entries.last().map_or(0, |e| e.seq);
        let new = self.yard.entries_since(since)?;
        let first_new = entries.len();
        if !new.is_empty() {
            Arc::make_mut(&mut entries).extend(new);
        }
        let yard = Arc::new(fold_yard(&entries));
        // Roles decide who was entitled to close what, and what is put on one machine comes off another: where either changed,
        // every machine is folded again.
        let moved = || where_attachments_hang(&entries, first_new);
        if before.is_none_or(|before| !same_roles(&before, &yard)) || moved() {
            states.clear();
        }
        for id in touched(&entries, first_new) {
            states.remove(&id);
        }
        for id in &yard.machines {
            states.entry(id.clone()).or_default();
        }
        let habits = self.yard.habits()?;
        let reading = quantity::Habits {
            decimal_comma: habits.decimal_comma,
        };
        let people = self.yard.people()?;
        let invented = !people.is_empty() && people.iter().all(|person| person.invented);
        let names = people
            .into_iter()
            .filter_map(|person| Some((person.id, person.name?)))
            .collect();
        let machines = Machines {
            states,
            entries: entries.clone(),
            yard: yard.clone(),
            reading,
        };
        Ok(View {
            entries,
            yard,
            machines,
            invented,
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
            invented: view.invented,
            person_name: person.map(|p| view.name(p)).unwrap_or_default(),
            role,
            shared: false,
            https: self.https().is_some(),
            time: self.words.clock(self.world.now(), &self.world.zone()),
        }
    }
}

fn same_roles(before: &YardState, now: &YardState) -> bool {
    let roles = |yard: &YardState| -> Vec<_> {
        let people = yard.people.iter();
        let given = people.filter(|(_, p)| !p.roles.is_empty() || !p.on_machines.is_empty());
        given
            .map(|(id, p)| (*id, p.roles.clone(), p.on_machines.clone()))
            .collect()
    };
    roles(before) == roles(now)
}

/// The machines that entries from `first_new` on bear on: their own, and those of the entries they correct or rule on, wherever
/// these stand.
fn touched(entries: &[Entry], first_new: usize) -> BTreeSet<MachineId> {
    let mut machines = BTreeSet::new();
    let mut asked: BTreeSet<EntryId> = BTreeSet::new();
    for entry in &entries[first_new..] {
        machines.extend(entry.machine.clone());
        asked.extend(speaks_of(entry));
    }
    if asked.is_empty() {
        return machines;
    }
    // What a correction corrects may be a correction itself: followed to the end, each once.
    let by_id: BTreeMap<EntryId, &Entry> = entries.iter().map(|e| (e.id, e)).collect();
    let mut seen = BTreeSet::new();
    while let Some(id) = asked.pop_first() {
        let Some(entry) = by_id.get(&id).filter(|_| seen.insert(id)) else {
            continue;
        };
        machines.extend(entry.machine.clone());
        asked.extend(speaks_of(entry).into_iter().filter(|id| !seen.contains(id)));
    }
    machines
}

/// Whether entries from `first_new` on bear on where attachments hang.
fn where_attachments_hang(entries: &[Entry], first_new: usize) -> bool {
    entries[first_new..].iter().any(|entry| {
        let mut body = Some(&entry.body);
        while let Some(Body::Correction(correction)) = body {
            let of = entries.iter().find(|one| one.id == correction.of);
            // A correction of a correction is rare: it is taken as one that may bear on them.
            if of.is_some_and(|of| bears_on_attachments(&of.body) || is_correction(&of.body)) {
                return true;
            }
            body = correction.instead.as_deref();
        }
        body.is_some_and(bears_on_attachments)
    })
}

fn is_correction(body: &Body) -> bool {
    matches!(body, Body::Correction(_))
}

fn bears_on_attachments(body: &Body) -> bool {
    matches!(
        body,
        Body::Attachment(_) | Body::LeftYard(_) | Body::CameBack(_)
    )
}

fn speaks_of(entry: &Entry) -> Option<EntryId> {
    match &entry.body {
        Body::Correction(correction) => Some(correction.of),
        Body::Ruling(ruling) => Some(ruling.about),
        _ => None,
    }
}
