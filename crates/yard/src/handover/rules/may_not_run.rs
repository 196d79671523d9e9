//! This person may not run machines.
//!
//! What: a visitor, and anybody the yard gave no role, may not run.
//!
//! Why: they were never shown how.
//!
//! Source: the yard's own rule: one table of what each role may do.
//!
//! Example: case `may-not-run`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use crate::people::{Deed, may};

pub(super) const RULE: Rule = Rule {
    id: "may-not-run",
    looks_at: LooksAt::Person,
    source: Source::YardsOwn,
    example: "may-not-run",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    if may(context.role, Deed::Run) {
        Vec::new()
    } else {
        vec![Weight::down(weight::FORMAL, What::MayNotRun).plain(RULE.id)]
    }
}
