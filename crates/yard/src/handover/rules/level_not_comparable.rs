//! A level was read in another pose or at another heat than its mark's.
//!
//! What: a level read with the rods elsewhere, or at another oil temperature, than the mark is
//! made for is not known; unless the book's rods and tank show that it holds in the mark's pose
//! all the more.
//!
//! Why: rods that are out hold oil: the same tank then reads low, and someone tops it up until
//! it spills.
//!
//! Source: trade press and makers' manuals: read the level in the maker's pose only.
//!
//! Example: case `level-not-comparable`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, What, each_unknown};

pub(super) const RULE: Rule = Rule {
    id: "level-not-comparable",
    looks_at: LooksAt::Round,
    source: Source::TradePress,
    example: "level-not-comparable",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_unknown(RULE.id, context, |what| {
        matches!(what, What::LevelPose { .. } | What::LevelHeat)
    })
}
