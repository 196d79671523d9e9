//! The machine was not left at rest.
//!
//! What: a step of the rest order that the last handover left out or did not prove, or an
//! engine nobody spoke of, is run with care.
//!
//! Why: left in gear by somebody who did not know better, it climbs a wall at the next start.
//!
//! Source: owners' accounts of machines left in gear; an inquiry into deaths at swing pedals.
//!
//! Example: case `left-not-at-rest`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Verdict, What, rest};

pub(super) const RULE: Rule = Rule {
    id: "left-not-at-rest",
    looks_at: LooksAt::Handover,
    source: Source::Accident,
    example: "left-not-at-rest",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let (Some(book), Some((entry, _, _, handover))) = (context.book, &situation.machine.handover)
    else {
        return Vec::new();
    };
    let left = rest::judge(book, handover)
        .into_iter()
        .filter(|reason| reason.what != What::LeftRunning);
    let since = |reason: Reason| Reason {
        rule: RULE.id,
        weighs: reason.weighs.min(Verdict::Care),
        finding: Some(crate::id::FaultRef {
            entry: *entry,
            point: None,
        }),
        ..reason
    };
    left.map(since).collect()
}
