//! Books on the shelf: who adopts, what does not read, and points that were renamed.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{entry::*, state::*};

fn renamed() -> String {
    BOOK.replace("id = \"clip-left\"", "id = \"clip-bucket-left\"")
        + "\n[renamed]\nclip-left = \"clip-bucket-left\"\n"
}

#[test]
fn the_small_book_reads() {
    let read = yard::book::read(BOOK, &quantity::Habits::default());
    assert_eq!(read.troubles, []);
    assert_eq!(SmallYard::new().fold().books.len(), 1);
}

#[test]
fn only_the_steward_adopts_and_a_bad_book_leaves_the_old_one_in_force() {
    let mut yard = SmallYard::new();
    let adopted = |text: &str| {
        Body::BookAdopted(BookAdopted {
            text: text.to_owned(),
            why: None,
        })
    };
    let refused = yard.says(DEPUTY, "2026-02-01T07:00", adopted(BOOK));
    let bad = yard.says(
        STEWARD,
        "2026-02-02T07:00",
        adopted("kingpost = 1\n[machine]\nid = 3\n"),
    );
    let foreign = yard.says(
        STEWARD,
        "2026-02-03T07:00",
        adopted(&BOOK.replace("id = \"loader\"", "id = \"tractor\"")),
    );
    let state = yard.fold();
    assert_eq!(state.book().unwrap().revision, yard.book);
    assert_eq!(
        state.questions[&refused].asks,
        Asks::NotEntitled { of: fault(refused) }
    );
    assert!(matches!(state.questions[&bad].asks, Asks::BookUnread { mistakes } if mistakes > 0));
    assert_eq!(
        state.questions[&foreign].asks,
        Asks::BookUnread { mistakes: 1 }
    );
}

#[test]
fn answers_and_findings_follow_a_renamed_point() {
    let mut yard = SmallYard::new();
    let walk = yard.walks(
        OPERATOR,
        "2026-02-01T07:00",
        1,
        vec![("clip-left", clip(ClipState::Missing))],
    );
    yard.adopt("2026-02-02T07:00", &renamed());
    let state = yard.fold();
    let today = fault_at(walk, "clip-bucket-left");
    assert!(state.findings[&today].open());
    assert_eq!(
        state.finding(&fault_at(walk, "clip-left")),
        state.findings.get(&today)
    );
    assert!(state.done.contains_key(&point("clip-bucket-left")));
    // Named by its old name, as on a sheet printed before.
    yard.repairs(
        OPERATOR,
        "2026-02-03T07:00",
        vec![fault_at(walk, "clip-left")],
    );
    assert!(!yard.fold().findings[&today].open());
    // A phone that still has the old book answers under the old revision.
    yard.walks(
        OPERATOR,
        "2026-02-04T07:00",
        2,
        vec![("clip-left", clip(ClipState::Present))],
    );
    let state = yard.fold();
    assert_eq!(
        state.answers[&point("clip-bucket-left")].at,
        at("2026-02-04T07:00")
    );
    assert!(state.questions.is_empty());
}

#[test]
fn the_old_name_is_gone_from_the_new_book() {
    let mut yard = SmallYard::new();
    yard.book = yard.adopt("2026-02-02T07:00", &renamed());
    let walk = yard.walks(
        OPERATOR,
        "2026-02-04T07:00",
        2,
        vec![("clip-left", clip(ClipState::Present))],
    );
    assert_eq!(
        yard.fold().questions[&walk].asks,
        Asks::NoSuchPoint {
            point: point("clip-left")
        }
    );
}

#[test]
fn a_minor_gap_is_accepted_by_the_steward_and_a_grave_one_by_nobody() {
    let mut yard = SmallYard::with_book(&BOOK.replace("[stop]\nhow = \"Pull the red knob\"\n", ""));
    let gaps = yard::book::gaps(&yard.fold().book().unwrap().book);
    let grave = gaps.iter().find(|gap| gap.bears_on_safety).unwrap();
    let minor = gaps.iter().find(|gap| !gap.bears_on_safety).unwrap();
    let accepted = |gap: &yard::book::Gap| {
        Body::GapAccepted(GapAccepted {
            gap: gap.id.clone(),
            why: "nobody knows".into(),
        })
    };
    let refused = yard.says(DEPUTY, "2026-02-01T07:00", accepted(minor));
    assert!(yard.fold().accepted_gaps.is_empty());
    assert_eq!(
        yard.fold().questions[&refused].asks,
        Asks::NotEntitled { of: fault(refused) }
    );
    yard.says(STEWARD, "2026-02-02T07:00", accepted(grave));
    let entry = yard.says(STEWARD, "2026-02-03T07:00", accepted(minor));
    assert_eq!(
        yard.fold().accepted_gaps,
        [(minor.id.clone(), entry)].into()
    );
}

#[test]
fn unknown_kinds_are_kept_and_what_does_not_read_is_asked_about() {
    let mut yard = SmallYard::new();
    let later = yard.says(
        OPERATOR,
        "2026-02-01T07:00",
        Body::Unknown {
            kind: "weather".into(),
            version: 2,
        },
    );
    let odd = yard.says(
        OPERATOR,
        "2026-02-02T07:00",
        Body::Unreadable {
            kind: "run".into(),
            at: "hours".into(),
        },
    );
    let state = yard.fold();
    assert_eq!(
        state.unknown,
        [(later, "weather".to_owned()), (odd, "run".to_owned())]
    );
    assert_eq!(state.questions.keys().collect::<Vec<_>>(), [&odd]);
    yard.rules(DEPUTY, "2026-02-03T07:00", odd, RulingSays::Answered);
    assert!(yard.fold().questions.is_empty());
}
