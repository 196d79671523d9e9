//! A finding that today's book no longer calls one.
//!
//! What: a finding that was never closed, and that today's book would call well or cannot
//! weigh, is run with care until somebody closes it by name.
//!
//! Why: nothing is closed by the mere passing of later entries, a new book among them.
//!
//! Source: the yard's own rule.
//!
//! Example: case `still-open`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};
use crate::{entry::Answer, walkround::Weighed};

pub(super) const RULE: Rule = Rule {
    id: "still-open",
    looks_at: LooksAt::Findings,
    source: Source::YardsOwn,
    example: "still-open",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let open = Weight::care(weight::FORMAL, What::StillOpen);
    match (&seen.weighed, seen.answer()?) {
        (None, Answer::Measure { .. }) | (Some(Weighed::Well), _) => Some(open),
        _ => None,
    }
}
