//! The one order of entries: by corrected time, then by id; each id once.

use crate::{entry::Entry, id::EntryId};
use jiff::Timestamp;
use std::collections::BTreeSet;

/// The entries in the order every fold takes them, each id once, whatever order they came in.
///
/// Two entries with the same id are one that was delivered twice; should they differ, the earlier in order is taken (the
/// store keeps such conflicts aside, so that a fold never sees them).
pub(super) fn in_order(entries: &[Entry]) -> Vec<&Entry> {
    let mut ordered: Vec<&Entry> = entries.iter().collect();
    ordered.sort_by_key(|entry| (entry.ordered_at, entry.id, entry.written, entry.seq));
    let mut seen = BTreeSet::new();
    ordered.retain(|entry| seen.insert(entry.id));
    ordered
}

/// When an entry has its turn in that order.
pub(super) type Turn = (Timestamp, EntryId);

/// The turn of an entry.
pub(super) fn turn(entry: &Entry) -> Turn {
    (entry.ordered_at, entry.id)
}
