//! Weekly points spread over the week, so that no morning has them all.

use super::order::numbers;
use crate::{
    book::{Book, Point, Rhythm},
    id::PointId,
};
use jiff::{
    Span,
    civil::{Date, Weekday},
};
use std::collections::BTreeMap;

/// Days on which a yard works, for sharing out weekly points. A machine that is started on another day, or later, has
/// what fell due meanwhile.
const WORKDAYS: [Weekday; 5] = [
    Weekday::Monday,
    Weekday::Tuesday,
    Weekday::Wednesday,
    Weekday::Thursday,
    Weekday::Friday,
];

/// The weekday of a weekly point, and its interval in days.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Slot {
    weekday: Weekday,
    every: u32,
}

/// Gives each point whose only rhythm is 5 to 10 days its weekday, in turn along the lap.
pub(super) fn slots(book: &Book) -> BTreeMap<PointId, Slot> {
    let numbers = numbers(book);
    let mut weekly: Vec<(u32, &Point, u32)> = book
        .points
        .iter()
        .filter_map(|point| Some((*numbers.get(&point.id)?, point, interval(point)?)))
        .collect();
    weekly.sort_by_key(|(number, ..)| *number);
    let weekdays = WORKDAYS.into_iter().cycle();
    weekly
        .into_iter()
        .zip(weekdays)
        .map(|((_, point, every), weekday)| (point.id.clone(), Slot { weekday, every }))
        .collect()
}

fn interval(point: &Point) -> Option<u32> {
    match point.rhythms.as_slice() {
        [Rhythm::Days(every @ 5..=10)] => Some(*every),
        _ => None,
    }
}

impl Slot {
    /// When a point last done on `done` is due: on its first weekday after that, never later than its interval allows.
    /// None at the end of the calendar.
    pub(crate) fn due_on(self, done: Date) -> Option<Date> {
        let ahead = (1..=i64::from(self.every)).find_map(|days| {
            let date = done.checked_add(Span::new().days(days)).ok()?;
            (date.weekday() == self.weekday).then_some(date)
        });
        ahead.or_else(|| self.latest(done))
    }

    /// The last day its interval allows.
    fn latest(self, done: Date) -> Option<Date> {
        done.checked_add(Span::new().days(i64::from(self.every)))
            .ok()
    }
}
