//! The sign-off in force for the person who asks, on this machine, today.

use super::Situation;
use crate::{
    id::PersonId,
    people::{Deed, Role, may},
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

/// Somebody who may run a machine today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Able {
    /// Who.
    pub person: PersonId,
    /// Only with the steward or the deputy in sight.
    pub in_sight: bool,
    /// Limits of the sign-off, in words.
    pub limits: Option<String>,
}

/// Everybody who may run this machine today: steward and deputy, and who is signed off; by id. Whoever needs somebody in sight
/// is among them.
pub fn able(situation: &Situation<'_>) -> Vec<Able> {
    let people = situation.yard.people.keys().copied();
    people
        .filter_map(|person| {
            let there = Situation {
                person,
                ..*situation
            };
            let role = match &situation.machine.id {
                Some(machine) => situation.yard.role_on(person, machine, situation.now),
                None => situation.yard.role_at(person, situation.now),
            };
            let signed_off = sign_off(&there).filter(|_| may(role, Deed::Run));
            if !role.leads() && signed_off.is_none() {
                return None;
            }
            Some(Able {
                person,
                in_sight: !role.leads()
                    && (role == Role::Learner || signed_off.is_some_and(|given| given.in_sight)),
                limits: signed_off.and_then(|given| given.limits.clone()),
            })
        })
        .collect()
}

/// The end of a day in the yard's time zone; none beyond the calendar.
pub(super) fn end_of_day(situation: &Situation, day: Date) -> Option<Timestamp> {
    let midnight = day.tomorrow().ok()?.at(0, 0, 0, 0);
    situation.zone.to_timestamp(midnight).ok()
}
