//! Fuel leaks.
//!
//! What: any fuel leak, wetness included, stands the machine down.
//!
//! Why: fuel burns; the class of the leak does not matter.
//!
//! Source: operator's check tables: fuel is the exception to the leak classes.
//!
//! Example: case `fuel-leak`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};
use crate::{book::About, entry::Answer};

pub(super) const RULE: Rule = Rule {
    id: "fuel-leak",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "fuel-leak",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match (seen.about()?, seen.answer()?) {
        (about @ About::Fuel, Answer::Leak(Some(class))) => {
            Some(Weight::down(weight::LIFE, What::Leak(about, *class)))
        }
        _ => None,
    }
}
