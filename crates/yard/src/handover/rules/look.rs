//! Something looked at is damaged, missing or worn.
//!
//! What: what is damaged or missing stands the machine down where it bears on safety, else it
//! is run with care; wear that can wait is only shown. The book may say otherwise.
//!
//! Why: the rules of its own for brakes, steering, belt, guards and locks come first; this one
//! is for the rest.
//!
//! Source: common practice, no source.
//!
//! Example: case `look`.

use super::{LooksAt, Rule, Source};
use crate::handover::{
    Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, is_must_work, weight,
};
use crate::{
    book::About,
    entry::{Answer, LookState},
};

pub(super) const RULE: Rule = Rule {
    id: "look",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "look",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Look(state) = seen.answer()? else {
        return None;
    };
    let damaged = matches!(state, LookState::Damaged | LookState::Missing);
    if is_must_work(seen.about()) || (damaged && seen.about() == Some(About::OilPressure)) {
        return None;
    }
    let safety = seen.about().is_none_or(About::bears_on_safety);
    let what = What::Look(seen.about().unwrap_or(About::Other), *state);
    match state {
        LookState::Well => None,
        LookState::Worn => Some(Weight::by_book(
            seen.point,
            Verdict::Fit,
            weight::MACHINE,
            what,
        )),
        _ if safety => Some(Weight::by_book(
            seen.point,
            Verdict::StandDown,
            weight::MACHINE,
            what,
        )),
        _ => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
    }
}
