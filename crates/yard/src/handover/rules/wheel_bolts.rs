//! A wheel nut or a bolt of the tracks is loose or missing.
//!
//! What: loose or missing wheel nuts and track bolts stand the machine down.
//!
//! Why: a loose one takes its neighbours with it, and then the wheel comes off.
//!
//! Source: operator's check tables (shoe bolts: none loose); an owner's account of a wheel
//! lost.
//!
//! Example: case `wheel-bolts`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};
use crate::{
    book::About,
    entry::{Answer, BoltState},
};

pub(super) const RULE: Rule = Rule {
    id: "wheel-bolts",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "wheel-bolts",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match (seen.about()?, seen.answer()?) {
        (
            About::Wheels | About::Tracks,
            Answer::Bolts {
                state: state @ (BoltState::Loose | BoltState::Missing),
                how_many,
            },
        ) => Some(Weight::down(weight::LIFE, What::Bolts(*state, *how_many))),
        _ => None,
    }
}
