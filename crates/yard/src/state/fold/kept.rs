//! The shelf, attachments, documents, leaving and coming back.

use super::{
    super::{Asks, Fitted, KeptDocument, Left, OnShelf},
    Fold,
    corrections::{Corrected, Heard, RoleOf},
};
use crate::{
    book::Book,
    entry::{Body, Document, DocumentKind, PartFitted, Purchase},
    id::{EntryId, ItemId, MachineId},
    people::Deed,
};
use std::collections::BTreeMap;

/// The deed that keeping a document needs.
pub fn document_deed(document: &Document) -> Deed {
    if document.of_book.is_some() {
        Deed::NeededDocuments
    } else {
        Deed::KeepDocuments
    }
}

/// The deed that striking this entry out needs besides that of correcting: what only the steward may say, the steward alone
/// unsays. None for all other kinds.
pub fn unsaying_deed(body: &Body) -> Option<Deed> {
    match body {
        Body::Document(document) if document.what == DocumentKind::Recall => {
            Some(Deed::NeededDocuments)
        }
        _ => deed(body).filter(|deed| matches!(deed, Deed::NeededDocuments | Deed::LetGo)),
    }
}

/// What an entry of this kind needs, where this file takes it.
fn deed(body: &Body) -> Option<Deed> {
    Some(match body {
        Body::ShelfCount(_) | Body::Attachment(_) => Deed::Repair,
        Body::Purchase(_) => Deed::SignOff,
        Body::Document(document) => document_deed(document),
        Body::DocumentEnded(_) => Deed::NeededDocuments,
        Body::LeftYard(_) | Body::CameBack(_) => Deed::LetGo,
        _ => return None,
    })
}

impl<'f> Fold<'f> {
    /// Takes what is kept. An attachment that was put on is on, whoever wrote it: that is the careful side.
    pub(super) fn take_kept(&mut self, heard: &Heard<'f>, body: &Body) {
        let entitled = deed(body).is_none_or(|deed| self.may(heard, deed));
        // One that names no part changes nothing, and was never asked about.
        let matters = !matches!(body, Body::Purchase(bought) if bought.part.is_none());
        if !entitled && matters {
            self.ask_not_entitled(heard.entry);
        }
        match body {
            Body::Attachment(change) if change.fitted => {
                let (entry, since) = (heard.entry.id, heard.entry.ordered_at);
                let fitted = Fitted { entry, since };
                self.state.fitted.insert(change.attachment.clone(), fitted);
                self.ask_whether_taken(heard, &change.attachment);
            }
            _ if !entitled => {}
            Body::Attachment(change) => drop(self.state.fitted.remove(&change.attachment)),
            Body::ShelfCount(counted) => self.put(heard, &counted.part, counted.count),
            Body::Purchase(bought) => self.bought(heard, bought),
            Body::LeftYard(left) => {
                self.hours_read(heard, left.hours.as_ref());
                self.state.left = Some(Left {
                    entry: heard.entry.id,
                    at: heard.entry.ordered_at,
                    said: left.clone(),
                });
            }
            Body::CameBack(_) => {
                self.state.left = None;
                self.state.back_since = Some(heard.entry.ordered_at);
            }
            _ => {}
        }
    }

    /// One that the book does not name is on all the same, and asked about.
    fn ask_whether_taken(&mut self, heard: &Heard<'_>, attachment: &MachineId) {
        let taken = |book: &Book| book.attachments.iter().any(|taken| taken.id == *attachment);
        if self.shelf.book().is_some_and(|book| !taken(book)) {
            let attachment = attachment.clone();
            self.ask(heard.entry, Asks::AttachmentNotTaken { attachment });
        }
    }

    fn bought(&mut self, heard: &Heard<'_>, bought: &Purchase) {
        if let Some(part) = &bought.part {
            let had = self.state.shelf.get(part).map_or(0, |shelf| shelf.count);
            self.put(heard, part, had.saturating_add(bought.count.unwrap_or(1)));
        }
    }

    /// A part fitted comes off the shelf, where it was ever counted.
    pub(super) fn off_the_shelf(&mut self, heard: &Heard<'_>, fitted: &PartFitted) {
        let shelf = fitted
            .part
            .as_ref()
            .and_then(|part| self.state.shelf.get_mut(part));
        if let Some(shelf) = shelf {
            let taken = fitted.count.unwrap_or(1);
            shelf.short |= taken > shelf.count;
            shelf.count = shelf.count.saturating_sub(taken);
            (shelf.entry, shelf.at) = (heard.entry.id, heard.entry.ordered_at);
        }
    }

    fn put(&mut self, heard: &Heard<'_>, part: &ItemId, count: u32) {
        let counted = matches!(heard.body, Some(Body::ShelfCount(_)));
        let short = !counted && self.state.shelf.get(part).is_some_and(|shelf| shelf.short);
        let shelf = OnShelf {
            count,
            short,
            entry: heard.entry.id,
            at: heard.entry.ordered_at,
        };
        self.state.shelf.insert(part.clone(), shelf);
    }
}

/// The documents of a machine, or of the yard (none), with what renewed or ended each, wherever that stands in the order.
pub(super) fn documents(
    corrected: &Corrected<'_>,
    own: impl Fn(&Heard<'_>) -> bool,
    role: &RoleOf<'_>,
) -> Vec<KeptDocument> {
    let mut kept = Vec::new();
    let mut ended: BTreeMap<EntryId, (EntryId, Option<String>)> = BTreeMap::new();
    for heard in corrected.heard.iter().filter(|heard| own(heard)) {
        let entitled = heard
            .body
            .and_then(deed)
            .is_some_and(|deed| heard.may(deed, role));
        let entry = heard.entry.id;
        match heard.body.filter(|_| entitled) {
            Some(Body::Document(document)) => {
                // A recall ends by what was done about it alone; any other gives way to its like.
                let like = |of: &EntryId| {
                    let mut before = kept.iter();
                    before.any(|one: &KeptDocument| {
                        let old = &one.document;
                        let alike = old.what == document.what && old.of_book == document.of_book;
                        one.entry == *of && alike && old.what != DocumentKind::Recall
                    })
                };
                if let Some(of) = document.renews.filter(like) {
                    ended.entry(of).or_insert((entry, None));
                }
                kept.push(KeptDocument {
                    entry,
                    at: heard.entry.ordered_at,
                    document: document.clone(),
                    ended: None,
                });
            }
            Some(Body::DocumentEnded(end)) => {
                ended.insert(end.of, (entry, Some(end.why.clone())));
            }
            _ => {}
        }
    }
    for document in &mut kept {
        document.ended = ended.remove(&document.entry);
    }
    kept
}
