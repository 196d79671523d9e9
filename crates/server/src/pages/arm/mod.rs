//! The arm's page: four poses first, then the arm to scale to move by hand, with what it can do there.

mod asked;
mod drawing;
mod figure;
mod lines;
mod page;
mod pose;
mod sections;

pub(crate) use figure::show as figure;
pub(crate) use page::show;
pub(crate) use pose::show as pose;

use crate::{arms::ArmAtHand, desk::Desk, refusal::Refusal};
use std::sync::Arc;
use yard::{book::Book, id::MachineId};

/// The arm of a machine of this yard, with its book.
fn at_hand<'a>(
    desk: &'a Desk,
    machine: &str,
) -> Result<(MachineId, &'a Book, Arc<ArmAtHand>), Refusal> {
    let (id, state) = desk.machine(machine)?;
    let adopted = state.book().ok_or(Refusal::NotFound)?;
    let book = adopted.book.as_ref();
    let comma = desk.view.habits.decimal_comma;
    let arm = desk.app.arms.of(&id, adopted.revision, comma, book);
    Ok((id, book, arm))
}
