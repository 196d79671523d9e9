//! Somebody reported a fault.
//!
//! What: a fault weighs what its reporter, or the steward correcting it, said: stand down,
//! care, or a note that is only shown.
//!
//! Why: who stood beside it knows more than a list does.
//!
//! Source: the yard's own rule.
//!
//! Example: case `fault`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Said, Seen, Situation, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "fault",
    looks_at: LooksAt::Findings,
    source: Source::YardsOwn,
    example: "fault",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Said::Fault(fault) = seen.said else {
        return None;
    };
    let what = What::Fault {
        what: fault.what.clone(),
        severity: fault.severity,
    };
    let rank = if seen.about().is_none_or(About::bears_on_safety) {
        weight::LIFE
    } else {
        weight::MACHINE
    };
    Some(Weight {
        weighs: fault.severity.into(),
        ..Weight::down(rank, what)
    })
}
