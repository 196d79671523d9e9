//! What keeps current off people is not in order.
//!
//! What: an earth, a residual-current device, a socket or a cable that is damaged, missing or does
//! not work stands it down.
//!
//! Why: current through a person kills before anybody can let go.
//!
//! Source: operator's check tables: not earthed is out.
//!
//! Example: case `shock`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "shock",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "shock",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::Shock))
}
