//! Brakes are not in order.
//!
//! What: weak, failing, damaged or missing brakes, or a measure of them outside its limit,
//! stand the machine down.
//!
//! Why: a weak brake fails on the first slope.
//!
//! Source: operator's check tables; common practice.
//!
//! Example: case `brakes`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "brakes",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "brakes",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Brakes))
}
