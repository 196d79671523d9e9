//! What was done about a failure, and whether it is the same as what was done before.

use crate::{
    entry::Cause,
    id::{EntryId, ItemId},
    state::{Work, WorkKind},
};
use jiff::Timestamp;
use std::collections::BTreeSet;

/// What was done about one failure.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// Entry.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// Kind of work.
    pub kind: WorkKind,
    /// In words.
    pub what: String,
    /// Part fitted, where the book lists it.
    pub part: Option<ItemId>,
    /// Cause, where it was said.
    pub cause: Option<Cause>,
}

/// Words that say only that it was done again; what is the same without them is the same. People write in their own words and
/// tongue; no code stands behind a free text, so none could be compared instead. These are English: in any other tongue such
/// words count as the rest do, and two cures are the same where they name the same part, are both an adjustment, or say the
/// same words. The mistake is then on the quiet side: it may take one failure more until the cause is asked for, as
/// it is after any three.
const SAY_NOTHING: &[&str] = &[
    "again", "and", "another", "as", "before", "did", "ditto", "done", "fitted", "for", "have",
    "it", "like", "more", "once", "put", "same", "the", "then", "this", "time", "was", "with",
];

/// The cure of a failure: what was done from when it was found until it came again. A repair says more than a part, and a
/// part more than an adjustment; of two alike the later one.
pub(super) fn cure(work: &[&Work], from: Timestamp, until: Timestamp) -> Option<Cure> {
    let rank = |kind| match kind {
        WorkKind::Bought => None,
        WorkKind::Adjusted => Some(0),
        WorkKind::Fitted => Some(1),
        WorkKind::Repaired => Some(2),
    };
    let done = work
        .iter()
        .filter(|work| from <= work.at && work.at < until)
        .filter_map(|work| Some((rank(work.kind)?, work)));
    let (_, work) = done.max_by_key(|(rank, work)| (*rank, work.at, work.entry))?;
    Some(Cure {
        entry: work.entry,
        at: work.at,
        kind: work.kind,
        what: work.what.clone(),
        part: work.part.clone(),
        cause: work.cause.clone(),
    })
}

/// Whether two cures are the same: the same part, or words of which the one says nothing that the other does not. Adjusting
/// is the same as adjusting, however it is worded.
pub(super) fn alike(one: &Cure, other: &Cure) -> bool {
    let parts = one.part.is_some() && one.part == other.part;
    let adjusted = one.kind == WorkKind::Adjusted && other.kind == WorkKind::Adjusted;
    parts || adjusted || same_words(&one.what, &other.what)
}

fn same_words(one: &str, other: &str) -> bool {
    let (one, other) = (words(one), words(other));
    one.is_subset(&other) || other.is_subset(&one)
}

fn words(text: &str) -> BTreeSet<String> {
    let lower = text.to_lowercase();
    lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| word.chars().count() > 1 && !SAY_NOTHING.contains(word))
        .map(str::to_owned)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_said_otherwise_is_the_same() {
        for (one, other) in [
            ("new clip", "New clip fitted."),
            ("new clip", "again the same"),
            ("tightened to 210 lb-ft", "Tightened again, 210 lb-ft"),
            ("new clip", "Put another new clip on it"),
        ] {
            assert!(same_words(one, other), "{one} / {other}");
        }
        for (one, other) in [
            ("new clip", "welded a new eye"),
            ("tightened", "helicoil, new bolts"),
        ] {
            assert!(!same_words(one, other), "{one} / {other}");
        }
    }
}
