//! Brake fluid leaks.
//!
//! What: any leak of brake fluid stands the machine down.
//!
//! Why: what wets the outside today is missing in the line tomorrow.
//!
//! Source: operator's check tables: any brake-fluid leak is out.
//!
//! Example: case `brake-fluid-leak`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};
use crate::{book::About, entry::Answer};

pub(super) const RULE: Rule = Rule {
    id: "brake-fluid-leak",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "brake-fluid-leak",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match (seen.about()?, seen.answer()?) {
        (about @ (About::BrakeFluid | About::Brakes), Answer::Leak(Some(class))) => {
            Some(Weight::down(weight::LIFE, What::Leak(about, *class)))
        }
        _ => None,
    }
}
