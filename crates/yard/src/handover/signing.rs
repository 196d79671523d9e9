//! The sign-off in force for the person who asks, on this machine, today.

use super::Situation;
use crate::state::SignedOff;
use jiff::{Timestamp, civil::Date};

/// The sign-off in force; none where none was given, it was withdrawn, or its last day is over in the yard's time zone.
pub fn sign_off<'a>(situation: &Situation<'a>) -> Option<&'a SignedOff> {
    let today = situation
        .now
        .to_zoned_datetime(situation.zone.clone())
        .date();
    let given = situation.machine.sign_offs.get(&situation.person)?;
    given
        .until
        .is_none_or(|last| today <= last)
        .then_some(given)
}

/// The end of a day in the yard's time zone; none beyond the calendar.
pub(super) fn end_of_day(situation: &Situation, day: Date) -> Option<Timestamp> {
    let midnight = day.tomorrow().ok()?.at(0, 0, 0, 0);
    situation.zone.to_timestamp(midnight).ok()
}
