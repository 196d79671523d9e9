//! All meters of a machine: each with its own line, and the one that service hours come from.

use super::{
    super::{Adopted, Asks, HourHistory, LifeHours, MachineState},
    hours::{Meter, Read},
};
use crate::{
    book::{Book, Meter as BookMeter, MeterKind},
    entry::{HoursTold, MeterBroken, MeterChange, RulingSays},
    id::ItemId,
    upkeep::{ratio_of, running_scale},
};
use jiff::Timestamp;
use quantity::Exact;
use std::{collections::BTreeMap, sync::Arc};

/// The meters as the fold follows them. Which there are, and which counts for service, is for today's book to say; a meter
/// that a book no longer names is followed all the same.
#[derive(Debug)]
pub(super) struct Meters {
    book: Option<Arc<Book>>,
    service: Option<ItemId>,
    all: BTreeMap<Option<ItemId>, Meter>,
    /// Nothing is there to be read: hours that are told count.
    told_alone: bool,
    /// No book ever named a meter, and one said that there is none: a reading is then asked about and not counted.
    never_had_one: bool,
}

impl Meters {
    /// Meters nobody has read yet.
    pub(super) fn new(books: &[Adopted]) -> Self {
        let book = books.last().map(|adopted| &adopted.book);
        let service = book.and_then(|book| book.service_meter());
        let service = service.and_then(|(id, _)| id.cloned());
        let mut meters = Self {
            never_had_one: book.is_some_and(|book| book.is_without_meter())
                && books.iter().all(|adopted| !adopted.book.has_meter()),
            told_alone: !book.is_some_and(|book| book.has_meter()),
            book: book.cloned(),
            service: service.clone(),
            all: BTreeMap::new(),
        };
        meters.meter(service);
        meters
    }

    /// Service hours now, as [`Meter::life`].
    pub(super) fn life(&self) -> Option<LifeHours> {
        self.all.get(&self.service)?.life()
    }

    /// A run was written from one time to another.
    pub(super) fn ran(&mut self, from: Timestamp, to: Timestamp) {
        let all = self.all.values_mut();
        all.for_each(|meter| meter.ran_between(from, to));
    }

    /// Takes a reading of one meter.
    pub(super) fn read(
        &mut self,
        read: Read<'_>,
        meter: Option<&ItemId>,
        shows: Exact,
    ) -> Option<Asks> {
        if self.never_had_one && read.ruled != Some(&RulingSays::ReadingRight) {
            let wrong = read.ruled == Some(&RulingSays::ReadingWrong);
            return (!wrong).then_some(Asks::NoMeterToRead { shows });
        }
        let asks = self.meter(meter.cloned()).read(read, shows);
        self.estimate_gap(read, meter);
        asks
    }

    /// Takes a change of one meter.
    pub(super) fn change(&mut self, read: Read<'_>, change: &MeterChange) -> Option<Asks> {
        self.meter(change.meter.clone()).change(read, change)
    }

    /// Takes that one meter is said to be broken. It counts as broken at once, and is asked about.
    pub(super) fn said_broken(&mut self, read: Read<'_>, broken: &MeterBroken) -> Option<Asks> {
        if read.ruled == Some(&RulingSays::ReadingWrong) {
            return None;
        }
        let meter = self.meter(broken.meter.clone());
        let moved_at = Some(meter.moved_at).filter(|at| *at != Timestamp::MIN);
        let since = broken.since.or(moved_at).unwrap_or(read.at).min(read.at);
        meter.break_down(read.entry, since);
        for other in self.all.keys().cloned().collect::<Vec<_>>() {
            self.estimate_gap(read, other.as_ref());
        }
        Some(Asks::MeterSaidBroken { since })
    }

    /// Takes hours run as somebody told them.
    pub(super) fn told(&mut self, read: Read<'_>, told: &HoursTold) -> Option<Asks> {
        if read.ruled == Some(&RulingSays::ReadingWrong) {
            return None;
        }
        let alone = self.told_alone;
        let service = self.meter(self.service.clone());
        let by_meter = service
            .history
            .uncounted
            .take_if(|uncounted| uncounted.by_meter.is_some());
        let asks = service.told(read.entry, read.at, &told.ran, alone);
        if by_meter.is_some() {
            service.history.uncounted = by_meter;
            return None;
        }
        asks
    }

    /// Hands what was followed to the state.
    pub(super) fn end(self, state: &mut MachineState) {
        let mut all = self.all;
        let service = all.remove(&self.service).map(|meter| meter.history);
        state.hours = service.unwrap_or_default();
        state.hours_of = self.service;
        state.other_meters = all
            .into_iter()
            .map(|(id, meter)| (id, meter.history))
            .collect();
    }

    /// While the service meter is broken, another that goes on lets its hours be estimated.
    fn estimate_gap(&mut self, read: Read<'_>, by: Option<&ItemId>) {
        let (by, service) = (by.cloned(), self.service.clone());
        let (Some(counts), Some(broken)) = (self.all.get(&by), self.all.get(&service)) else {
            return;
        };
        let Some(since) = broken.history.broken.as_ref().map(|broken| broken.since) else {
            return;
        };
        if by == service || counts.history.broken.is_some() {
            return;
        }
        let steps = (counts.step, broken.step);
        let hours = gap(&counts.history, &broken.history, since, steps);
        if let (Some(hours), Some(meter)) = (hours, self.all.get_mut(&service)) {
            meter.counted_by_other(by, read.entry, read.at, hours);
        }
    }

    /// One meter, begun where nobody has read it yet.
    fn meter(&mut self, id: Option<ItemId>) -> &mut Meter {
        let book = self.book.as_ref();
        let in_book = book.and_then(|book| {
            let all = book.meters();
            let found = all.filter(|(named, _)| *named == id.as_ref()).last();
            found.map(|(_, meter)| meter)
        });
        let scaled = in_book.filter(|meter| {
            let wanted = book.and_then(|book| book.service_hours);
            id == self.service && estimates_running(meter, wanted)
        });
        self.all.entry(id).or_insert_with(|| {
            let mut meter = Meter::new(in_book);
            meter.history.scale = scaled.and_then(running_scale);
            meter
        })
    }
}

/// Whether service hours are running hours and this is a counter of revolutions that tells them.
fn estimates_running(meter: &BookMeter, wanted: Option<MeterKind>) -> bool {
    wanted == Some(MeterKind::Running) && meter.tells_running_hours()
}

/// What a broken meter would have counted since, by one that goes on; none where they were never read together often enough.
fn gap(
    counts: &HourHistory,
    broken: &HourHistory,
    since: Timestamp,
    (counts_step, broken_step): (f64, f64),
) -> Option<LifeHours> {
    let ratio = ratio_of(counts, broken, (counts_step, broken_step))?;
    let then = counts.readings.iter().rev().find(|read| read.at <= since)?;
    let now = counts.readings.last()?;
    let advance = (&now.life.hours - &then.life.hours).max(Exact::zero());
    let parts = Exact::parse(&format!("{:.6}", ratio.half_width));
    let per_hour = Exact::parse(&format!("{:.6}", ratio.ratio))?;
    Some(LifeHours {
        plus_minus: parts? * &advance,
        hours: per_hour * &advance,
    })
}
