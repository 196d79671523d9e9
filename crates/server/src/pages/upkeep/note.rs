//! A note for whoever comes next.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::form::{self, Typed},
};
use yard::{
    entry::{self, Body},
    people::Deed,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, false)
}

/// Keeps the note.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, ..) = desk.machine(machine)?;
    let text = typed.field("text");
    if text.is_empty() {
        return render(desk, machine, true);
    }
    accept::keep(
        desk,
        Some(&id),
        Body::Note(entry::Note {
            point: None,
            text: text.to_owned(),
        }),
    )?;
    go(&format!("/y/{}/m/{id}/journal", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, empty: bool) -> Answer {
    desk.may(Deed::Note)?;
    let mut form = ShortForm::new(desk, machine, "note", "note-title", "do-keep")?;
    let p = form.p.clone();
    if empty {
        form.asked = vec![form::asked(&p, "ask-empty")];
    }
    form.fields = vec![Field::long(&p, "note-text", "text", "")];
    form.show()
}
