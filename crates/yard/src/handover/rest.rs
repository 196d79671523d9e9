//! How the machine was left, judged by the book's rest order; and the same locks before digging.
//!
//! A lock pin has two right states: in at rest and on the road, out and stowed to dig. An engine that runs, or of which
//! nobody spoke, is never at rest.

use super::{Reason, Verdict, Weight, What, weight};
use crate::{
    book::{Book, RestKind, RestStep, Without},
    entry::{EngineLeft, Handover, RestAnswer, RestState},
    id::ItemId,
};
use std::collections::BTreeMap;

const RULE: &str = "left-not-at-rest";

/// Whether a machine was left at rest.
#[derive(Clone, Debug, PartialEq)]
pub enum AtRest {
    /// Every step is proven, or left with a reason where that is enough.
    Yes,
    /// Not at rest, because; worst first.
    No(Vec<Reason>),
}

/// Where a lock pin was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LockFound {
    /// In its hole, with its clip.
    In,
    /// Out, in its holder.
    Stowed,
}

/// Whether the handover leaves the machine at rest.
pub fn at_rest(book: &Book, handover: &Handover) -> AtRest {
    let against: Vec<Reason> = judge(book, handover)
        .into_iter()
        .filter(|reason| reason.weighs > Verdict::Fit)
        .collect();
    if against.is_empty() {
        AtRest::Yes
    } else {
        AtRest::No(against)
    }
}

/// What speaks against the state the machine was left in: the engine first, then steps in the order of the book, then
/// answers to steps the book does not have. Reasons that weigh fit are only shown (not clean, with the reason why).
pub fn judge(book: &Book, handover: &Handover) -> Vec<Reason> {
    let engine = match handover.engine {
        _ if book.lacks(Without::Engine) => None,
        EngineLeft::Off => None,
        EngineLeft::Running => Some(Weight::down(weight::LIFE, What::LeftRunning)),
        EngineLeft::NotSaid => Some(Weight {
            unknown: true,
            ..Weight::down(weight::LIFE, What::EngineNotSaid)
        }),
    };
    let steps = book
        .rest
        .iter()
        .filter_map(|step| against(book, handover, step));
    let known = |answer: &&RestAnswer| book.rest.iter().any(|step| step.id == answer.step);
    let strange = handover
        .steps
        .iter()
        .filter(|answer| !known(answer))
        .map(|answer| {
            let what = What::StepNotInBook {
                step: answer.step.clone(),
            };
            Weight {
                unknown: true,
                ..Weight::care(weight::FORMAL, what)
            }
        });
    let mut reasons: Vec<Reason> = engine
        .into_iter()
        .chain(steps)
        .chain(strange)
        .map(|weight| weight.plain(RULE))
        .collect();
    reasons.sort_by_key(|reason| (std::cmp::Reverse(reason.weighs), reason.rank));
    reasons
}

/// What speaks against digging: each lock whose state to dig differs from that at rest must be found in the former. A lock
/// nobody looked at is not known.
pub fn before_digging(book: &Book, found: &BTreeMap<ItemId, LockFound>) -> Vec<Reason> {
    let locks = book
        .rest
        .iter()
        .filter(|step| step.is == RestKind::Lock && step.to_dig.is_some());
    let wrong = locks.filter_map(|step| match found.get(&step.id) {
        Some(LockFound::Stowed) => None,
        Some(LockFound::In) => Some(Weight::down(
            weight::LIFE,
            lock_wrong(step, step.to_dig.clone()),
        )),
        None => Some(Weight::unknown_down(lock_wrong(step, step.to_dig.clone()))),
    });
    wrong.map(|weight| weight.plain("locks")).collect()
}

fn lock_wrong(step: &RestStep, right_is: Option<String>) -> What {
    What::LockWrong {
        step: step.id.clone(),
        right_is,
    }
}

/// What speaks against one step of the rest order.
fn against(book: &Book, handover: &Handover, step: &RestStep) -> Option<Weight> {
    let answer = last_answer(handover, &step.id);
    if answer.is_some_and(|answer| is_done(book, handover, step, answer)) {
        return None;
    }
    let what = What::LeftNotAtRest {
        step: step.id.clone(),
    };
    Some(match (step.is, answer) {
        (RestKind::Lock, Some(answer)) if answer.state == RestState::NotDone => {
            Weight::down(weight::LEFT, lock_wrong(step, Some(step.what.clone())))
        }
        // Not greased or not clean hurts nobody at once: the reason why is enough.
        (RestKind::Greased | RestKind::Clean | RestKind::Other, Some(answer))
            if has_reason(answer) =>
        {
            Weight {
                weighs: Verdict::Fit,
                ..Weight::care(weight::FORMAL, what)
            }
        }
        (RestKind::Greased | RestKind::Clean | RestKind::Other, _) => {
            Weight::care(weight::FORMAL, what)
        }
        (_, None) => Weight {
            unknown: true,
            ..Weight::care(weight::UNKNOWN, what)
        },
        _ => Weight::care(weight::LEFT, what),
    })
}

/// The last answer to a step; a form answers each once.
fn last_answer<'a>(handover: &'a Handover, step: &ItemId) -> Option<&'a RestAnswer> {
    handover.steps.iter().rfind(|answer| answer.step == *step)
}

/// Whether the step is done, with its proof where the book names one. Raised counts only on locks that are proven.
fn is_done(book: &Book, handover: &Handover, step: &RestStep, answer: &RestAnswer) -> bool {
    match answer.state {
        RestState::Proven => true,
        RestState::Done => step.proof.is_none(),
        RestState::OnLock => step.is == RestKind::Lowered && locks_are_proven(book, handover),
        RestState::NotDone => false,
    }
}

fn locks_are_proven(book: &Book, handover: &Handover) -> bool {
    let proven = |step: &RestStep| {
        last_answer(handover, &step.id).is_some_and(|answer| answer.state == RestState::Proven)
    };
    let mut locks = book
        .rest
        .iter()
        .filter(|step| step.is == RestKind::Lock)
        .peekable();
    locks.peek().is_some() && locks.all(proven)
}

fn has_reason(answer: &RestAnswer) -> bool {
    answer
        .note
        .as_ref()
        .is_some_and(|note| !note.trim().is_empty())
}
