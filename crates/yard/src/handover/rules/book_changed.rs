//! The round rests on an older book.
//!
//! What: the book was changed after the round was walked.
//!
//! Why: the new book may ask for what the round never looked at.
//!
//! Source: the yard's own rule.
//!
//! Example: case `book-changed`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What};

pub(super) const RULE: Rule = Rule {
    id: "book-changed",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "book-changed",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    let Some(round) = context.closed_round() else {
        return Vec::new();
    };
    match context.revision {
        Some(revision) if revision != round.book => {
            vec![Weight::unknown_down(What::BookChanged).plain(RULE.id)]
        }
        _ => Vec::new(),
    }
}
