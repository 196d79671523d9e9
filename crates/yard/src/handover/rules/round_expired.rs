//! The round holds no longer.
//!
//! What: a closed round holds for the hours the yard has set.
//!
//! Why: a machine in a shared yard changes while nobody looks.
//!
//! Source: the yard's own rule.
//!
//! Example: case `round-expired`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, holds_until};

pub(super) const RULE: Rule = Rule {
    id: "round-expired",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "round-expired",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let until = context
        .closed_round()
        .and_then(|round| holds_until(situation, round));
    let over = until.filter(|until| situation.now > *until);
    over.map(|at| Weight::unknown_down(What::RoundExpired { at }).plain(RULE.id))
        .into_iter()
        .collect()
}
