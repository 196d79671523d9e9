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

/// The rules that speak of the round, for one person a while later.
fn of_the_round(yard: &SmallYard, person: yard::id::PersonId) -> Vec<&'static str> {
    let said = yard.sees(person, "2026-03-02T08:00", yard::handover::judge);
    let mut rules: Vec<&str> = said.reasons.iter().map(|reason| reason.rule).collect();
    rules.retain(|rule| ["not-walked", "other-persons-round", "not-answered"].contains(rule));
    rules.dedup();
    rules
}

/// Every point of the short book, so that nothing due is left, in two parts.
fn two_parts(yard: &SmallYard) -> [Vec<(String, Answer)>; 2] {
    let state = yard.fold();
    let book = state.book().unwrap().book.clone();
    let ids = book.points.iter().map(|point| point.id.to_string());
    let mut all: Vec<(String, Answer)> = ids.map(|id| (id, not_checked())).collect();
    let clip_at = all.iter().position(|(id, _)| id == "clip-left").unwrap();
    all[clip_at].1 = clip(ClipState::Present);
    all.swap(0, clip_at);
    let rest = all.split_off(1);
    [all, rest]
}

fn as_given(answers: &[(String, Answer)]) -> Vec<(&str, Answer)> {
    let answers = answers.iter();
    answers
        .map(|(id, answer)| (id.as_str(), answer.clone()))
        .collect()
}

#[test]
fn it_counts_as_a_whole_for_each_who_looked_and_for_nobody_else() {
    let mut yard = SmallYard::new();
    let [first, mut rest] = two_parts(&yard);
    yard.walks(OTHER, "2026-03-02T07:00", ROUND, as_given(&first));
    yard.walks(DEPUTY, "2026-03-02T07:01", ROUND, vec![]);
    yard.walks(OPERATOR, "2026-03-02T07:05", ROUND, as_given(&rest));
    yard.closes(DEPUTY, "2026-03-02T07:30", ROUND, vec![]);
    assert_eq!(round(&yard).by, [OTHER, DEPUTY, OPERATOR]);
    assert_eq!(of_the_round(&yard, OTHER), [""; 0]);
    // "Could not check" is no look, and closing is none.
    assert_eq!(of_the_round(&yard, OPERATOR), ["other-persons-round"]);
    assert_eq!(of_the_round(&yard, DEPUTY), ["not-walked"]);
    assert_eq!(of_the_round(&yard, STEWARD), ["other-persons-round"]);
    assert_eq!(round(&yard).walker(), Some(OTHER));
    // One look, and it is the operator's round too, also after the same point was answered by both.
    rest.push(("clip-left".to_owned(), clip(ClipState::Present)));
    yard.walks(OPERATOR, "2026-03-02T07:06", ROUND, as_given(&rest));
    assert_eq!(of_the_round(&yard, OPERATOR), [""; 0]);
    assert_eq!(of_the_round(&yard, OTHER), [""; 0]);
}

#[test]
fn what_came_after_the_closing_answers_nothing() {
    let mut yard = SmallYard::new();
    let [first, rest] = two_parts(&yard);
    yard.walks(OPERATOR, "2026-03-02T07:00", ROUND, as_given(&rest));
    yard.closes(OPERATOR, "2026-03-02T07:30", ROUND, vec![]);
    assert_eq!(of_the_round(&yard, OPERATOR), ["not-answered"]);
    yard.walks(OTHER, "2026-03-02T07:40", ROUND, as_given(&first));
    yard.walks(
        OTHER,
        "2026-03-02T07:41",
        ROUND,
        vec![("clip-left", clip(ClipState::Missing))],
    );
    assert_eq!(of_the_round(&yard, OPERATOR), ["not-answered"]);
    assert_eq!(of_the_round(&yard, OTHER), ["other-persons-round"]);
}

#[test]
fn a_round_in_which_nobody_looked_is_of_whoever_began_it() {
    let mut yard = SmallYard::new();
    yard.walks(OPERATOR, "2026-03-02T07:00", ROUND, vec![]);
    yard.walks(OTHER, "2026-03-02T07:01", ROUND, vec![]);
    yard.closes(OTHER, "2026-03-02T07:30", ROUND, vec![]);
    assert_eq!(of_the_round(&yard, OPERATOR), ["not-answered"]);
    assert_eq!(of_the_round(&yard, OTHER), ["not-walked"]);
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
