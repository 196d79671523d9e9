//! Rulings: what the steward or the deputy settled, by the entry that raised the question.

use super::{
    super::{Asks, Question},
    corrections::{Heard, RoleOf},
};
use crate::{
    entry::{Body, RulingSays},
    id::{EntryId, FaultRef},
    people::Deed,
};
use std::collections::BTreeMap;

/// All rulings by people entitled to settle, the last in order for each entry.
#[derive(Debug, Default)]
pub(super) struct Rulings<'a> {
    by_entry: BTreeMap<EntryId, &'a RulingSays>,
    /// Rulings by people who may not settle.
    pub(super) refused: Vec<Question>,
}

/// Gathers the rulings among these entries. They are known before the fold begins, so that one ruling settles everything
/// that follows from the entry it is about.
pub(super) fn gather<'a>(heard: &[Heard<'a>], role: &RoleOf<'_>) -> Rulings<'a> {
    let mut rulings = Rulings::default();
    for one in heard {
        let Some(Body::Ruling(ruling)) = one.body else {
            continue;
        };
        if one.may(Deed::Settle, role) {
            rulings.by_entry.insert(ruling.about, &ruling.says);
        } else {
            let asks = Asks::NotEntitled {
                of: FaultRef {
                    entry: ruling.about,
                    point: None,
                },
            };
            rulings.refused.push(Question::by(one.entry, asks));
        }
    }
    rulings
}

impl<'a> Rulings<'a> {
    /// The ruling about an entry.
    pub(super) fn about(&self, entry: EntryId) -> Option<&'a RulingSays> {
        self.by_entry.get(&entry).copied()
    }

    /// Whether a question is settled. Those about the meter are settled only by a ruling that says what the meter did.
    pub(super) fn settle(&self, question: &Question) -> bool {
        match &question.asks {
            Asks::MeterFell { .. } | Asks::MeterJumped { .. } | Asks::BrokenMeterMoved { .. } => {
                false
            }
            Asks::Rivals { of } => {
                self.by_entry.contains_key(&question.entry) || self.by_entry.contains_key(of)
            }
            _ => self.by_entry.contains_key(&question.entry),
        }
    }
}
