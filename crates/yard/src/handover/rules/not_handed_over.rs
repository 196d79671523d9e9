//! The last user did not hand it over.
//!
//! What: a machine that was never handed over, or was run after its last handover by somebody
//! else or until that run ended, is run with care.
//!
//! Why: nobody said in what state it stands.
//!
//! Source: the yard's own rule.
//!
//! Example: case `not-handed-over`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};

pub(super) const RULE: Rule = Rule {
    id: "not-handed-over",
    looks_at: LooksAt::Handover,
    source: Source::YardsOwn,
    example: "not-handed-over",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let machine = situation.machine;
    let own_run = machine
        .running
        .is_some_and(|(who, _)| who == situation.person);
    let left_off = |at: jiff::Timestamp| machine.last_run.is_some_and(|(_, used)| used > at);
    let told = machine
        .handover
        .as_ref()
        .is_some_and(|(_, at, ..)| own_run || !left_off(*at));
    if told {
        return Vec::new();
    }
    let what = match machine.handover {
        Some(_) => What::UsedSinceHandover,
        None => What::NotHandedOver,
    };
    let weight = Weight {
        unknown: true,
        ..Weight::care(weight::UNKNOWN, what)
    };
    vec![weight.plain(RULE.id)]
}
