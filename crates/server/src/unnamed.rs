//! Whose name stays off the pages: who told what happened without blame, and asked for it.
//!
//! The journal keeps who wrote what. These pages show it to the steward, the deputy and whoever wrote it.

use crate::desk::Desk;
use yard::{
    entry::{Body, Entry, Told},
    id::{EntryId, PersonId},
    people::{Deed, may},
    state::{Finding, Found},
};

/// Who found something, as this page may show it.
pub(crate) fn finder(desk: &Desk, finding: &Finding) -> String {
    if leaves_off(desk, finding.by) && told_unnamed(desk, finding) {
        return desk.app.words.text("name-left-off");
    }
    desk.view.name(finding.by)
}

/// Who wrote an entry, as this page may show it.
pub(crate) fn writer(desk: &Desk, entry: &Entry) -> String {
    if leaves_off(desk, entry.by) && is_unnamed(desk, entry) {
        return desk.app.words.text("name-left-off");
    }
    desk.view.name(entry.by)
}

/// Who wrote an entry, by its id: for what hangs beside it, as a photo does.
pub(crate) fn writer_of(desk: &Desk, entry: EntryId, by: PersonId) -> String {
    match of_id(desk, entry) {
        Some(entry) => writer(desk, entry),
        None => desk.view.name(by),
    }
}

/// Whether somebody who is neither the writer nor leads here looks.
fn leaves_off(desk: &Desk, by: PersonId) -> bool {
    desk.person != Some(by) && !may(desk.role, Deed::CorrectAny)
}

fn told_unnamed(desk: &Desk, finding: &Finding) -> bool {
    let said = matches!(&finding.what, Found::Fault(fault) if fault.told == Some(Told::Unnamed));
    said || of_id(desk, finding.id.entry).is_some_and(|entry| is_unnamed(desk, entry))
}

/// Whether an entry is such a report, or one that the same person wrote about it: a correction of it, a photo of it.
fn is_unnamed(desk: &Desk, entry: &Entry) -> bool {
    let report =
        |body: &Body| matches!(body, Body::Fault(fault) if fault.told == Some(Told::Unnamed));
    let about = match &entry.body {
        Body::Correction(correction) => Some(correction.of),
        Body::Photo(photo) => photo.of.as_ref().map(|of| of.entry),
        body => return report(body),
    };
    let of = about.and_then(|about| of_id(desk, about));
    of.is_some_and(|of| of.by == entry.by && is_unnamed_alone(&of.body))
        || matches!(&entry.body, Body::Correction(c) if c.instead.as_deref().is_some_and(report))
}

fn is_unnamed_alone(body: &Body) -> bool {
    matches!(body, Body::Fault(fault) if fault.told == Some(Told::Unnamed))
}

fn of_id(desk: &Desk, id: EntryId) -> Option<&Entry> {
    desk.view.entries.iter().find(|entry| entry.id == id)
}
