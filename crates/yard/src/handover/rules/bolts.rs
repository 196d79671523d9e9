//! Bolts are missing, loose or have turned.
//!
//! What: missing or broken bolts stand the machine down; loose ones, and a paint stripe that
//! has turned, are run with care, unless the book says more.
//!
//! Why: what is left of the group carries the rest; the frame moves, then it tears.
//!
//! Source: an owner's account of a sub-frame: five of fourteen bolts broken, found by a stiff
//! gear lever; common practice.
//!
//! Example: case `bolts`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::About,
    entry::{Answer, BoltState},
};

pub(super) const RULE: Rule = Rule {
    id: "bolts",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "bolts",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Bolts { state, how_many } = seen.answer()? else {
        return None;
    };
    let of_wheels = matches!(seen.about(), Some(About::Wheels | About::Tracks));
    let what = What::Bolts(*state, *how_many);
    match state {
        BoltState::Missing if !of_wheels => Some(Weight::down(weight::MACHINE, what)),
        BoltState::Loose if !of_wheels => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        BoltState::StripeTurned => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        _ => None,
    }
}
