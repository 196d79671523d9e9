//! Another person walked it round.
//!
//! What: the machine was walked round and not used since, but by somebody else than the person
//! who asks.
//!
//! Why: who was not the last operator checks everything again: nobody drives on another's eyes.
//!
//! Source: common practice, no source.
//!
//! Example: case `other-persons-round`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What};
use crate::{entry::RoundPurpose, id::PersonId};
use jiff::Timestamp;

pub(super) const RULE: Rule = Rule {
    id: "other-persons-round",
    looks_at: LooksAt::Round,
    source: Source::CommonPractice,
    example: "other-persons-round",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    match latest(situation) {
        Some(by) if context.own.is_none() => {
            vec![Weight::unknown_down(What::OtherPersonsRound { by }).plain(RULE.id)]
        }
        _ => Vec::new(),
    }
}

/// Who closed the latest round before a start, other than the person who asks, where the machine was not handed over since.
pub(super) fn latest(situation: &Situation) -> Option<PersonId> {
    let machine = situation.machine;
    let handed_over = machine
        .handover
        .as_ref()
        .map_or(Timestamp::MIN, |(_, at, ..)| *at);
    let starts = machine
        .rounds
        .values()
        .filter(|round| round.purpose != RoundPurpose::After);
    let closed = starts.filter_map(|round| round.closed);
    closed
        .filter(|(at, by, _)| *at >= handed_over && *by != situation.person)
        .max()
        .map(|(_, by, _)| by)
}
