//! The starting switch is bypassed.
//!
//! What: a starting switch that was found bridged or bypassed stands the machine down, even
//! where the truth table came out right.
//!
//! Why: it then starts in any gear, from the ground, with somebody in front of the track.
//!
//! Source: owners' accounts of machines started across the starter: walls climbed, a man
//! killed.
//!
//! Example: case `switch-bypassed`.

use super::{LooksAt, Rule, Source};
use crate::entry::Answer;
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "switch-bypassed",
    looks_at: LooksAt::Findings,
    source: Source::Accident,
    example: "switch-bypassed",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match seen.answer()? {
        Answer::Crank { bypassed: true, .. } => {
            Some(Weight::down(weight::LIFE, What::SwitchBypassed))
        }
        _ => None,
    }
}
