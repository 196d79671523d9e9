//! There is no book, or it does not read.
//!
//! What: without a book in force, or with a newer one that this program cannot read, nothing
//! can be judged.
//!
//! Why: unknown is never fit.
//!
//! Source: the yard's own rule.
//!
//! Example: case `no-book`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What};
use crate::state::Asks;

pub(super) const RULE: Rule = Rule {
    id: "no-book",
    looks_at: LooksAt::Book,
    source: Source::YardsOwn,
    example: "no-book",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let unread = situation
        .machine
        .asked()
        .any(|question| matches!(question.asks, Asks::BookUnread { .. }));
    if context.book.is_none() || unread {
        vec![Weight::unknown_down(What::NoBook).plain(RULE.id)]
    } else {
        Vec::new()
    }
}
