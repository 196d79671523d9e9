//! Entries that a device wrote: each is judged by itself, and all that may come in are on the disk together.

use super::rules::{claims_sight, deeds_of, is_peoples, is_start, spoken_of};
use crate::{app::App, gate::Gate, refusal::Refusal};
use jiff::Timestamp;
use std::collections::{BTreeMap, BTreeSet};
use store::{Acceptance, Delivery, Envelope, Row, StoreError};
use yard::{
    entry::{Access, AccessWhat, Body, Entry},
    id::{EntryId, PersonId},
    people::{Deed, Role, may},
};

/// Who delivers, when, and what their device's clock shows.
pub(crate) struct Deliverer<'a> {
    /// The server.
    pub(crate) app: &'a App,
    /// Roles as the journal has them.
    pub(crate) gate: &'a Gate,
    /// Who is signed in.
    pub(crate) person: PersonId,
    /// Now, by the server.
    pub(crate) now: Timestamp,
    /// Now, by the device, where it said so in words that read.
    pub(crate) clock: Option<Timestamp>,
}

/// What became of one entry of a delivery.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Became {
    /// It is on the disk, as of now.
    New,
    /// It was on the disk already.
    Known,
    /// Another entry has its id. Both are kept, and people are asked.
    Conflict,
    /// For good: it will never be taken.
    Refused(Why),
    /// Written by somebody else: that person can deliver it.
    NotYours,
}

/// Why an entry is refused for good.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Why {
    /// No entry of this yard.
    Store(store::Refusal),
    /// Not a deed of whoever wrote or delivers it.
    MayNot(Deed),
    /// It says that somebody stood in sight, or is a learner's start, which needs that.
    WordInSight,
    /// Only the program writes such entries.
    ProgramOnly,
    /// It corrects an entry of another machine.
    OtherMachine,
}

/// One entry of a delivery, judged.
pub(super) enum Judged {
    Take(Box<Entry>),
    Not(Became),
}

impl Deliverer<'_> {
    /// Takes a delivery: what became of each entry, in their order. When this returns, what is new is on the disk.
    pub(crate) fn deliver(&self, entries: &[Vec<u8>]) -> Result<Vec<Became>, Refusal> {
        let mut before = BTreeMap::new();
        let mut judged = Vec::with_capacity(entries.len());
        for bytes in entries {
            let one = self.judge(bytes, &before)?;
            if let Judged::Take(entry) = &one {
                before.entry(entry.id).or_insert_with(|| (**entry).clone());
            }
            judged.push(one);
        }
        self.take(entries, judged)
    }

    fn judge(&self, bytes: &[u8], before: &BTreeMap<EntryId, Entry>) -> Result<Judged, Refusal> {
        let entry = match self.read(bytes) {
            Ok(entry) => entry,
            Err(refusal) => return Ok(Judged::Not(Became::Refused(Why::Store(refusal)))),
        };
        let found = self.targets(&entry, before)?;
        let not = match self.may_come_in(&entry, &found) {
            Ok(()) => return Ok(Judged::Take(Box::new(entry))),
            Err(not) => not,
        };
        // Taken when it was entitled, its answer lost on the way: the device may let go of it.
        let kept = self.app.yard.row(entry.id)?;
        let known = kept.is_some_and(|kept| kept.bytes == bytes);
        Ok(Judged::Not(if known { Became::Known } else { not }))
    }

    fn read(&self, bytes: &[u8]) -> Result<Entry, store::Refusal> {
        let head = store::form::read_head(bytes, self.app.yard.id())?;
        let envelope = Envelope {
            seq: 0,
            written: self.now,
            ordered_at: self.now,
            corrected: false,
            hash: [0; 32],
        };
        let row = Row {
            id: head.id,
            machine: head.machine,
            kind: head.kind,
            bytes: bytes.to_vec(),
            envelope,
        };
        store::form::read_entry(&row).map_err(|_| store::Refusal::IllFormed { field: "body" })
    }

    /// What the entry's corrections speak of: in the journal, or earlier in this delivery.
    fn targets(
        &self,
        entry: &Entry,
        before: &BTreeMap<EntryId, Entry>,
    ) -> Result<BTreeMap<EntryId, Entry>, Refusal> {
        let mut found = BTreeMap::new();
        for id in spoken_of(&entry.body) {
            let kept = self.app.yard.entry(id)?;
            if let Some(target) = kept.or_else(|| before.get(&id).cloned()) {
                found.insert(id, target);
            }
        }
        Ok(found)
    }

    fn may_come_in(&self, entry: &Entry, found: &BTreeMap<EntryId, Entry>) -> Result<(), Became> {
        let role = self.gate.role(self.person, self.now);
        if entry.by != self.person && !may(role, Deed::TakeInPaper) {
            return Err(Became::NotYours);
        }
        let refused = |why| Err(Became::Refused(why));
        if claims_sight(&entry.body) {
            return refused(Why::WordInSight);
        }
        if entry.by == PersonId::PROGRAM || !is_peoples(&entry.body, found) {
            return refused(Why::ProgramOnly);
        }
        let mut deeds = deeds_of(&entry.body, entry.by, found);
        if let (Body::Correction(correction), Some(own)) = (&entry.body, deeds.first_mut())
            && !found.contains_key(&correction.of)
        {
            // Its target may still be on another phone: whether it is the writer's own the fold asks, once both are there.
            *own = Deed::CorrectOwn;
        }
        // Whoever takes in for others brings in no more than they might write themselves.
        let now = self.gate.role(entry.by, self.now);
        let writer = now.max(self.gate.role(entry.by, entry.at));
        for deed in deeds {
            // What sets a machine free, or settles something, is for those who may today: the time on an entry is its writer's.
            let of_today = !may(Role::Operator, deed);
            let written = may(if of_today { now } else { writer }, deed);
            if !may(role, deed) || (entry.by != self.person && !written) {
                return refused(Why::MayNot(deed));
            }
        }
        if writer == Role::Learner && is_start(&entry.body) {
            return refused(Why::WordInSight);
        }
        match &entry.body {
            Body::Correction(correction) => match found.get(&correction.of) {
                Some(target) if target.machine != entry.machine => refused(Why::OtherMachine),
                _ => Ok(()),
            },
            _ => Ok(()),
        }
    }

    /// Keeps what may come in, in one step, with a note for each person whose entries somebody else brought.
    fn take(&self, entries: &[Vec<u8>], judged: Vec<Judged>) -> Result<Vec<Became>, Refusal> {
        let notes = self.taken_in(&judged)?;
        let heard = self.heard_aside(entries, &judged)?;
        let mut offers: Vec<(&[u8], Delivery)> = notes
            .iter()
            .chain(&heard)
            .map(|note| (note.as_slice(), Delivery::here(self.now)))
            .collect();
        for (bytes, one) in entries.iter().zip(&judged) {
            if let Judged::Take(entry) = one {
                offers.push((bytes, self.delivery(entry.at)));
            }
        }
        let taken = if offers.is_empty() {
            Vec::new()
        } else {
            self.app.yard.accept_each(&offers)?
        };
        let mut taken = taken.into_iter().skip(notes.len() + heard.len());
        let became = judged.into_iter().map(|one| match one {
            Judged::Not(became) => Ok(became),
            Judged::Take(_) => match taken.next() {
                Some(Ok(Acceptance::New { .. })) => Ok(Became::New),
                Some(Ok(Acceptance::Known { .. })) => Ok(Became::Known),
                Some(Ok(Acceptance::Conflict { .. })) => Ok(Became::Conflict),
                Some(Err(refusal)) => Ok(Became::Refused(Why::Store(refusal))),
                None => Err(Refusal::Ours("nothing said of an entry offered".to_owned())),
            },
        });
        became.collect()
    }

    /// Notes that entries of others are taken in: one for each writer of whom there is something new.
    fn taken_in(&self, judged: &[Judged]) -> Result<Vec<Vec<u8>>, StoreError> {
        let mut writers = BTreeSet::new();
        for one in judged {
            if let Judged::Take(entry) = one
                && entry.by != self.person
                && !writers.contains(&entry.by)
                && self.app.yard.row(entry.id)?.is_none()
            {
                writers.insert(entry.by);
            }
        }
        let counter = self.app.yard.tip()?.seq + 1;
        let note = |(n, of): (u64, PersonId)| {
            let access = Access {
                what: AccessWhat::TakenIn,
                of: Some(of),
                note: None,
            };
            let (yard, world) = (&self.app.yard, self.app.world.as_ref());
            super::note(yard, world, self.person, counter + n, access)
        };
        Ok((0u64..).zip(writers).map(note).collect())
    }

    /// How an entry comes in. A time that, put right by the clocks, lies before the yard began is no time: such an entry is
    /// ordered by its arrival.
    fn delivery(&self, at: Timestamp) -> Delivery {
        let told = Delivery {
            written: self.now,
            writers_clock_now: self.clock,
        };
        let shift = self.clock.map_or(0, |clock| {
            self.now.as_millisecond() - clock.as_millisecond()
        });
        let began = self.gate.began().unwrap_or(self.now).min(self.now);
        if at.as_millisecond().saturating_add(shift) < began.as_millisecond() {
            Delivery {
                writers_clock_now: Some(at),
                ..told
            }
        } else {
            told
        }
    }
}
