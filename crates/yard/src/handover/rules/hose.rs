//! A hose is bulged, worn through or rubbed.
//!
//! What: a bulged hose, or one worn through to the wire, stands the machine down; a rubbed
//! cover is run with care.
//!
//! Why: it bursts next, under pressure that goes through skin.
//!
//! Source: operator's check tables: worn, leaking or bulged hoses are renewed before use.
//!
//! Example: case `hose`.

use super::{LooksAt, Rule, Source};
use crate::entry::{Answer, HoseState};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "hose",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "hose",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Hose(state) = seen.answer()? else {
        return None;
    };
    let what = What::Hose(*state);
    match state {
        HoseState::Sound => None,
        HoseState::Rubbed => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::LIFE,
            what,
        )),
        HoseState::WornThrough | HoseState::Bulged => Some(Weight::down(weight::LIFE, what)),
    }
}
