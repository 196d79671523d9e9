//! Which round counts: the person's own, or that somebody else walked since it ended to hold.

use super::{Situation, holds_until};
use crate::{
    entry::RoundPurpose,
    id::PersonId,
    state::{MachineState, Round},
};
use jiff::Timestamp;

/// The latest round before a start that this person walked, alone or with others; a relief check counts only where the steward allows it. None
/// where it no longer holds and somebody else walked the machine round since: there is then only the other's round to speak of.
pub(super) fn own_round<'a>(situation: &Situation<'a>) -> Option<&'a Round> {
    let counts = |round: &&Round| match round.purpose {
        RoundPurpose::Start => true,
        RoundPurpose::Relief => situation.habits.relief_allowed,
        RoundPurpose::After => false,
    };
    let rounds = situation.machine.rounds.values().filter(counts);
    rounds
        .filter(|round| round.walked_by(situation.person))
        .max_by_key(|round| (round.begun, round.id))
        .filter(|round| !is_past(situation, round))
        .filter(|round| {
            let anew = situation.machine.anew_since();
            anew.is_none_or(|since| round.begun >= since)
        })
}

/// When and by whom the latest round before a start was closed by somebody else than the person who asks, where the machine
/// was not handed over since.
pub(super) fn others_round(situation: &Situation) -> Option<(Timestamp, PersonId)> {
    let machine = situation.machine;
    let handed_over = handed_over(machine).unwrap_or(Timestamp::MIN);
    let starts = machine
        .rounds
        .values()
        .filter(|round| round.purpose != RoundPurpose::After);
    let closed = starts.filter_map(|round| round.closed);
    closed
        .filter(|(at, by, _)| *at >= handed_over && *by != situation.person)
        .max()
        .map(|(at, by, _)| (at, by))
}

/// Whether this person's closed round holds no longer, by its hours or by a handover, and another's is the later one.
fn is_past(situation: &Situation, own: &Round) -> bool {
    let Some((closed, ..)) = own.closed else {
        return false;
    };
    let expired = holds_until(situation, own).is_some_and(|until| situation.now > until);
    let left = handed_over(situation.machine).is_some_and(|at| at > closed);
    let later = others_round(situation).is_some_and(|(at, _)| at > closed);
    (expired || left) && later
}

fn handed_over(machine: &MachineState) -> Option<Timestamp> {
    machine.handover.as_ref().map(|(_, at, ..)| *at)
}
