//! Today at one machine: the date in the yard, the hours, what is open, worked out once for all points.

use super::weekly;
use crate::{
    book::Book,
    handover::Situation,
    id::PointId,
    state::{Done, Finding, LifeHours, MachineState},
    upkeep,
};
use jiff::{Timestamp, civil::Date, tz::TimeZone};
use quantity::Exact;
use std::collections::{BTreeMap, BTreeSet};

/// The yard's date at a moment. Days are counted between such dates, never in hours, so that a change of clocks or a day
/// without a midnight moves nothing.
pub fn day_of(moment: Timestamp, zone: &TimeZone) -> Date {
    moment.to_zoned_datetime(zone.clone()).date()
}

/// Whole days from one date to another; negative where it lies before.
pub(crate) fn days_between(from: Date, to: Date) -> i64 {
    to.duration_since(from).as_hours() / 24
}

/// Whole days of the yard's calendar from one moment to another.
pub(crate) fn days_between_moments(from: Timestamp, to: Timestamp, zone: &TimeZone) -> i64 {
    days_between(day_of(from, zone), day_of(to, zone))
}

/// What the rhythms look at.
pub(crate) struct Today<'a> {
    /// The situation it is made of.
    pub(crate) situation: &'a Situation<'a>,
    /// Today's book.
    pub(crate) book: &'a Book,
    /// The date in the yard.
    pub(crate) date: Date,
    /// Life hours, as far as known.
    pub(crate) life: Option<LifeHours>,
    /// Points with an open finding.
    pub(crate) open: BTreeSet<PointId>,
    /// The weekday of each point that comes round once a week.
    pub(crate) weekly: BTreeMap<PointId, weekly::Slot>,
}

impl<'a> Today<'a> {
    /// Works it out; none without a book, and none where the machine left the yard: nothing is due there.
    pub(crate) fn of(situation: &'a Situation<'a>) -> Option<Self> {
        let book = situation
            .book()
            .filter(|_| situation.machine.left.is_none())?;
        Some(Self {
            situation,
            book,
            date: day_of(situation.now, situation.zone),
            life: upkeep::life_hours(situation.machine),
            open: open_points(situation.machine),
            weekly: weekly::slots(book),
        })
    }

    /// The machine.
    pub(crate) fn machine(&self) -> &'a MachineState {
        self.situation.machine
    }

    /// The yard's date at a moment.
    pub(crate) fn day_of(&self, moment: Timestamp) -> Date {
        day_of(moment, self.situation.zone)
    }

    /// Days since something was done, by the yard's calendar; never negative.
    pub(crate) fn days_since(&self, moment: Timestamp) -> i64 {
        days_between(self.day_of(moment), self.date).max(0)
    }

    /// Hours run since something was done, at most: the ± of spans nobody counted since is added. None where the hours then
    /// or now are not known; where hours are told, none told then are none run.
    pub(crate) fn hours_since(&self, done: &Done) -> Option<Exact> {
        let none = LifeHours::none();
        let told = self.book.is_without_meter().then_some(&none);
        let (now, then) = (self.life.as_ref()?, done.life_hours.as_ref().or(told)?);
        let unsure = (&now.plus_minus - &then.plus_minus).max(Exact::zero());
        Some((&now.hours - &then.hours + unsure).max(Exact::zero()))
    }
}

fn open_points(machine: &MachineState) -> BTreeSet<PointId> {
    let open = machine.findings.values().filter(|finding| finding.open());
    let point = open.filter_map(Finding::point);
    point.map(|point| machine.point_today(point)).collect()
}
