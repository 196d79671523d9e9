//! Voiding an entry that is wrong. What was written stays readable; the journal says both.

use crate::{
    accept,
    desk::{Answer, Desk, go},
    names,
    pages::{
        upkeep::short::{Field, ShortForm},
        walkround::form::{self, Typed},
    },
    refusal::Refusal,
};
use yard::{
    entry::{Body, Correction, Entry},
    id::EntryId,
    state::MachineState,
};

fn find<'a>(desk: &'a Desk, entry: &str) -> Result<&'a Entry, Refusal> {
    let id: EntryId = entry.parse().map_err(|_| Refusal::NotFound)?;
    desk.view
        .entries
        .iter()
        .find(|e| e.id == id)
        .ok_or(Refusal::NotFound)
}

/// Shows what will be voided.
pub(crate) fn show(desk: &Desk, entry: &str) -> Answer {
    render(desk, entry, false)
}

/// Voids it, with the reason.
pub(crate) fn keep(desk: &Desk, entry: &str, typed: &Typed) -> Answer {
    let found = find(desk, entry)?;
    let why = typed.field("why");
    if why.is_empty() {
        return render(desk, entry, true);
    }
    accept::keep(
        desk,
        found.machine.as_ref(),
        Body::Correction(Correction {
            of: found.id,
            instead: None,
            why: why.to_owned(),
        }),
    )?;
    go(&format!("/y/{}/journal", desk.app.tag()))
}

fn render(desk: &Desk, entry: &str, empty: bool) -> Answer {
    let by = desk.signed_in()?;
    let found = find(desk, entry)?;
    let probe = Body::Correction(Correction {
        of: found.id,
        instead: None,
        why: String::new(),
    });
    desk.may(accept::deed_of(&probe, by, desk.view.as_ref()))?;
    if !accept::is_peoples(&probe, desk.view.as_ref()) {
        return Err(Refusal::NotFound);
    }
    let p = desk.page();
    let blank = MachineState::default();
    let state = found
        .machine
        .as_ref()
        .and_then(|id| desk.view.machines.get(id))
        .unwrap_or(&blank);
    let form = ShortForm {
        title: p.t("correct-title"),
        machine: state
            .book()
            .map(|b| b.book.machine.name.clone())
            .unwrap_or_default(),
        here: p.home(),
        stop: None,
        cautions: Vec::new(),
        lines: vec![
            p.words.entry(&found.body, &names::names(desk, state)),
            p.t("correct-intro"),
        ],
        asked: if empty {
            vec![form::asked(&p, "ask-empty")]
        } else {
            Vec::new()
        },
        action: format!("{}/correct/{}", p.home(), found.id),
        fields: vec![Field::long(&p, "correct-why", "why", "")],
        button: p.t("correct-do"),
        p,
    };
    form.show()
}
