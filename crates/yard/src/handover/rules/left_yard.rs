//! The machine left the yard.
//!
//! What: a machine that was sold, scrapped or given back stands down until the steward says that it
//! came back.
//!
//! Why: nobody here knows how it stands.
//!
//! Source: the yard's own rule.
//!
//! Example: case `left-yard`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "left-yard",
    looks_at: LooksAt::Journal,
    source: Source::YardsOwn,
    example: "left-yard",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let left = situation.machine.left.as_ref();
    let reason = |left: &crate::state::Left| {
        let how = left.said.how;
        Weight::down(weight::LIFE, What::LeftYard { how }).plain(RULE.id)
    };
    left.map(reason).into_iter().collect()
}
