//! Somebody stood the machine down by word.
//!
//! What: it stays down until steward or deputy release it, naming the entry.
//!
//! Why: anybody who works here may stop a machine, and only those who answer for it may start
//! it again.
//!
//! Source: the yard's own rule; common practice with locks and tags.
//!
//! Example: case `stood-down`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Said, Seen, Situation, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "stood-down",
    looks_at: LooksAt::Findings,
    source: Source::YardsOwn,
    example: "stood-down",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Said::StoodDown(why) = seen.said else {
        return None;
    };
    Some(Weight::down(
        weight::LIFE,
        What::StoodDown {
            why: why.to_owned(),
        },
    ))
}
