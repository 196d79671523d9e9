//! The engine was left running.
//!
//! What: a machine handed over with its engine running stands down until somebody has walked it
//! round since, and is run with care even then.
//!
//! Why: two people were killed in the same way: boom up, engine idling, something fell on the
//! swing pedal.
//!
//! Source: an inquiry into two deaths at swing pedals.
//!
//! Example: case `left-running`.

use super::{LooksAt, Rule, Source};
use crate::entry::{EngineLeft, RoundPurpose};
use crate::handover::{Context, Reason, Situation, Verdict, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "left-running",
    looks_at: LooksAt::Handover,
    source: Source::Accident,
    example: "left-running",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let machine = situation.machine;
    let Some((entry, at, _, handover)) = &machine.handover else {
        return Vec::new();
    };
    if handover.engine != EngineLeft::Running {
        return Vec::new();
    }
    let starts = machine
        .rounds
        .values()
        .filter(|round| round.purpose != RoundPurpose::After);
    let walked = starts
        .filter_map(|round| round.closed)
        .any(|(closed, ..)| closed > *at);
    let weighs = if walked {
        Verdict::Care
    } else {
        Verdict::StandDown
    };
    vec![
        Weight {
            weighs,
            ..Weight::down(weight::LIFE, What::LeftRunning)
        }
        .of_entry(RULE.id, *entry),
    ]
}
