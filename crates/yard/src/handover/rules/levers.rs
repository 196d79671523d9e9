//! A lever or pedal does not return.
//!
//! What: a lever or pedal that does not work or does not return to neutral stands the machine
//! down; a stiff one is run with care.
//!
//! Why: the machine goes on moving after the hand has let go.
//!
//! Source: operator's check tables: cycle every control, not smooth is a fault; common
//! practice.
//!
//! Example: case `levers`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::About,
    entry::{Answer, FunctionState},
};

pub(super) const RULE: Rule = Rule {
    id: "levers",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "levers",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let about = seen.about().filter(|about| *about == About::Levers)?;
    let Answer::Function(state) = seen.answer()? else {
        return None;
    };
    let what = What::Function(about, *state);
    match state {
        FunctionState::Works => None,
        FunctionState::Weak => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::LIFE,
            what,
        )),
        FunctionState::Fails => Some(Weight::down(weight::LIFE, what)),
    }
}
