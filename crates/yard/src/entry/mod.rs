//! The entry: one typed line of the journal, as the domain reads it.

mod arrival;
mod body;
mod photos;
mod texts;

pub use arrival::*;
pub use body::*;
pub use texts::MOST_LETTERS;

use crate::id::{DeviceId, EntryId, MachineId, PersonId};
use jiff::Timestamp;

/// An accepted entry, read. Its bytes and its place in the hash chain are the store's affair.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its id, made by the writer.
    pub id: EntryId,
    /// Order of acceptance, from 1.
    pub seq: u64,
    /// Machine it is about; none for the yard as a whole.
    pub machine: Option<MachineId>,
    /// When, by the writer's clock.
    pub at: Timestamp,
    /// `at` corrected by the clocks' difference told at delivery; never later than `written`.
    pub ordered_at: Timestamp,
    /// When the store took it, by the store's clock.
    pub written: Timestamp,
    /// Whether `ordered_at` differs from `at`.
    pub clock_corrected: bool,
    /// Who wrote it.
    pub by: PersonId,
    /// On what.
    pub device: DeviceId,
    /// The device's own counter.
    pub counter: u64,
    /// What it says.
    pub body: Body,
}
