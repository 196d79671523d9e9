//! How an entry gets into the demo's journal: at its own time, on somebody's device, with ids drawn from the seed.

use super::{Script, fleet::Member};
use jiff::{SignedDuration, Timestamp, civil::Date, tz::TimeZone};
use quantity::{Habits, Quantity};
use rand_chacha::{
    ChaCha8Rng,
    rand_core::{RngCore, SeedableRng},
};
use std::{
    collections::BTreeMap,
    sync::{Mutex, PoisonError},
};
use store::{Delivery, NewEntry, Store, StoreError, Yard, fresh_id, write_entry};
use uuid::Uuid;
use yard::{
    book::{self, Book},
    entry::{Body, BookAdopted, Entry},
    handover::{Judgement, Situation, YardHabits, judge},
    id::{DeviceId, EntryId, MachineId, PersonId, YardId},
    state::{MachineState, YardState, fold_machine, fold_machine_reading, fold_yard},
    world::World,
};

/// A world whose clock is set by hand and whose chance comes from a seed.
struct DrawnWorld {
    now: Mutex<Timestamp>,
    zone: TimeZone,
    drawn: Mutex<ChaCha8Rng>,
}

impl DrawnWorld {
    fn new(script: &Script, stream: u64) -> Self {
        let begun = script
            .last
            .to_zoned_datetime(script.zone.clone())
            .map_or(Timestamp::UNIX_EPOCH, |day| day.timestamp());
        let mut drawn = ChaCha8Rng::seed_from_u64(script.seed);
        drawn.set_stream(stream);
        Self {
            now: Mutex::new(begun),
            zone: script.zone.clone(),
            drawn: Mutex::new(drawn),
        }
    }
}

impl World for DrawnWorld {
    fn now(&self) -> Timestamp {
        *self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
    fn zone(&self) -> TimeZone {
        self.zone.clone()
    }
    fn chance(&self) -> [u8; 16] {
        let mut bytes = [0; 16];
        self.drawn
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .fill_bytes(&mut bytes);
        bytes
    }
}

/// Writes the story of one machine, or of the yard, and folds it when asked. Nothing is in the journal before
/// [`into_journal`].
pub(crate) struct Pen {
    yard: Yard,
    machine: Option<MachineId>,
    world: DrawnWorld,
    written: Vec<NewEntry>,
    entries: Vec<Entry>,
    state: YardState,
    habits: YardHabits,
    books: Vec<(String, Book)>,
    /// What may hang on the machine, as it is now.
    others: BTreeMap<MachineId, MachineState>,
    /// What the meter shows, tenths of an hour; none where there is none, or where it stands still.
    pub(crate) tenths: Option<u32>,
    /// The book's revision, once it is adopted.
    pub(crate) revision: Option<EntryId>,
}

impl Pen {
    /// A pen over a new yard in the store, for what is of no machine.
    pub(crate) fn new(store: &Store, script: &Script) -> Result<Self, StoreError> {
        let world = DrawnWorld::new(script, 0);
        let yard = store.add_yard(YardId(fresh_id(&world)), super::NAME)?;
        Ok(Self {
            yard,
            machine: None,
            world,
            written: Vec::new(),
            entries: Vec::new(),
            state: YardState::default(),
            habits: YardHabits::default(),
            books: Vec::new(),
            others: BTreeMap::new(),
            tenths: None,
            revision: None,
        })
    }

    /// A pen for the story of one machine of the same yard; `stream` sets its chance apart from the others'.
    pub(crate) fn of_machine(&self, script: &Script, member: &Member, stream: u64) -> Self {
        Self {
            yard: self.yard.clone(),
            machine: MachineId::new(member.id),
            world: DrawnWorld::new(script, stream),
            written: Vec::new(),
            entries: self.entries.clone(),
            state: self.state.clone(),
            habits: YardHabits::default(),
            books: Vec::new(),
            others: BTreeMap::new(),
            tenths: member.tenths,
            revision: None,
        }
    }

    /// The yard written to.
    pub(crate) fn yard(&self) -> Yard {
        self.yard.clone()
    }

    /// The world of the moment.
    pub(crate) fn world(&self) -> &dyn World {
        &self.world
    }

    /// The machine's book, as it was last adopted.
    pub(crate) fn book(&self) -> &Book {
        let (_, book) = self.books.last().expect("a book is adopted first");
        book
    }

    /// Adopts a book for the machine.
    pub(crate) fn adopt(
        &mut self,
        by: PersonId,
        text: String,
        why: &str,
    ) -> Result<(), StoreError> {
        let book = book::read(&text, &Habits::default())
            .book
            .expect("the demo's own books read; a test says so");
        self.books.push((text.clone(), book));
        let why = Some(why.to_owned());
        let adopted = self.write(by, Body::BookAdopted(BookAdopted { text, why }))?;
        self.revision = Some(adopted);
        Ok(())
    }

    /// What the meter shows now, as one writes it down.
    pub(crate) fn shows(&self) -> Option<Quantity> {
        self.tenths.map(hours)
    }

    /// Sets the clock to a time of a day in the yard.
    pub(crate) fn set(&mut self, date: Date, hour: i8, minute: i8) {
        let at = date
            .at(hour, minute, 0, 0)
            .to_zoned_datetime(self.world.zone.clone());
        *self.now() = at.map_or(Timestamp::UNIX_EPOCH, |at| at.timestamp());
    }

    /// Lets time pass.
    pub(crate) fn pass(&mut self, seconds: i64) {
        let mut now = self.now();
        *now += SignedDuration::from_secs(seconds);
    }

    fn now(&self) -> std::sync::MutexGuard<'_, Timestamp> {
        self.world
            .now
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// A fresh id.
    pub(crate) fn fresh(&mut self) -> Uuid {
        fresh_id(&self.world)
    }

    /// A number under `below`, drawn.
    pub(crate) fn draw(&mut self, below: u32) -> u32 {
        self.world
            .drawn
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .next_u32()
            % below.max(1)
    }

    /// Writes an entry of the machine, on the writer's own phone; a moment passes.
    pub(crate) fn write(&mut self, by: PersonId, body: Body) -> Result<EntryId, StoreError> {
        let phone = by.to_string();
        self.write_on(
            &format!("phone {}", &phone[phone.len() - 4..]),
            by,
            true,
            body,
        )
    }

    /// Writes an entry of what hangs on the machine, or will.
    pub(crate) fn write_of(
        &mut self,
        other: &MachineId,
        by: PersonId,
        body: Body,
    ) -> Result<EntryId, StoreError> {
        let own = self.machine.replace(other.clone());
        let written = self.write(by, body);
        self.machine = own;
        self.look_at(other);
        written
    }

    /// Another machine as the journal has it now.
    pub(crate) fn of_other(&self, other: &MachineId) -> MachineState {
        fold_machine(other, &self.entries, &self.state, &Habits::default())
    }

    /// Sees how something that may hang on the machine is now.
    pub(crate) fn look_at(&mut self, other: &MachineId) {
        let state = self.of_other(other);
        self.others.insert(other.clone(), state);
    }

    /// What was written of another machine in this story.
    pub(crate) fn told_of(&self, other: &MachineId) -> Vec<Entry> {
        let of = |entry: &&Entry| entry.machine.as_ref() == Some(other);
        self.entries.iter().filter(of).cloned().collect()
    }

    /// Knows what an earlier story told of something that both machines share.
    pub(crate) fn has_heard(&mut self, told: &[Entry]) {
        self.entries.extend_from_slice(told);
    }

    /// Writes an entry of the yard, at its computer.
    pub(crate) fn write_of_yard(
        &mut self,
        by: PersonId,
        body: Body,
    ) -> Result<EntryId, StoreError> {
        let id = self.write_on("yard computer", by, false, body)?;
        self.state = fold_yard(&self.entries);
        Ok(id)
    }

    /// Writes an entry on a device.
    pub(crate) fn write_on(
        &mut self,
        device: &str,
        by: PersonId,
        of_machine: bool,
        body: Body,
    ) -> Result<EntryId, StoreError> {
        let entry = NewEntry {
            id: EntryId(fresh_id(&self.world)),
            yard: self.yard.id(),
            machine: self.machine.clone().filter(|_| of_machine),
            at: self.world.now(),
            by,
            device: DeviceId(device.to_owned()),
            // Counted when all stories are put together.
            counter: 0,
            body,
        };
        let id = entry.id;
        self.entries.push(self.as_accepted(entry.clone()));
        self.written.push(entry);
        self.pass(20);
        Ok(id)
    }

    /// The entry as reading it back gives it.
    fn as_accepted(&self, entry: NewEntry) -> Entry {
        let NewEntry {
            id,
            machine,
            at,
            by,
            device,
            counter,
            body,
            ..
        } = entry;
        let seq = self.entries.len() as u64 + 1;
        Entry {
            id,
            seq,
            machine,
            at,
            ordered_at: at,
            written: at,
            clock_corrected: false,
            by,
            device,
            counter,
            body,
        }
    }

    /// The machine as the journal has it now.
    pub(crate) fn machine(&self) -> MachineState {
        let machine = self.machine.as_ref().expect("a story of a machine");
        fold_machine_reading(machine, &self.entries, &self.state, &|text| {
            let known = self.books.iter().find(|(known, _)| known == text);
            known.map(|(_, book)| book.clone()).ok_or(1)
        })
    }

    /// The machine as it would be with one more entry.
    pub(crate) fn machine_with(&mut self, by: PersonId, body: Body) -> MachineState {
        let entry = NewEntry {
            id: EntryId(Uuid::max()),
            yard: self.yard.id(),
            machine: self.machine.clone(),
            at: self.world.now(),
            by,
            device: DeviceId(String::new()),
            counter: 0,
            body,
        };
        let read = self.as_accepted(entry);
        self.entries.push(read);
        let state = self.machine();
        self.entries.pop();
        state
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
            now: self.world.now(),
            zone: &self.world.zone,
            habits: &self.habits,
            others: &self.others,
        }
    }

    /// The verdict for somebody now.
    pub(crate) fn judge(&self, machine: &MachineState, person: PersonId) -> Judgement {
        judge(&self.situation(machine, person))
    }
}

/// Puts the stories together in the order of time and writes them down.
pub(crate) fn into_journal(pens: Vec<Pen>) -> Result<(), StoreError> {
    let mut yard = None;
    let mut all: Vec<NewEntry> = Vec::new();
    for pen in pens {
        all.extend(pen.written);
        yard = Some(pen.yard);
    }
    // Stories that write in the same second keep their order.
    all.sort_by_key(|entry| entry.at);
    let mut counters: BTreeMap<DeviceId, u64> = BTreeMap::new();
    let Some(yard) = yard else { return Ok(()) };
    for mut entry in all {
        let counter = counters.entry(entry.device.clone()).or_default();
        *counter += 1;
        entry.counter = *counter;
        yard.accept(&write_entry(&entry), Delivery::here(entry.at))?;
    }
    Ok(())
}

/// A quantity as the demo's people write it.
pub(crate) fn written(text: &str) -> Quantity {
    quantity::parse(text, &Habits::default(), None)
        .expect("the demo's people write plain quantities")
}

/// A reading of the hour meter, from tenths.
pub(crate) fn hours(tenths: u32) -> Quantity {
    written(&format!("{}.{} h", tenths / 10, tenths % 10))
}
