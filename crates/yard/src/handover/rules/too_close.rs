//! A measure is too close to its limit to call.
//!
//! What: where the ± of the reading reaches over the limit it is called neither good nor bad:
//! measure again.
//!
//! Why: a tape is good for so much and no more.
//!
//! Source: the guard band of ISO 14253-1.
//!
//! Example: case `too-close`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, What, each_unknown};

pub(super) const RULE: Rule = Rule {
    id: "too-close",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "too-close",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_unknown(RULE.id, context, |what| {
        matches!(what, What::TooClose { .. })
    })
}
