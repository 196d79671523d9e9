//! What a machine takes on, and which papers it may not run without.

use super::Severity;
use crate::{
    entry::DocumentKind,
    id::{ItemId, MachineId},
};

/// An attachment this machine takes. What it is and how it is looked after stands in its own book.
#[derive(Clone, Debug, PartialEq)]
pub struct AttachmentTaken {
    /// The attachment's own id as a machine of the yard.
    pub id: MachineId,
    /// How it locks, and what proves that it holds.
    pub locks: String,
    /// Line in the book.
    pub line: u32,
}

/// A document this machine has or needs.
#[derive(Clone, Debug, PartialEq)]
pub struct DocumentWanted {
    /// Id.
    pub id: ItemId,
    /// What kind of document.
    pub what: DocumentKind,
    /// Its title.
    pub title: String,
    /// Whether the machine may not run without it.
    pub needed: bool,
    /// What it weighs where it is needed and there is none in force: care unless the book says more.
    pub bad_is: Severity,
    /// Line in the book.
    pub line: u32,
}
