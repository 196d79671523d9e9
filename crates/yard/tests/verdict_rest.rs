//! How a machine is left: what is at rest and what never can be; lock pins at rest and before digging.
#![allow(clippy::unwrap_used)]

mod verdict_bench;

use std::collections::BTreeMap;
use verdict_bench::{book, handover, item};
use yard::{
    book::{Book, RestKind},
    entry::{EngineLeft, Handover, RestAnswer, RestState},
    handover::{
        Verdict, What,
        rest::{AtRest, LockFound, at_rest, before_digging, judge},
    },
};

const STATES: [RestState; 4] = [
    RestState::Proven,
    RestState::Done,
    RestState::NotDone,
    RestState::OnLock,
];

fn with(step: &str, state: RestState, note: Option<&str>) -> Handover {
    let mut left = handover();
    left.steps.retain(|answer| answer.step != item(step));
    left.steps.push(RestAnswer {
        step: item(step),
        state,
        note: note.map(str::to_owned),
    });
    left
}

fn against(book: &Book, left: &Handover) -> Vec<(Verdict, What)> {
    judge(book, left)
        .into_iter()
        .map(|reason| (reason.weighs, reason.what))
        .collect()
}

#[test]
fn every_step_proven_is_at_rest() {
    assert_eq!(at_rest(&book(), &handover()), AtRest::Yes);
}

/// Whatever else is said: an engine that runs, or of which nobody spoke, is never at rest (two deaths, boom up and engine
/// idling).
#[test]
fn an_engine_that_runs_is_never_at_rest() {
    for engine in [EngineLeft::Running, EngineLeft::NotSaid] {
        for state in STATES {
            let left = Handover {
                engine,
                ..with("lowered", state, Some("as it was"))
            };
            let AtRest::No(reasons) = at_rest(&book(), &left) else {
                panic!("{engine:?} {state:?} is at rest")
            };
            assert_eq!(reasons[0].weighs, Verdict::StandDown);
        }
    }
}

#[test]
fn without_any_rest_order_a_running_engine_is_still_not_at_rest() {
    let book = Book {
        rest: Vec::new(),
        ..book()
    };
    let left = Handover {
        engine: EngineLeft::Running,
        steps: Vec::new(),
        ..handover()
    };
    assert_ne!(at_rest(&book, &left), AtRest::Yes);
}

#[test]
fn raised_is_at_rest_only_on_a_proven_lock() {
    let on_lock = with("lowered", RestState::OnLock, None);
    assert_eq!(at_rest(&book(), &on_lock), AtRest::Yes);
    for state in [RestState::Done, RestState::NotDone, RestState::OnLock] {
        let mut left = on_lock.clone();
        left.steps
            .iter_mut()
            .filter(|answer| answer.step == item("swing-lock"))
            .for_each(|answer| answer.state = state);
        assert_ne!(at_rest(&book(), &left), AtRest::Yes, "lock {state:?}");
    }
    let mut no_lock = book();
    no_lock.rest.retain(|step| step.is != RestKind::Lock);
    let mut left = on_lock;
    left.steps
        .retain(|answer| answer.step != item("swing-lock"));
    assert_ne!(at_rest(&no_lock, &left), AtRest::Yes, "nothing holds it up");
}

#[test]
fn only_lowering_can_be_answered_by_a_lock() {
    for step in [
        "neutral",
        "brake",
        "swing-lock",
        "battery-off",
        "engine-off",
    ] {
        assert_ne!(
            at_rest(&book(), &with(step, RestState::OnLock, None)),
            AtRest::Yes,
            "{step}"
        );
    }
}

#[test]
fn done_is_enough_only_where_the_book_asks_for_no_proof() {
    assert_ne!(
        at_rest(&book(), &with("brake", RestState::Done, None)),
        AtRest::Yes
    );
    assert_eq!(
        at_rest(&book(), &with("engine-off", RestState::Done, None)),
        AtRest::Yes
    );
}

#[test]
fn a_step_nobody_answered_is_not_known() {
    let mut left = handover();
    left.steps.retain(|answer| answer.step != item("neutral"));
    let reasons = judge(&book(), &left);
    assert_eq!(reasons.len(), 1);
    assert!(reasons[0].unknown);
    assert_eq!(
        reasons[0].what,
        What::LeftNotAtRest {
            step: item("neutral")
        }
    );
}

#[test]
fn not_clean_is_enough_with_the_reason_why() {
    assert_eq!(
        at_rest(
            &book(),
            &with("clean", RestState::NotDone, Some("the tap is frozen"))
        ),
        AtRest::Yes
    );
    assert_ne!(
        at_rest(&book(), &with("clean", RestState::NotDone, Some("  "))),
        AtRest::Yes
    );
    assert_ne!(
        at_rest(&book(), &with("clean", RestState::NotDone, None)),
        AtRest::Yes
    );
}

/// Levers are worked after stopping only where the book has that step: said without it, somebody asks.
#[test]
fn levers_worked_without_a_step_of_the_book_is_asked_about() {
    let left = with("levers-worked", RestState::Proven, None);
    assert_eq!(
        against(&book(), &left),
        [(
            Verdict::Care,
            What::StepNotInBook {
                step: item("levers-worked")
            }
        )]
    );
}

/// One pin, two right states. Handed over stowed: red. About to dig with the pin in: red.
#[test]
fn a_lock_pin_is_in_at_rest_and_stowed_to_dig() {
    let stowed = with("swing-lock", RestState::NotDone, Some("in its holder"));
    let wrong = |right_is: &str| What::LockWrong {
        step: item("swing-lock"),
        right_is: Some(right_is.to_owned()),
    };
    assert_eq!(
        against(&book(), &stowed),
        [(Verdict::StandDown, wrong("swing lock"))]
    );

    let found = |state| BTreeMap::from([(item("swing-lock"), state)]);
    let pin_in = before_digging(&book(), &found(LockFound::In));
    assert_eq!(
        (pin_in.len(), pin_in[0].weighs, &pin_in[0].what),
        (1, Verdict::StandDown, &wrong("out and stowed"))
    );
    assert_eq!(before_digging(&book(), &found(LockFound::Stowed)), []);

    let nobody_looked = before_digging(&book(), &BTreeMap::new());
    assert!(nobody_looked[0].unknown && nobody_looked[0].weighs == Verdict::StandDown);
}

/// The worse a step was left, the worse the handover: no state is better than proven, none worse than not done.
#[test]
fn no_answer_is_better_than_proven() {
    let worst = |left: &Handover| {
        judge(&book(), left)
            .iter()
            .map(|reason| reason.weighs)
            .max()
            .unwrap_or(Verdict::Fit)
    };
    for step in &book().rest {
        for state in STATES {
            let left = with(step.id.as_str(), state, None);
            assert!(worst(&left) >= worst(&handover()), "{} {state:?}", step.id);
            assert!(
                worst(&left) <= worst(&with(step.id.as_str(), RestState::NotDone, None)),
                "{} {state:?}",
                step.id
            );
        }
    }
}
