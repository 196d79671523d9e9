//! Gaps of the rest order.

use super::{Blocks, By, Gap, GapCode, of, unlock};
use crate::book::{Book, RestKind, RestStep, Without};
use crate::code::Coded;

pub(super) fn gaps(book: &Book) -> impl Iterator<Item = Gap> {
    let travels = book.ground_gear.as_ref().is_none_or(|gear| gear.travels);
    let towed = book.ground_gear.as_ref().is_some_and(|gear| gear.towed);
    let needed = [
        (travels && !book.lacks(Without::Rams), RestKind::Lowered),
        (travels, RestKind::Neutral),
        (travels || towed, RestKind::Brake),
        (!book.lacks(Without::Engine), RestKind::EngineOff),
    ];
    let missing = needed
        .into_iter()
        .filter_map(|(needed, kind)| needed.then_some(kind))
        .filter(|kind| !book.rest.iter().any(|step| step.is == *kind));
    let missing = missing.map(|kind| {
        of(
            GapCode::NoRestStep,
            kind.code(),
            0,
            true,
            &[Blocks::Rest, Blocks::Verdict],
            unlock("rest", "is", By::WritingDown),
        )
    });
    let wanting = |step: &&RestStep| {
        step.proof.is_none() && matches!(step.is, RestKind::Lowered | RestKind::Lock)
    };
    let unproven = book.rest.iter().filter(wanting);
    missing.chain(unproven.map(|step| {
        of(
            GapCode::RestWithoutProof,
            step.id.as_str(),
            step.line,
            false,
            &[Blocks::Rest],
            unlock("rest", "proof", By::Looking),
        )
    }))
}
