//! Corrections: who may, which of rivals holds, and that corrections of corrections come to an end.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{
    book::Severity,
    entry::*,
    id::{EntryId, PersonId},
    people::Role,
    state::*,
};

fn note(text: &str) -> Body {
    Body::Note(Note {
        point: None,
        text: text.to_owned(),
    })
}

fn reading(text: &str) -> Body {
    Body::MeterReading(MeterReading {
        meter: None,
        shows: q(text),
    })
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

fn reported(what: &str, severity: Severity) -> Body {
    Body::Fault(Fault {
        point: None,
        what: what.to_owned(),
        severity,
        told: None,
    })
}

fn stood_down(why: &str) -> Body {
    let why = why.to_owned();
    Body::StandDown(StandDown { why })
}

fn walked(yard: &SmallYard, answers: Vec<(&str, Answer)>) -> Body {
    Body::WalkRound(WalkRound {
        round: round_id(1),
        book: yard.book,
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers: answers
            .into_iter()
            .map(|(id, answer)| answered(id, answer))
            .collect(),
        hours: None,
        closes: None,
        no_photo: None,
    })
}

/// What is found and open, by what was said.
fn found(yard: &SmallYard) -> Vec<Found> {
    let state = yard.fold();
    state
        .findings
        .values()
        .map(|found| found.what.clone())
        .collect()
}

/// Every kind of harm: what was said, and what its author alone may not make of it.
fn harm(yard: &SmallYard) -> Vec<(Body, Vec<Option<Body>>)> {
    let walk = |answers| walked(yard, answers);
    let missing = ("clip-left", clip(ClipState::Missing));
    let greased = |took| {
        Body::Greasing(Greasing {
            fittings: vec![answered("fit-boom", fitting(took))],
            mends: vec![],
        })
    };
    let low = |pose: Option<&str>| Answer::Level {
        reads: LevelReads::Below,
        pose: pose.map(item),
        oil: Some(yard::book::OilHeat::Cold),
        looks: FluidLooks::Clean,
    };
    vec![
        (stood_down("smoke"), vec![None, Some(note("smoke"))]),
        (
            reported("smoke", Severity::StandDown),
            vec![
                None,
                Some(reported("smoke", Severity::Note)),
                Some(stood_down("smoke")),
            ],
        ),
        (
            walk(vec![missing]),
            vec![
                None,
                Some(walk(vec![])),
                Some(walk(vec![("clip-left", clip(ClipState::Present))])),
                Some(walk(vec![("clip-left", clip(ClipState::Loose))])),
                Some(walk(vec![("clip-right", clip(ClipState::Missing))])),
                Some(walk(vec![("clip-left", not_checked())])),
            ],
        ),
        (
            walk(vec![("oil-hydraulic", low(Some("lowered")))]),
            vec![
                Some(walk(vec![("oil-hydraulic", low(None))])),
                Some(walk(vec![("oil-hydraulic", level_well())])),
            ],
        ),
        (
            walk(vec![(
                "crank",
                Answer::Crank {
                    cranked: vec![Some(true), Some(true)],
                    bypassed: true,
                },
            )]),
            vec![
                Some(walk(vec![(
                    "crank",
                    Answer::Crank {
                        cranked: vec![Some(true), Some(false)],
                        bypassed: true,
                    },
                )])),
                Some(walk(vec![(
                    "crank",
                    Answer::Crank {
                        cranked: vec![Some(true), Some(true)],
                        bypassed: false,
                    },
                )])),
            ],
        ),
        (
            greased(GreaseTook::Refused),
            vec![None, Some(greased(GreaseTook::Took))],
        ),
    ]
}

#[test]
fn its_author_alone_cannot_unsay_harm_and_deputy_and_steward_can() {
    for (says, lifts) in harm(&SmallYard::new()) {
        for instead in lifts {
            for by in [LEARNER, OPERATOR, DEPUTY, STEWARD] {
                let mut yard = SmallYard::new();
                let author = if by == OPERATOR { OPERATOR } else { LEARNER };
                let told = yard.says(author, "2026-05-01T07:00", says.clone());
                let before = found(&yard);
                assert!(!before.is_empty(), "{says:?}");
                let correction = yard.corrects(by, "2026-05-01T08:00", told, instead.clone());
                if by == DEPUTY || by == STEWARD {
                    assert_ne!(found(&yard), before, "{by:?} {instead:?}");
                    continue;
                }
                assert_eq!(found(&yard), before, "{by:?} {instead:?}");
                let asks = Asks::CorrectionNotEntitled { of: told };
                assert_eq!(yard.fold().questions[&correction].asks, asks);
            }
        }
    }
}

#[test]
fn its_author_may_correct_what_leaves_the_harm_standing() {
    let cases = |yard: &SmallYard| {
        let walk = |answers| walked(yard, answers);
        vec![
            (stood_down("somke"), stood_down("smoke")),
            (
                reported("somke", Severity::Care),
                reported("smoke", Severity::StandDown),
            ),
            (
                walk(vec![
                    ("clip-left", clip(ClipState::Loose)),
                    ("sag-left", sag("21 in")),
                ]),
                walk(vec![
                    ("sag-left", sag("1 1/2 in ± 1/16 in")),
                    ("clip-left", clip(ClipState::Missing)),
                ]),
            ),
            (
                walk(vec![("brake", Answer::Function(FunctionState::Works))]),
                note("wrong machine"),
            ),
        ]
    };
    for (says, instead) in cases(&SmallYard::new()) {
        let mut yard = SmallYard::new();
        let told = yard.says(LEARNER, "2026-05-01T07:00", says);
        yard.corrects(LEARNER, "2026-05-01T08:00", told, Some(instead.clone()));
        let mut as_if = SmallYard::new();
        as_if.says(LEARNER, "2026-05-01T07:00", instead);
        assert_eq!(found(&yard), found(&as_if));
        assert!(yard.fold().questions.is_empty());
    }
}

/// Neither by a correction of one's own correction, nor by another after the deputy added harm; after the deputy took it
/// away, the author may mend the words.
#[test]
fn harm_is_not_unsaid_by_a_detour() {
    let correction = |of, instead: Option<Body>| {
        Body::Correction(Correction {
            of,
            instead: instead.map(Box::new),
            why: String::new(),
        })
    };
    let mut yard = SmallYard::new();
    let told = yard.says(LEARNER, "2026-05-01T07:00", stood_down("somke"));
    let first = yard.corrects(LEARNER, "2026-05-01T08:00", told, Some(stood_down("smoke")));
    let smoke = [Found::StoodDown("smoke".into())];
    assert_eq!(found(&yard), smoke);
    yard.corrects(
        LEARNER,
        "2026-05-01T09:00",
        first,
        Some(correction(told, None)),
    );
    yard.corrects(LEARNER, "2026-05-01T09:10", first, Some(note("nothing")));
    assert_eq!(found(&yard), smoke);
    yard.corrects(DEPUTY, "2026-05-01T10:00", told, Some(note("steam")));
    assert_eq!(found(&yard), []);
    yard.corrects(
        LEARNER,
        "2026-05-01T11:00",
        told,
        Some(note("steam, not smoke")),
    );
    assert_eq!(found(&yard), []);

    let mut yard = SmallYard::new();
    let noted = yard.says(LEARNER, "2026-05-01T07:00", note("steam"));
    yard.corrects(DEPUTY, "2026-05-01T08:00", noted, Some(stood_down("smoke")));
    yard.corrects(LEARNER, "2026-05-01T09:00", noted, Some(note("steam")));
    assert_eq!(found(&yard), smoke, "what the deputy added stays");
}

#[test]
fn what_the_program_noted_about_signing_in_nobody_corrects() {
    let mut yard = SmallYard::new();
    let access = Body::Access(Access {
        what: AccessWhat::Locked,
        of: Some(OPERATOR),
        note: None,
    });
    let locked = yard.yard_says(PersonId::PROGRAM, "2026-05-01T07:00", access);
    let correction = Body::Correction(Correction {
        of: locked,
        instead: None,
        why: "never was".into(),
    });
    let correction = yard.yard_says(STEWARD, "2026-05-01T08:00", correction);
    let state = yard.yard();
    assert_eq!(
        state.questions[&correction].asks,
        Asks::CorrectionNotEntitled { of: locked }
    );
    assert_eq!(state.questions.len(), 1);
    assert!(state.unknown.is_empty());
}
