//! Names for sentences: people from the yard's own table, everything else from a machine's book.

use crate::desk::Desk;
use words::BookNames;
use yard::state::MachineState;

/// Names for a machine.
pub(crate) fn names<'a>(desk: &'a Desk, machine: &'a MachineState) -> BookNames<'a> {
    BookNames {
        book: machine.book().map(|b| b.book.as_ref()),
        people: &desk.view.names,
        now: desk.now,
        zone: &desk.zone,
    }
}
