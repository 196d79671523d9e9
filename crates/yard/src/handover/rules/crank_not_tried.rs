//! A combination of the starting check was not tried.
//!
//! What: a combination of the truth table that nobody tried leaves the neutral lock unknown.
//!
//! Why: it is the untried one that starts in gear.
//!
//! Source: a maker's check of the neutral lock.
//!
//! Example: case `crank-not-tried`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, What, each_unknown};

pub(super) const RULE: Rule = Rule {
    id: "crank-not-tried",
    looks_at: LooksAt::Round,
    source: Source::MakersCheck,
    example: "crank-not-tried",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_unknown(RULE.id, context, |what| matches!(what, What::CrankNotTried))
}
