//! Fittings counted as fittings: a line of a list may stand for several.

use crate::{
    book::{Book, PointKind},
    entry::{Answer, GreaseTook},
    id::{PointId, RoundId},
    state::{MachineState, Round},
};

/// How many fittings the book knows.
pub fn fittings(book: &Book) -> u32 {
    counted(book, |_| true)
}

/// Fittings that took grease in a round, of all the book of that round knows: "21 of 23". Those that refused, that could not
/// be reached or that were not answered do not count. Nothing of nothing where there is no such round or book.
pub fn fittings_done(machine: &MachineState, round: RoundId) -> (u32, u32) {
    let Some(round) = machine.rounds.get(&round) else {
        return (0, 0);
    };
    let Some(adopted) = machine.revision(round.book).or(machine.book()) else {
        return (0, 0);
    };
    let book = &adopted.book;
    let done = counted(book, |point| took(round, &machine.point_today(point)));
    (done, fittings(book))
}

fn counted(book: &Book, counts: impl Fn(&PointId) -> bool) -> u32 {
    let fittings = book
        .points
        .iter()
        .filter(|point| matches!(point.kind, PointKind::Fitting(_)));
    fittings
        .filter(|point| counts(&point.id))
        .map(|point| point.count)
        .fold(0, u32::saturating_add)
}

fn took(round: &Round, point: &PointId) -> bool {
    let answer = round.answers.get(point).map(|given| &given.answered.answer);
    matches!(
        answer,
        Some(Answer::Fitting {
            took: GreaseTook::Seen | GreaseTook::Took,
            ..
        })
    )
}
