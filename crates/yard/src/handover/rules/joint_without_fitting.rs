//! A moving joint has no known fitting.
//!
//! What: a joint that is neither sealed nor runs in oil and that no fitting feeds is run with
//! care until the fitting is found, the book says otherwise, or the steward accepts the gap.
//!
//! Why: whatever moves has a fitting; the one nobody knows is the one that runs dry.
//!
//! Source: common practice, no source.
//!
//! Example: case `joint-without-fitting`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use crate::{
    book::{GapCode, joints_to_find},
    id::ItemId,
};

pub(super) const RULE: Rule = Rule {
    id: "joint-without-fitting",
    looks_at: LooksAt::Book,
    source: Source::CommonPractice,
    example: "joint-without-fitting",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let joints = context.book.map(joints_to_find).unwrap_or_default();
    let weight = |joint: &ItemId| {
        Weight::care(
            weight::UNKNOWN,
            What::JointWithoutFitting {
                joint: joint.clone(),
            },
        )
    };
    let open = joints
        .into_iter()
        .filter(|joint| !is_accepted(situation, joint));
    open.map(|joint| {
        Weight {
            unknown: true,
            ..weight(joint)
        }
        .plain(RULE.id)
    })
    .collect()
}

/// Whether the steward accepted not to know it, with a reason.
fn is_accepted(situation: &Situation, joint: &ItemId) -> bool {
    let gap = format!("{}:{joint}", GapCode::JointWithoutFitting.code());
    situation.machine.accepted_gaps.contains_key(&gap)
}
