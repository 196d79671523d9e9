//! Released since the round.
//!
//! What: something stood the machine down, and it was released after the person who asks had
//! finished the round: that round is over.
//!
//! Why: who walked it saw the machine before it was mended. A mending is looked at before the
//! first start, and not only the part that was mended: tools, rags and open taps are left behind.
//!
//! Source: common practice, no source.
//!
//! Example: case `released-since-round`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, stood_down};

pub(super) const RULE: Rule = Rule {
    id: "released-since-round",
    looks_at: LooksAt::Round,
    source: Source::CommonPractice,
    example: "released-since-round",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    if stood_down(situation, context, &context.released_since).is_empty() {
        return Vec::new();
    }
    vec![Weight::unknown_down(What::ReleasedSinceRound).plain(RULE.id)]
}
