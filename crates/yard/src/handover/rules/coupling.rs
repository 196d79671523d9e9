//! The coupling or what ties a load down is not in order.
//!
//! What: a coupling, safety chain, tie-down or its anchor that is damaged, missing or does not hold
//! stands the trailer down.
//!
//! Why: a trailer that comes off, or a load that does, kills on the road.
//!
//! Source: common practice, no source.
//!
//! Example: case `coupling`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "coupling",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "coupling",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Coupling))
}
