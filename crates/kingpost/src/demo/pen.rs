//! How an entry gets into the demo's journal: at its own time, on somebody's device, with ids drawn from the seed.

use super::{Script, marigold};
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
    entry::{Body, Entry},
    handover::{Judgement, Situation, YardHabits, judge},
    id::{DeviceId, EntryId, PersonId, YardId},
    state::{MachineState, YardState, fold_machine_reading, fold_yard},
    world::World,
};

/// A world whose clock is set by hand and whose chance comes from a seed.
struct DrawnWorld {
    now: Mutex<Timestamp>,
    zone: TimeZone,
    drawn: Mutex<ChaCha8Rng>,
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

/// Writes entries, keeps what was written, and folds it when asked.
pub(crate) struct Pen {
    yard: Yard,
    world: DrawnWorld,
    counters: BTreeMap<String, u64>,
    entries: Vec<Entry>,
    state: YardState,
    habits: YardHabits,
    book: Book,
    /// What the meter shows, tenths of an hour.
    pub(crate) tenths: u32,
    /// The book's revision, once it is adopted.
    pub(crate) revision: Option<EntryId>,
}

impl Pen {
    /// A pen over a new yard in the store.
    pub(crate) fn new(store: &Store, script: &Script) -> Result<Self, StoreError> {
        let begun = script
            .last
            .to_zoned_datetime(script.zone.clone())
            .map_or(Timestamp::UNIX_EPOCH, |day| day.timestamp());
        let world = DrawnWorld {
            now: Mutex::new(begun),
            zone: script.zone.clone(),
            drawn: Mutex::new(ChaCha8Rng::seed_from_u64(script.seed)),
        };
        let yard = store.add_yard(YardId(fresh_id(&world)), super::NAME)?;
        let book = book::read(super::BOOK, &Habits::default())
            .book
            .expect("the demo's own book reads; a test says so");
        Ok(Self {
            yard,
            world,
            counters: BTreeMap::new(),
            entries: Vec::new(),
            state: YardState::default(),
            habits: YardHabits::default(),
            book,
            tenths: super::shift::FIRST_TENTHS,
            revision: None,
        })
    }

    /// The yard written to.
    pub(crate) fn yard(&self) -> Yard {
        self.yard.clone()
    }

    /// The world of the moment.
    pub(crate) fn world(&self) -> &dyn World {
        &self.world
    }

    /// The machine's book.
    pub(crate) fn book(&self) -> &Book {
        &self.book
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
        let counter = self.counters.entry(device.to_owned()).or_default();
        *counter += 1;
        let entry = NewEntry {
            id: EntryId(fresh_id(&self.world)),
            yard: self.yard.id(),
            machine: of_machine.then(marigold),
            at: self.world.now(),
            by,
            device: DeviceId(device.to_owned()),
            counter: *counter,
            body,
        };
        self.yard
            .accept(&write_entry(&entry), Delivery::here(entry.at))?;
        let id = entry.id;
        let read = self.as_accepted(entry);
        self.entries.push(read);
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
        fold_machine_reading(&marigold(), &self.entries, &self.state, &|text| {
            if text == super::BOOK {
                Ok(self.book.clone())
            } else {
                Err(1)
            }
        })
    }

    /// The machine as it would be with one more entry.
    pub(crate) fn machine_with(&mut self, by: PersonId, body: Body) -> MachineState {
        let entry = NewEntry {
            id: EntryId(Uuid::max()),
            yard: self.yard.id(),
            machine: Some(marigold()),
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
            others: &yard::handover::NoOthers,
        }
    }

    /// The verdict for somebody now.
    pub(crate) fn judge(&self, machine: &MachineState, person: PersonId) -> Judgement {
        judge(&self.situation(machine, person))
    }
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
