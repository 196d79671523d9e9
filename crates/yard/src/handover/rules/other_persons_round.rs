//! Another person walked it round.
//!
//! What: the machine was walked round and not used since, but by somebody else than the person
//! who asks; that person has no round, or an older one that no longer holds.
//!
//! Why: who was not the last operator checks everything again: nobody drives on another's eyes.
//!
//! Source: common practice, no source.
//!
//! Example: case `other-persons-round`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, others_round};

pub(super) const RULE: Rule = Rule {
    id: "other-persons-round",
    looks_at: LooksAt::Round,
    source: Source::CommonPractice,
    example: "other-persons-round",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    match others_round(situation) {
        Some((at, by)) if context.own.is_none() => {
            vec![Weight::unknown_down(What::OtherPersonsRound { by, at }).plain(RULE.id)]
        }
        _ => Vec::new(),
    }
}
