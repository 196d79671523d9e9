//! Only with steward or deputy in sight.
//!
//! What: a learner always, and an operator whose sign-off says so, run with the steward or the
//! deputy in sight.
//!
//! Why: somebody has to shout before the costly mistake.
//!
//! Source: the yard's own rule.
//!
//! Example: case `in-sight-only`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, sign_off, weight};
use crate::people::Role;

pub(super) const RULE: Rule = Rule {
    id: "in-sight-only",
    looks_at: LooksAt::Person,
    source: Source::YardsOwn,
    example: "in-sight-only",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let in_sight = match context.role {
        Role::Learner => true,
        Role::Operator => sign_off(situation).is_some_and(|given| given.in_sight),
        Role::Visitor | Role::Deputy | Role::Steward => false,
    };
    if in_sight {
        vec![Weight::care(weight::FORMAL, What::InSightOnly).plain(RULE.id)]
    } else {
        Vec::new()
    }
}
