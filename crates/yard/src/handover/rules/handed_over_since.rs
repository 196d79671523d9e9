//! Handed over or run by somebody else since the round.
//!
//! What: a round is for one start: it ends when the machine is handed over, or when somebody
//! else runs it.
//!
//! Why: what the last user did to it came after the look.
//!
//! Source: operator's check tables: the next operator checks again.
//!
//! Example: case `handed-over-since`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What};

pub(super) const RULE: Rule = Rule {
    id: "handed-over-since",
    looks_at: LooksAt::Round,
    source: Source::ArmyTables,
    example: "handed-over-since",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    // From its beginning: what was looked at first is as old as that.
    let Some(begun) = context.closed_round().map(|round| round.begun) else {
        return Vec::new();
    };
    let machine = situation.machine;
    let handed_over = machine
        .handover
        .as_ref()
        .is_some_and(|(_, at, ..)| *at > begun);
    let run_by_other = machine
        .ran_by
        .iter()
        .any(|(who, at)| *who != situation.person && *at > begun);
    if handed_over || run_by_other {
        vec![Weight::unknown_down(What::HandedOverSince).plain(RULE.id)]
    } else {
        Vec::new()
    }
}
