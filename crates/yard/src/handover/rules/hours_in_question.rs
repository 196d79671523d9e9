//! The hours are in question.
//!
//! What: a meter that fell, jumped, stood still or is said to be broken is run with care until steward or deputy have settled it. It
//! is one reason, however many readings are in question.
//!
//! Why: what is due by hours cannot be told.
//!
//! Source: the yard's own rule.
//!
//! Example: case `hours-in-question`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "hours-in-question",
    looks_at: LooksAt::Journal,
    source: Source::YardsOwn,
    example: "hours-in-question",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let machine = situation.machine;
    let asked = machine
        .asked()
        .filter(|question| question.asks.is_of_hours());
    let entries = asked
        .map(|question| question.entry)
        .chain(machine.hours.doubted.iter().copied());
    // However many readings are in question, it is one thing that is not known. The first is the one to settle first.
    let first = entries.min();
    let reason = |entry| {
        let weight = Weight {
            unknown: true,
            ..Weight::care(weight::UNKNOWN, What::HoursInQuestion)
        };
        weight.of_entry(RULE.id, entry)
    };
    first.map(reason).into_iter().collect()
}
