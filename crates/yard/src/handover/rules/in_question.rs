//! An answer does not fit its point.
//!
//! What: an answer that does not fit the kind of its point, or names no point of the book,
//! counts for nothing until steward or deputy have said what is so.
//!
//! Why: what a person wrote is never thrown away, and never guessed at.
//!
//! Source: the yard's own rule.
//!
//! Example: case `in-question`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Weight, What, each_unknown};
use crate::state::Asks;

pub(super) const RULE: Rule = Rule {
    id: "in-question",
    looks_at: LooksAt::Round,
    source: Source::YardsOwn,
    example: "in-question",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let mut reasons = each_unknown(RULE.id, context, |what| !is_known_kind(what));
    let questions = situation.machine.asked();
    reasons.extend(questions.filter_map(|question| {
        let (Asks::Misfit { point } | Asks::NoSuchPoint { point }) = &question.asks else {
            return None;
        };
        let of_book = context
            .book
            .and_then(|book| book.points.iter().find(|known| known.id == *point));
        let reason = Weight::unknown(of_book, What::InQuestion).of_entry(RULE.id, question.entry);
        Some(Reason {
            point: Some(point.clone()),
            ..reason
        })
    }));
    reasons
}

/// Whether another rule speaks of this unknown.
fn is_known_kind(what: &What) -> bool {
    matches!(
        what,
        What::CouldNotCheck(_)
            | What::LevelPose { .. }
            | What::LevelHeat
            | What::OtherMethod
            | What::ConditionNotHeld
            | What::NotComparable
            | What::TooClose { .. }
            | What::CrankNotTried
    )
}
