//! What keeps people alive must be in order, all of it: one way of weighing for brakes, steering, belt, guards, locks, coupling
//! and what keeps current off people.

use super::{Seen, Verdict, Weight, What, outside, weight};
use crate::{
    book::About,
    entry::{Answer, FunctionState, LookState},
};

/// Stands down at once what works weakly or not at all, is damaged, missing, or measures outside its limit. Wear that can
/// wait is run with care, unless the book makes more of it.
pub(super) fn must_work(seen: &Seen, about: About) -> Option<Weight> {
    if seen.about() != Some(about) {
        return None;
    }
    match seen.answer()? {
        Answer::Function(FunctionState::Works) | Answer::Look(LookState::Well) => None,
        Answer::Function(state) => Some(Weight::down(weight::LIFE, What::Function(about, *state))),
        Answer::Look(state @ LookState::Worn) => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::LIFE,
            What::Look(about, *state),
        )),
        Answer::Look(state) => Some(Weight::down(weight::LIFE, What::Look(about, *state))),
        Answer::Measure { .. } => outside(seen).map(|what| Weight::down(weight::LIFE, what)),
        _ => None,
    }
}

/// Whether what bears on this must work fully, so that even a weak or worn one stands the machine down at once.
pub fn is_must_work(about: Option<About>) -> bool {
    matches!(
        about,
        Some(
            About::Brakes
                | About::Steering
                | About::SeatBelt
                | About::Guards
                | About::Locks
                | About::Coupling
                | About::Shock
        )
    )
}
