//! A fluid is milky or the wrong one.
//!
//! What: milky or wrong fluid stands the machine down, whatever its level.
//!
//! Why: water in the oil freezes or strips the film; the pump is gone at the first start.
//!
//! Source: trade press: a pump destroyed by ice in the suction hose; milky oil is water churned
//! in.
//!
//! Example: case `oil-looks`.

use super::{LooksAt, Rule, Source};
use crate::entry::{Answer, FluidLooks};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "oil-looks",
    looks_at: LooksAt::Findings,
    source: Source::TradePress,
    example: "oil-looks",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    match seen.answer()? {
        Answer::Level {
            looks: looks @ (FluidLooks::Milky | FluidLooks::Wrong),
            ..
        } => Some(Weight::down(weight::MACHINE, What::Fluid(*looks))),
        _ => None,
    }
}
