//! The book does not say how to stop the engine.
//!
//! What: a book without its stop instruction stands the machine down.
//!
//! Why: it is the first thing anybody must know, and the last moment to look for it is when it
//! is needed.
//!
//! Source: the yard's own rule.
//!
//! Example: case `no-stop`.

use super::{LooksAt, Rule, Source};
use crate::book::Without;
use crate::handover::{Context, Reason, Situation, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "no-stop",
    looks_at: LooksAt::Book,
    source: Source::YardsOwn,
    example: "no-stop",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    match context.book {
        Some(book) if book.stop.is_none() && !book.lacks(Without::Engine) => vec![
            Weight {
                unknown: true,
                ..Weight::down(weight::LIFE, What::NoStop)
            }
            .plain(RULE.id),
        ],
        _ => Vec::new(),
    }
}
