//! The seat belt or the roll-over structure is not in order.
//!
//! What: a belt or structure that is damaged, missing or does not hold stands the machine down.
//!
//! Why: the structure saves only who stays inside it.
//!
//! Source: operator's check tables: a cut or frayed belt is renewed as a whole.
//!
//! Example: case `seat-belt`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{Context, Reason, Situation, each_open, must_work};

pub(super) const RULE: Rule = Rule {
    id: "seat-belt",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "seat-belt",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| must_work(seen, About::SeatBelt))
}
