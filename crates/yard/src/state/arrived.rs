//! What the journal says of the day on which a machine came.

use crate::{
    entry::{ArrivalStep, FluidNow},
    id::{EntryId, ItemId},
};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// A machine being taken in, or taken in.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrived {
    /// The entry that began it.
    pub entry: EntryId,
    /// When.
    pub since: Timestamp,
    /// What was said at each step, in order.
    pub steps: BTreeMap<ArrivalStep, Vec<ArrivalSaid>>,
    /// Fluids changed or analysed since: how, and by which entry, the last one.
    pub fluids_known: BTreeMap<ItemId, (FluidNow, EntryId)>,
    /// When it was over, and by which entry.
    pub over: Option<(EntryId, Timestamp)>,
}

/// One thing said at a step.
#[derive(Clone, Debug, PartialEq)]
pub struct ArrivalSaid {
    /// Entry.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// What it is about.
    pub about: Option<ItemId>,
    /// Fittings counted.
    pub count: Option<u32>,
    /// In words.
    pub says: Option<String>,
}

impl Arrived {
    /// Whether anything was said at this step.
    pub fn said(&self, step: ArrivalStep) -> bool {
        self.last(step).is_some()
    }

    /// What was said last at this step.
    pub fn last(&self, step: ArrivalStep) -> Option<&ArrivalSaid> {
        self.steps.get(&step).and_then(|said| said.last())
    }

    /// The fittings counted last at this step.
    pub fn counted(&self, step: ArrivalStep) -> Option<u32> {
        let said = self.steps.get(&step)?;
        said.iter().rev().find_map(|said| said.count)
    }
}
