//! The other machines of the yard, for what hangs on them: an attachment has a book and a history of its own.

use crate::{id::MachineId, state::MachineState};
use std::{collections::BTreeMap, fmt};

/// Finds the state of another machine.
pub trait OtherMachines {
    /// Its state; none where the yard has no such machine.
    fn machine(&self, id: &MachineId) -> Option<&MachineState>;
}

impl fmt::Debug for dyn OtherMachines + '_ {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("OtherMachines")
    }
}

/// Knows no other machine: an attachment that is on is then one nobody knows.
#[derive(Clone, Copy, Debug)]
pub struct NoOthers;

impl OtherMachines for NoOthers {
    fn machine(&self, _: &MachineId) -> Option<&MachineState> {
        None
    }
}

impl OtherMachines for BTreeMap<MachineId, MachineState> {
    fn machine(&self, id: &MachineId) -> Option<&MachineState> {
        self.get(id)
    }
}
