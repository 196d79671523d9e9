//! What the journal says beside rounds and work: the shelf, attachments, documents, and whether the machine is still here.

use crate::{
    entry::{Document, DocumentKind, LeftYard},
    id::EntryId,
};
use jiff::{Timestamp, civil::Date};

/// How many of a part lie on the shelf, since it was first counted or bought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnShelf {
    /// How many. Never below none: more fitted than there were means that the count was wrong.
    pub count: u32,
    /// Whether more was fitted than lay there since it was last counted.
    pub short: bool,
    /// The last entry about it.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
}

/// An attachment on the machine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fitted {
    /// The entry that put it on.
    pub entry: EntryId,
    /// When.
    pub since: Timestamp,
}

/// A document that was written down.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptDocument {
    /// Entry.
    pub entry: EntryId,
    /// When it was written down.
    pub at: Timestamp,
    /// What it says.
    pub document: Document,
    /// The entry that renewed or ended it, and why where it was ended.
    pub ended: Option<(EntryId, Option<String>)>,
}

/// How a document stands on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// A recall that nobody has answered.
    Open,
    /// Its last day is over.
    Expired,
    /// Its last day is near.
    EndsSoon,
    /// Not yet in force.
    NotYet,
    /// In force.
    Holds,
    /// Renewed, withdrawn or answered.
    Ended,
}

/// How many days ahead the end of a document is shown. Common practice, no source.
pub const AHEAD_DAYS: i32 = 30;

impl KeptDocument {
    /// How it stands on this day.
    pub fn standing(&self, today: Date) -> Standing {
        let document = &self.document;
        let soon = today.saturating_add(jiff::Span::new().days(AHEAD_DAYS));
        if self.ended.is_some() {
            Standing::Ended
        } else if document.what == DocumentKind::Recall {
            Standing::Open
        } else if document.until.is_some_and(|last| last < today) {
            Standing::Expired
        } else if document.from.is_some_and(|first| first > today) {
            Standing::NotYet
        } else if document.until.is_some_and(|last| last <= soon) {
            Standing::EndsSoon
        } else {
            Standing::Holds
        }
    }
}

/// A machine that left the yard.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Entry.
    pub entry: EntryId,
    /// When it was written.
    pub at: Timestamp,
    /// What it says.
    pub said: LeftYard,
}
