//! Oil pressure is low.
//!
//! What: a gauge or lamp that is not well, or a measured pressure under its limit, stands the
//! machine down.
//!
//! Why: without pressure an engine lasts seconds, not minutes.
//!
//! Source: operator's check tables (oil pressure after start); common practice.
//!
//! Example: case `oil-pressure`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, outside, weight};
use crate::{
    book::About,
    entry::{Answer, FunctionState, LookState},
};
use quantity::Side;

pub(super) const RULE: Rule = Rule {
    id: "oil-pressure",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "oil-pressure",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let about = seen.about().filter(|about| *about == About::OilPressure)?;
    let what = match seen.answer()? {
        Answer::Function(state @ (FunctionState::Weak | FunctionState::Fails)) => {
            What::Function(about, *state)
        }
        Answer::Look(state @ (LookState::Damaged | LookState::Missing)) => {
            What::Look(about, *state)
        }
        Answer::Measure { .. } => outside(seen).filter(is_under)?,
        _ => return None,
    };
    Some(Weight::down(weight::MACHINE, what))
}

fn is_under(what: &What) -> bool {
    matches!(
        what,
        What::Outside {
            side: Side::Under,
            ..
        }
    )
}
