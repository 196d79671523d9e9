//! The documents that a machine needs, and what was written down for each.

use super::{Context, Situation};
use crate::{book::DocumentWanted, state::KeptDocument};

/// The documents of the book without which the machine should not run.
pub(super) fn needed<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a DocumentWanted> {
    let wanted = context.book.into_iter().flat_map(|book| &book.documents);
    wanted.filter(|wanted| wanted.needed)
}

/// What was written down for one of them, of the machine or of the yard, in force or not. A manual is no report, whatever it
/// was written down for.
pub(super) fn written_for<'a>(
    situation: &Situation<'a>,
    wanted: &DocumentWanted,
) -> impl Iterator<Item = &'a KeptDocument> {
    let kept = situation.machine.documents.iter();
    kept.chain(&situation.yard.documents).filter(|kept| {
        kept.document.of_book.as_ref() == Some(&wanted.id) && kept.document.what == wanted.what
    })
}
