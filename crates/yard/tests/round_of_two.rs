//! Parts of one round by two people: any order of arrival, late, and after the closing.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use quantity::Habits;
use small_yard::*;
use yard::{entry::*, state::*};

const ROUND: u64 = 1;

fn round(yard: &SmallYard) -> Round {
    yard.fold().rounds[&round_id(ROUND)].clone()
}

fn clip_in(round: &Round) -> Answer {
    round.answers[&point("clip-left")].answered.answer.clone()
}

#[test]
fn of_two_answers_what_is_amiss_stands_whoever_came_first() {
    for (first, second) in [
        (ClipState::Missing, ClipState::Present),
        (ClipState::Present, ClipState::Missing),
    ] {
        let mut yard = SmallYard::new();
        yard.walks(
            OPERATOR,
            "2026-03-02T07:00",
            ROUND,
            vec![("clip-left", clip(first))],
        );
        yard.walks(
            OTHER,
            "2026-03-02T07:05",
            ROUND,
            vec![("clip-left", clip(second))],
        );
        assert_eq!(clip_in(&round(&yard)), clip(ClipState::Missing));
        assert_eq!(round(&yard).by, [OPERATOR, OTHER]);
    }
}

#[test]
fn what_one_could_not_check_the_other_may() {
    let mut yard = SmallYard::new();
    yard.walks(
        OPERATOR,
        "2026-03-02T07:00",
        ROUND,
        vec![("clip-left", not_checked())],
    );
    yard.walks(
        OTHER,
        "2026-03-02T07:05",
        ROUND,
        vec![("clip-left", clip(ClipState::Present))],
    );
    yard.walks(
        OPERATOR,
        "2026-03-02T07:06",
        ROUND,
        vec![("clip-left", not_checked())],
    );
    assert_eq!(clip_in(&round(&yard)), clip(ClipState::Present));
}

#[test]
fn written_before_the_closing_counts_and_after_it_makes_nothing_better() {
    let mut yard = SmallYard::new();
    yard.walks(OPERATOR, "2026-03-02T07:00", ROUND, vec![]);
    yard.closes(OPERATOR, "2026-03-02T07:30", ROUND, vec![]);
    assert!(round(&yard).answers.is_empty());
    yard.walks(
        OTHER,
        "2026-03-02T07:31",
        ROUND,
        vec![("clip-left", clip(ClipState::Present))],
    );
    assert!(round(&yard).answers.is_empty());
    assert_eq!(round(&yard).by, [OPERATOR]);
    yard.walks(
        OTHER,
        "2026-03-02T07:20",
        ROUND,
        vec![("clip-left", clip(ClipState::Present))],
    );
    assert_eq!(clip_in(&round(&yard)), clip(ClipState::Present));
    assert_eq!(round(&yard).by, [OPERATOR, OTHER]);
    yard.walks(
        OTHER,
        "2026-03-02T07:32",
        ROUND,
        vec![("clip-left", clip(ClipState::Missing))],
    );
    assert_eq!(clip_in(&round(&yard)), clip(ClipState::Missing));
    assert_eq!(yard.fold().findings.len(), 1);
}

proptest! {
    #[test]
    fn any_order_of_arrival_gives_the_same_round(
        parts in prop::collection::vec((any::<bool>(), 0i64..40, 0u8..3, any::<bool>()), 1..10)
            .prop_map(written)
            .prop_flat_map(|parts| (Just(parts.clone()), Just(parts).prop_shuffle())),
    ) {
        let (written, mut arrived) = parts;
        for (seq, entry) in (1..).zip(&mut arrived) {
            entry.seq = seq;
        }
        prop_assert_eq!(states(&written), states(&arrived));
    }
}

fn states(entries: &[Entry]) -> MachineState {
    fold_machine(&machine(), entries, &fold_yard(entries), &Habits::default())
}

/// Parts of one round by two people, some of them closing it.
fn written(parts: Vec<(bool, i64, u8, bool)>) -> Vec<Entry> {
    let mut yard = SmallYard::new();
    for (first, minute, answer, closes) in parts {
        let by = if first { OPERATOR } else { OTHER };
        let when = format!("2026-03-02T07:{minute:02}");
        let answer = match answer {
            0 => not_checked(),
            1 => clip(ClipState::Present),
            _ => clip(ClipState::Missing),
        };
        let answers = vec![("clip-left", answer)];
        if closes {
            yard.closes(by, &when, ROUND, answers);
        } else {
            yard.walks(by, &when, ROUND, answers);
        }
    }
    yard.entries
}
