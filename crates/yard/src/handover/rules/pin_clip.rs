//! A pin clip is missing or loose.
//!
//! What: a missing clip stands the machine down; one that is loose, worn or makeshift is run
//! with care until mended.
//!
//! Why: the clip costs next to nothing; the pin that walks out bends shafts and tears castings.
//!
//! Source: owners' accounts of a lost split pin that tore two bolt holes out of a casting;
//! common practice.
//!
//! Example: case `pin-clip`.

use super::{LooksAt, Rule, Source};
use crate::entry::{Answer, ClipState};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "pin-clip",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "pin-clip",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match seen.answer()? {
        Answer::PinClip(state @ ClipState::Missing) => {
            Some(Weight::down(weight::LIFE, What::PinClip(*state)))
        }
        Answer::PinClip(state @ ClipState::Loose) => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::LIFE,
            What::PinClip(*state),
        )),
        _ => None,
    }
}
