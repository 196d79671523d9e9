//! A lock that holds something up or still is not in order.
//!
//! What: a missing, damaged or failing boom lock, swing pin or prop stands the machine down.
//!
//! Why: people died when a dropped tool struck the swing pedal of an arm that was not locked.
//!
//! Source: an inquiry into two deaths at swing pedals, which asks for boom and swing lock pins.
//!
//! Example: case `locks`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "locks",
    looks_at: LooksAt::Findings,
    source: Source::Accident,
    example: "locks",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Locks))
}
