//! Steering is not in order.
//!
//! What: weak, failing, damaged or missing steering, or a measure of it outside its limit,
//! stands the machine down.
//!
//! Why: nobody can stop what cannot be steered away from people.
//!
//! Source: operator's check tables (any play in tie-rod ends is a fault); common practice.
//!
//! Example: case `steering`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "steering",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "steering",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Steering))
}
