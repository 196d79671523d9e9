//! Mended, and not yet released.
//!
//! What: what stood the machine down and was mended still stands it down until steward or
//! deputy release it by name. A level topped up and a fitting that takes grease again are proof
//! enough in themselves.
//!
//! Why: a second pair of eyes before the first start: who mended it is the last to see the
//! mistake.
//!
//! Source: the yard's own rule; common practice with locks and tags.
//!
//! Example: case `not-released`.

use super::{LooksAt, Rule, Source};
use crate::entry::LevelReads;
use crate::handover::{Context, Reason, Situation, Weight, What, stood_down, weight};

pub(super) const RULE: Rule = Rule {
    id: "not-released",
    looks_at: LooksAt::Findings,
    source: Source::YardsOwn,
    example: "not-released",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    stood_down(situation, context, &context.mended)
        .into_iter()
        .filter(|reason| !mending_is_proof(&reason.what))
        .map(waits)
        .collect()
}

fn mending_is_proof(what: &What) -> bool {
    matches!(what, What::Level(LevelReads::Below) | What::Refused { .. })
}

fn waits(reason: Reason) -> Reason {
    let Reason { point, finding, .. } = reason;
    Reason {
        point,
        finding,
        ..Weight::down(weight::FORMAL, What::NotReleased).plain(RULE.id)
    }
}
