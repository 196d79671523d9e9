//! This person is not signed off on this machine.
//!
//! What: an operator runs only machines the steward signed them off on, and only while that
//! holds. Steward and deputy need no sign-off; a learner runs in sight.
//!
//! Why: no two old machines have their levers alike.
//!
//! Source: yards that keep a list of drivers: key withdrawn on doubt.
//!
//! Example: case `not-signed-off`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, sign_off, weight};
use crate::people::Role;

pub(super) const RULE: Rule = Rule {
    id: "not-signed-off",
    looks_at: LooksAt::Person,
    source: Source::TradePress,
    example: "not-signed-off",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    if context.role != Role::Operator || sign_off(situation).is_some() {
        return Vec::new();
    }
    vec![Weight::down(weight::FORMAL, What::NotSignedOff).plain(RULE.id)]
}
