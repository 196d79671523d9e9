//! Names for sentences: points, stations and items from the book, people from the yard's own table.

use crate::{app::View, desk::Desk};
use yard::{
    book::Book,
    id::{ItemId, PersonId, PointId},
    state::MachineState,
};

/// Looks names up in a machine's book and the yard.
pub(crate) struct BookNames<'a> {
    view: &'a View,
    book: Option<&'a Book>,
}

/// Names for a machine.
pub(crate) fn names<'a>(desk: &'a Desk, machine: &'a MachineState) -> BookNames<'a> {
    BookNames { view: &desk.view, book: machine.book().map(|b| b.book.as_ref()) }
}

impl words::Names for BookNames<'_> {
    fn person(&self, id: PersonId) -> Option<String> {
        self.view.names.get(&id).cloned()
    }
    fn point(&self, id: &PointId) -> Option<String> {
        let book = self.book?;
        book.points.iter().find(|p| p.id == *id).map(|p| p.what.clone())
    }
    fn item(&self, id: &ItemId) -> Option<String> {
        let book = self.book?;
        let joint = book.joints.iter().find(|j| j.id == *id).map(|j| j.name.clone());
        let pose = || book.poses.iter().find(|p| p.id == *id).map(|p| p.what.clone());
        let step = || book.rest.iter().find(|s| s.id == *id).map(|s| s.what.clone());
        let fluid = || book.fluids.iter().find(|f| f.id == *id).map(|f| f.name.clone());
        let part = || book.parts.iter().find(|p| p.id == *id).map(|p| p.what.clone());
        joint.or_else(pose).or_else(step).or_else(fluid).or_else(part)
    }
}
