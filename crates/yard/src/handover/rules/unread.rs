//! An entry does not read.
//!
//! What: an entry that does not read, or is of a kind this program does not know, is run with
//! care until somebody has read it.
//!
//! Why: it may say that the brakes are gone.
//!
//! Source: the yard's own rule.
//!
//! Example: case `unread`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, weight};
use crate::{id::EntryId, state::Asks};

pub(super) const RULE: Rule = Rule {
    id: "unread",
    looks_at: LooksAt::Journal,
    source: Source::YardsOwn,
    example: "unread",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let reason = |entry: EntryId, kind: &String| {
        let weight = Weight::care(weight::UNKNOWN, What::Unread { kind: kind.clone() });
        Weight {
            unknown: true,
            ..weight
        }
        .of_entry(RULE.id, entry)
    };
    let machine = situation.machine;
    let unreadable = machine.asked().filter_map(|question| match &question.asks {
        Asks::Unreadable { kind, .. } => Some(reason(question.entry, kind)),
        _ => None,
    });
    unreadable
        .chain(
            machine
                .unknown
                .iter()
                .map(|(entry, kind)| reason(*entry, kind)),
        )
        .collect()
}
