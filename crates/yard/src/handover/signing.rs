//! The sign-off in force for the person who asks, on this machine, today.

use super::Situation;
use crate::{
    id::PersonId,
    people::{Deed, may},
    state::SignedOff,
};
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

/// Everybody who may run this machine today: steward and deputy, and who is signed off; by id. Whoever needs somebody in sight
/// is among them.
pub fn able(situation: &Situation<'_>) -> Vec<PersonId> {
    let people = situation.yard.people.keys().copied();
    people
        .filter(|person| {
            let there = Situation {
                person: *person,
                ..*situation
            };
            let role = match &situation.machine.id {
                Some(machine) => situation.yard.role_on(*person, machine, situation.now),
                None => situation.yard.role_at(*person, situation.now),
            };
            role.leads() || (may(role, Deed::Run) && sign_off(&there).is_some())
        })
        .collect()
}

/// The end of a day in the yard's time zone; none beyond the calendar.
pub(super) fn end_of_day(situation: &Situation, day: Date) -> Option<Timestamp> {
    let midnight = day.tomorrow().ok()?.at(0, 0, 0, 0);
    situation.zone.to_timestamp(midnight).ok()
}
