//! A guard is missing, damaged or does not hold.
//!
//! What: a guard or shield that is not in its place stands the machine down.
//!
//! Why: what turns takes hands and clothes with it.
//!
//! Source: operator's check tables; common practice.
//!
//! Example: case `guards`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "guards",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "guards",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Guards))
}
