//! Corrections: who may, which of rivals holds, and that corrections of corrections come to an end.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{entry::*, id::EntryId, people::Role, state::*};

fn note(text: &str) -> Body {
    Body::Note(Note {
        point: None,
        text: text.to_owned(),
    })
}

fn reading(text: &str) -> Body {
    Body::MeterReading(MeterReading { shows: q(text) })
}

/// What the meter shows after all corrections.
fn shown(yard: &SmallYard) -> Option<String> {
    yard.fold()
        .hours
        .segments
        .last()
        .map(|segment| segment.last.to_string())
}

fn one_reading() -> (SmallYard, EntryId) {
    let mut yard = SmallYard::new();
    let read = yard.reads(OPERATOR, "2026-05-01T07:00", "100 h");
    (yard, read)
}

#[test]
fn the_author_and_the_deputy_may_correct() {
    for by in [OPERATOR, DEPUTY, STEWARD] {
        let (mut yard, read) = one_reading();
        yard.corrects(by, "2026-05-01T08:00", read, Some(reading("101 h")));
        assert_eq!(shown(&yard).as_deref(), Some("101"));
        assert!(yard.fold().questions.is_empty());
    }
}

#[test]
fn others_may_not_and_it_is_asked_about() {
    for by in [LEARNER, OTHER, VISITOR] {
        let (mut yard, read) = one_reading();
        let correction = yard.corrects(by, "2026-05-01T08:00", read, None);
        assert_eq!(shown(&yard).as_deref(), Some("100"));
        assert_eq!(
            yard.fold().questions[&correction].asks,
            Asks::CorrectionNotEntitled { of: read }
        );
    }
}

#[test]
fn what_counts_is_the_role_at_that_time() {
    let (mut yard, read) = one_reading();
    yard.corrects(OTHER, "2026-05-01T08:00", read, None);
    yard.give(STEWARD, "2026-05-01T09:00", OTHER, Some(Role::Deputy));
    assert_eq!(shown(&yard).as_deref(), Some("100"));
    yard.corrects(OTHER, "2026-05-01T10:00", read, Some(reading("103 h")));
    assert_eq!(shown(&yard).as_deref(), Some("103"));
    yard.give(STEWARD, "2026-05-01T11:00", OTHER, None);
    assert_eq!(
        shown(&yard).as_deref(),
        Some("103"),
        "entitled then stays entitled then"
    );
}

#[test]
fn of_rivals_the_later_holds_and_both_are_flagged() {
    let (mut yard, read) = one_reading();
    let first = yard.corrects(OPERATOR, "2026-05-01T08:00", read, Some(reading("101 h")));
    let second = yard.corrects(DEPUTY, "2026-05-01T09:00", read, Some(reading("102 h")));
    let state = yard.fold();
    assert_eq!(shown(&yard).as_deref(), Some("102"));
    assert_eq!(state.rivals[&read], [first, second]);
    assert_eq!(state.questions[&second].asks, Asks::Rivals { of: read });
    yard.rules(DEPUTY, "2026-05-01T10:00", read, RulingSays::Answered);
    assert!(yard.fold().questions.is_empty());
    assert_eq!(yard.fold().rivals[&read], [first, second], "the flag stays");
}

#[test]
fn a_correction_can_be_corrected_and_voided() {
    let (mut yard, read) = one_reading();
    let correction = yard.corrects(OPERATOR, "2026-05-01T08:00", read, Some(reading("101 h")));
    let instead = Body::Correction(Correction {
        of: read,
        instead: Some(Box::new(reading("104 h"))),
        why: String::new(),
    });
    let again = yard.corrects(OPERATOR, "2026-05-01T09:00", correction, Some(instead));
    assert_eq!(shown(&yard).as_deref(), Some("104"));
    yard.corrects(DEPUTY, "2026-05-01T10:00", again, None);
    assert_eq!(shown(&yard).as_deref(), Some("101"));
    yard.corrects(DEPUTY, "2026-05-01T11:00", correction, None);
    assert_eq!(shown(&yard).as_deref(), Some("100"));
}

#[test]
fn corrections_that_correct_each_other_come_to_an_end() {
    let (mut yard, read) = one_reading();
    let (first, second) = (
        entry_id(yard.entries.len() as u64 + 1),
        entry_id(yard.entries.len() as u64 + 2),
    );
    yard.corrects(OPERATOR, "2026-05-01T08:00", second, None);
    yard.corrects(OPERATOR, "2026-05-01T09:00", first, None);
    let own = entry_id(yard.entries.len() as u64 + 1);
    yard.corrects(OPERATOR, "2026-05-01T10:00", own, None);
    assert_eq!(shown(&yard).as_deref(), Some("100"));
    assert!(yard.fold().rivals.is_empty());
    yard.corrects(OPERATOR, "2026-05-01T11:00", read, None);
    assert_eq!(shown(&yard), None);
}

#[test]
fn a_correction_counts_before_what_it_corrects_too() {
    let mut yard = SmallYard::new();
    let read = entry_id(yard.entries.len() as u64 + 2);
    yard.corrects(OPERATOR, "2026-05-01T06:00", read, Some(reading("101 h")));
    yard.reads(OPERATOR, "2026-05-01T07:00", "100 h");
    assert_eq!(shown(&yard).as_deref(), Some("101"));
}

#[test]
fn a_deputy_cannot_turn_a_stewards_note_into_a_book() {
    let mut yard = SmallYard::new();
    let text = BOOK.replace("Invented loader", "Another name");
    let noted = yard.says(STEWARD, "2026-05-01T07:00", note("fine"));
    yard.corrects(
        DEPUTY,
        "2026-05-01T08:00",
        noted,
        Some(Body::BookAdopted(BookAdopted {
            text: text.clone(),
            why: None,
        })),
    );
    let state = yard.fold();
    assert_eq!(state.books.len(), 1);
    assert_eq!(
        state.questions[&noted].asks,
        Asks::NotEntitled { of: fault(noted) }
    );
    yard.corrects(
        STEWARD,
        "2026-05-01T09:00",
        noted,
        Some(Body::BookAdopted(BookAdopted { text, why: None })),
    );
    assert_eq!(
        yard.fold().book().unwrap().book.machine.name,
        "Another name"
    );
}
