//! Nobody walked it round for this start.
//!
//! What: the person who asks has not walked the machine round before this start, or has not
//! finished.
//!
//! Why: unknown is never fit.
//!
//! Source: operator's check tables: checks before operation, by the operator.
//!
//! Example: case `not-walked`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, others_round};

pub(super) const RULE: Rule = Rule {
    id: "not-walked",
    looks_at: LooksAt::Round,
    source: Source::ArmyTables,
    example: "not-walked",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let walked = context.closed_round().is_some();
    let elsewhere =
        context.own.is_none() && others_round(situation).is_some();
    if walked || elsewhere {
        Vec::new()
    } else {
        vec![Weight::unknown_down(What::NotWalked).plain(RULE.id)]
    }
}
