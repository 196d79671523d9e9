//! Two revisions of one book: which points came, went and were renamed.

use super::Book;
use crate::id::PointId;
use std::collections::BTreeSet;

/// What changed between two revisions.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Compared {
    /// Points of the old book that the new one declares renamed: old id, new id.
    pub renamed: Vec<(PointId, PointId)>,
    /// Points of the old book that are gone without a word: their history would hang in the air.
    pub vanished: Vec<PointId>,
    /// Points that are new.
    pub added: Vec<PointId>,
    /// Whether both are books of one machine.
    pub same_machine: bool,
}

/// Compares an older with a newer revision.
pub fn compare(old: &Book, new: &Book) -> Compared {
    let before: BTreeSet<&PointId> = old.points.iter().map(|point| &point.id).collect();
    let after: BTreeSet<&PointId> = new.points.iter().map(|point| &point.id).collect();
    let renamed: Vec<(PointId, PointId)> = new
        .renamed
        .iter()
        .filter(|(from, _)| before.contains(from))
        .cloned()
        .collect();
    let left: BTreeSet<&PointId> = renamed.iter().map(|(from, _)| from).collect();
    let arrived: BTreeSet<&PointId> = renamed.iter().map(|(_, to)| to).collect();
    Compared {
        vanished: before
            .iter()
            .filter(|id| !after.contains(**id) && !left.contains(**id))
            .map(|id| (*id).clone())
            .collect(),
        added: after
            .iter()
            .filter(|id| !before.contains(**id) && !arrived.contains(**id))
            .map(|id| (*id).clone())
            .collect(),
        same_machine: old.machine.id == new.machine.id,
        renamed,
    }
}
