//! The shelf: every book of a machine that was adopted and read, and where a point of any of them is today.

use super::{
    super::{Adopted, Asks, Question},
    corrections::{Heard, RoleOf},
};
use crate::{
    book::{Book, Point},
    entry::{Body, Entry},
    id::{EntryId, MachineId, PointId},
    people::Deed,
};
use jiff::Timestamp;
use std::{collections::BTreeMap, sync::Arc};

/// Reads a book's text: the book, or how many mistakes keep it from being one.
pub type ReadText<'f> = dyn Fn(&str) -> Result<Book, usize> + 'f;

/// A machine's books in order, with every point's id of today.
#[derive(Debug, Default)]
pub(super) struct Shelf {
    /// The books, in order of adoption.
    pub(super) adopted: Vec<Adopted>,
    /// Books that are not in force, and why.
    pub(super) questions: Vec<Question>,
    /// For each book: its points' places in the list, by id.
    places: Vec<BTreeMap<PointId, usize>>,
    /// For each book: the id of today for every id that a later book renamed.
    today: Vec<BTreeMap<PointId, PointId>>,
    revisions: BTreeMap<EntryId, usize>,
}

/// Reads every book adopted for this machine by somebody entitled. A book with mistakes, or one of another machine, is asked
/// about; the one before stays in force.
pub(super) fn shelf(
    machine: &MachineId,
    heard: &[Heard<'_>],
    role: &RoleOf<'_>,
    read: &ReadText<'_>,
) -> Shelf {
    let mut shelf = Shelf::default();
    for one in heard {
        let (Some(Body::BookAdopted(adopted)), entry) = (one.body, one.entry) else {
            continue;
        };
        if !one.may(Deed::AdoptBook, role) {
            shelf.questions.push(Question::not_entitled(entry));
            continue;
        }
        let mistakes = match read(&adopted.text) {
            Ok(book) if book.machine.id == *machine => {
                shelf.put(entry, book);
                continue;
            }
            Ok(_) => 1,
            Err(mistakes) => mistakes,
        };
        shelf
            .questions
            .push(Question::by(entry, Asks::BookUnread { mistakes }));
    }
    shelf.index();
    shelf
}

impl Shelf {
    fn put(&mut self, entry: &Entry, book: Book) {
        let (revision, since, by) = (entry.id, entry.ordered_at, entry.by);
        self.adopted.push(Adopted {
            revision,
            since,
            by,
            book: Arc::new(book),
        });
    }

    /// Today's book.
    pub(super) fn book(&self) -> Option<&Arc<Book>> {
        self.adopted.last().map(|adopted| &adopted.book)
    }

    /// A point as the book of this revision has it, and its id of today. Without a revision, or with one that is not on the
    /// shelf, the book in force at `when` is meant.
    pub(super) fn point(
        &self,
        revision: Option<EntryId>,
        when: Timestamp,
        id: &PointId,
    ) -> Option<(&Point, PointId)> {
        let known = revision
            .and_then(|revision| self.revisions.get(&revision))
            .copied();
        let book = known.or_else(|| {
            self.adopted
                .iter()
                .rposition(|adopted| adopted.since <= when)
        })?;
        let place = self.places.get(book)?.get(id)?;
        let today = self.today.get(book)?.get(id).unwrap_or(id).clone();
        Some((self.adopted.get(book)?.book.points.get(*place)?, today))
    }

    /// The revision that answers of `revision` really belong to: itself, or the book in force then.
    pub(super) fn in_force(&self, when: Timestamp) -> Option<EntryId> {
        self.adopted
            .iter()
            .rfind(|adopted| adopted.since <= when)
            .map(|adopted| adopted.revision)
    }

    /// For every id that any book renamed: its id of today. Of two meanings the later book's holds.
    pub(super) fn renamed(&self) -> BTreeMap<PointId, PointId> {
        self.today
            .iter()
            .flat_map(|renames| renames.iter().map(|(old, new)| (old.clone(), new.clone())))
            .collect()
    }

    fn index(&mut self) {
        let place = |adopted: &Adopted| {
            adopted
                .book
                .points
                .iter()
                .enumerate()
                .map(|(at, point)| (point.id.clone(), at))
                .collect()
        };
        self.places = self.adopted.iter().map(place).collect();
        self.revisions = self
            .adopted
            .iter()
            .enumerate()
            .map(|(at, adopted)| (adopted.revision, at))
            .collect();
        self.today = vec![BTreeMap::new(); self.adopted.len()];
        for at in (0..self.adopted.len().saturating_sub(1)).rev() {
            let moved = self.places[at]
                .keys()
                .map(|id| (id.clone(), self.id_after(at, id)));
            self.today[at] = moved.filter(|(old, new)| old != new).collect();
        }
    }

    /// Where a point of book `at` is in the end, one book on and then as that book's points go.
    fn id_after(&self, at: usize, id: &PointId) -> PointId {
        let next = renamed_in(&self.adopted[at + 1].book, &self.places[at + 1], id);
        self.today[at + 1].get(&next).cloned().unwrap_or(next)
    }
}

/// The id that a book gives a point of the book before: the same, or as declared. A declaration counts only where the old id
/// is really gone and the new one is there; declarations may follow one another.
fn renamed_in(book: &Book, points: &BTreeMap<PointId, usize>, id: &PointId) -> PointId {
    let mut now = id;
    for _ in 0..=book.renamed.len() {
        if points.contains_key(now) {
            return now.clone();
        }
        match book.renamed.iter().find(|(old, _)| old == now) {
            Some((_, new)) => now = new,
            None => break,
        }
    }
    id.clone()
}
