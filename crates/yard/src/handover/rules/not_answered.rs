//! A point that was due has no answer.
//!
//! What: each point due in the round and not answered in it stands the machine down where it
//! bears on safety, else it is run with care.
//!
//! Why: unknown is never fit.
//!
//! Source: the yard's own rule.
//!
//! Example: case `not-answered`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Wanting, Weight, What};

pub(super) const RULE: Rule = Rule {
    id: "not-answered",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "not-answered",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    let reason = |wanting: &Wanting| {
        Weight::unknown(wanting.point, What::NotAnswered).at(RULE.id, wanting.id.clone())
    };
    context.unanswered.iter().map(reason).collect()
}
