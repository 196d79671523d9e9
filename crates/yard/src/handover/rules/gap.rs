//! The book does not know something that bears on safety.
//!
//! What: each gap of the book that bears on safety stands the machine down; nobody can accept
//! it away. The missing stop instruction has a rule of its own.
//!
//! Why: unknown is never fit.
//!
//! Source: the yard's own rule.
//!
//! Example: case `gap`.

use super::{LooksAt, Rule, Source};
use crate::book::{GapCode, gaps};
use crate::handover::{Context, Reason, Situation, Weight, What};

pub(super) const RULE: Rule = Rule {
    id: "gap",
    looks_at: LooksAt::Book,
    source: Source::YardsOwn,
    example: "gap",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    let all = context.book.map(gaps).unwrap_or_default();
    let safety = all
        .into_iter()
        .filter(|gap| gap.bears_on_safety && gap.code != GapCode::NoStop);
    safety
        .map(|gap| Weight::unknown_down(What::Gap { gap: gap.id }).plain(RULE.id))
        .collect()
}
