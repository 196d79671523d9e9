//! A question waits for the steward.
//!
//! What: two corrections of one entry, or a closing or a correction by somebody not entitled to
//! it, are run with care until settled.
//!
//! Why: two people see the same thing differently; one of them may be right about the danger.
//!
//! Source: the yard's own rule.
//!
//! Example: case `unsettled`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use crate::state::Asks;

pub(super) const RULE: Rule = Rule {
    id: "unsettled",
    looks_at: LooksAt::Journal,
    source: Source::YardsOwn,
    example: "unsettled",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let waits = |asks: &Asks| {
        matches!(
            asks,
            Asks::Rivals { .. } | Asks::NotEntitled { .. } | Asks::CorrectionNotEntitled { .. }
        )
    };
    let raised = situation
        .machine
        .asked()
        .filter(|question| waits(&question.asks));
    raised
        .map(|question| {
            Weight::care(weight::FORMAL, What::InQuestion).of_entry(RULE.id, question.entry)
        })
        .collect()
}
