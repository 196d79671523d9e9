//! Whether an engine stays off while a machine is walked round.

use super::{LooksAt, RULES, Reason, Verdict};

/// Whether a reason keeps the engine off in a round too: something that was found, something the book must say first, or the
/// person. What the round itself is to tell does not.
pub fn keeps_engine_off(reason: &Reason) -> bool {
    let looks_at = RULES
        .iter()
        .find(|rule| rule.id == reason.rule)
        .map(|rule| rule.looks_at);
    let found = reason.finding.is_some() && !reason.unknown;
    let before = matches!(looks_at, Some(LooksAt::Book | LooksAt::Person));
    reason.weighs == Verdict::StandDown && (found || before)
}
