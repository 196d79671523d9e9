//! A measure was taken by another method than its limit's.
//!
//! What: a reading by another method, without the limit's condition, or in a unit that cannot
//! be compared, is not known.
//!
//! Why: the same sag read over another span is another number.
//!
//! Source: operator's check tables give the method with each limit.
//!
//! Example: case `measure-not-comparable`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, What, each_unknown};

pub(super) const RULE: Rule = Rule {
    id: "measure-not-comparable",
    looks_at: LooksAt::Round,
    source: Source::ArmyTables,
    example: "measure-not-comparable",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_unknown(RULE.id, context, |what| {
        matches!(
            what,
            What::OtherMethod | What::ConditionNotHeld | What::NotComparable
        )
    })
}
