//! Something that must work is weak or fails.
//!
//! What: what fails stands the machine down where it bears on safety; else it is run with care,
//! as is what works weakly, unless the book says otherwise.
//!
//! Why: the rules of its own for brakes, steering, belt, guards, locks, levers and oil pressure
//! come first; this one is for the rest.
//!
//! Source: common practice, no source.
//!
//! Example: case `function`.

use super::{LooksAt, Rule, Source};
use crate::handover::{
    Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, is_must_work, weight,
};
use crate::{
    book::About,
    entry::{Answer, FunctionState},
};

pub(super) const RULE: Rule = Rule {
    id: "function",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "function",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Function(state) = seen.answer()? else {
        return None;
    };
    if is_must_work(seen.about())
        || matches!(seen.about(), Some(About::Levers | About::OilPressure))
    {
        return None;
    }
    let safety = seen.about().is_none_or(About::bears_on_safety);
    let usual = if safety {
        Verdict::StandDown
    } else {
        Verdict::Care
    };
    let what = What::Function(seen.about().unwrap_or(About::Other), *state);
    match state {
        FunctionState::Works => None,
        FunctionState::Weak => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        FunctionState::Fails => Some(Weight::by_book(seen.point, usual, weight::MACHINE, what)),
    }
}
