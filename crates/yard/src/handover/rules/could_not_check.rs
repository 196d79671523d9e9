//! A point could not be checked.
//!
//! What: a point answered "could not check" stands the machine down where it bears on safety,
//! else it is run with care.
//!
//! Why: an honest "I do not know" is worth more than a tick; it is still not known.
//!
//! Source: operator's check tables: when in doubt, ask.
//!
//! Example: case `could-not-check`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, What, each_unknown};

pub(super) const RULE: Rule = Rule {
    id: "could-not-check",
    looks_at: LooksAt::Round,
    source: Source::ArmyTables,
    example: "could-not-check",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_unknown(RULE.id, context, |what| {
        matches!(what, What::CouldNotCheck(_))
    })
}
