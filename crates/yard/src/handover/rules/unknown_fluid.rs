//! Nobody knows what is in it.
//!
//! What: a machine that is being taken in, with a fluid of its book that was neither changed nor analysed since it came: it
//! runs with care.
//!
//! Why: whoever had it before may have poured in anything, or left it in for years. A level and a look do not tell.
//!
//! Source: common practice, no source.
//!
//! Example: case `unknown-fluid`.

use super::{LooksAt, Rule, Source};
use crate::arrival::unknown_fluids;
use crate::handover::{Context, Reason, Situation, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "unknown-fluid",
    looks_at: LooksAt::Journal,
    source: Source::CommonPractice,
    example: "unknown-fluid",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let Some(arrived) = situation.machine.arrival.as_ref() else {
        return Vec::new();
    };
    let book = context.book.filter(|_| arrived.over.is_none());
    let fluids: Vec<_> = book
        .map(|book| unknown_fluids(book, arrived).map(|fluid| fluid.id.clone()).collect())
        .unwrap_or_default();
    if fluids.is_empty() {
        return Vec::new();
    }
    let weight = Weight {
        unknown: true,
        ..Weight::care(weight::UNKNOWN, What::UnknownFluid { fluids })
    };
    vec![weight.plain(RULE.id)]
}
