//! Attachments: what is on the machine, putting one on, taking one off.

use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::{
        upkeep::short::{Field, ShortForm},
        walkround::{
            form::{self, Typed},
            question::Choice,
        },
    },
};
use yard::{
    entry::{AttachmentChange, Body},
    id::MachineId,
    people::Deed,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), None)
}

/// Keeps it. What the book does not take is put on nothing here.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Repair)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let named = MachineId::new(typed.field("attachment"));
    let taken = |id: &MachineId| book.attachments.iter().any(|known| known.id == *id);
    let Some(attachment) = named.filter(|id| taken(id) || state.fitted.contains_key(id)) else {
        return render(desk, machine, typed, Some("ask-attachment"));
    };
    let fitted = match typed.field("change") {
        "on" if !taken(&attachment) => {
            return render(desk, machine, typed, Some("ask-attachment"));
        }
        "on" if elsewhere(desk, &id, &attachment) => {
            return render(desk, machine, typed, Some("ask-attachment-elsewhere"));
        }
        "on" => true,
        "off" => false,
        _ => return render(desk, machine, typed, Some("ask-attachment-change")),
    };
    let change = AttachmentChange {
        attachment,
        fitted,
        note: typed.some("note"),
    };
    accept::keep(desk, Some(&id), Body::Attachment(change))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

/// Whether it hangs on another machine by what was last said: it is taken off there first.
fn elsewhere(desk: &Desk, id: &MachineId, attachment: &MachineId) -> bool {
    let mut others = desk.view.machines.iter().filter(|(other, _)| *other != id);
    others.any(|(_, state)| state.left.is_none() && state.fitted.contains_key(attachment))
}

/// An attachment's name: that of its own book, else its id.
pub(crate) fn name_of(desk: &Desk, id: &MachineId) -> String {
    let book = desk.view.machines.get(id).and_then(|state| state.book());
    book.map_or_else(|| id.to_string(), |own| own.book.machine.name.clone())
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Option<&str>) -> Answer {
    desk.may(Deed::Repair)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "attachments", "attachments-title", "do-keep")?;
    let p = form.p.clone();
    form.cautions = vec![p.t("caution-engine-off"), p.t("caution-attachment")];
    form.asked = asked.into_iter().map(|key| form::asked(&p, key)).collect();
    let on = state.fitted.iter().map(|(id, fitted)| {
        let when = p.words.moment(fitted.since, desk.now, &desk.zone);
        p.t2("attachment-is-on", "name", name_of(desk, id), "when", when)
    });
    form.lines = on.collect();
    if form.lines.is_empty() {
        form.lines.push(p.t("attachment-none-on"));
    }
    let locks = book.attachments.iter();
    form.lines
        .extend(locks.map(|taken| p.words.attachment_locks(taken, &name_of(desk, &taken.id))));
    let known = book.attachments.iter().map(|taken| &taken.id);
    let strange = state
        .fitted
        .keys()
        .filter(|id| book.attachments.iter().all(|taken| taken.id != **id));
    let choices: Vec<Choice> = known
        .chain(strange)
        .map(|id| Choice {
            code: id.to_string(),
            word: name_of(desk, id),
            chosen: typed.field("attachment") == id.as_str(),
        })
        .collect();
    if choices.is_empty() {
        form.lines.push(p.t("attachments-none"));
        form.button = String::new();
        return form.show();
    }
    let change = ["on", "off"].map(|code| Choice {
        code: code.to_owned(),
        word: p.t(&format!("attachment-change-{code}")),
        chosen: typed.field("change") == code,
    });
    form.fields = vec![
        Field {
            one_column: true,
            ..Field::choice(&p, "attachment-which", "attachment", choices)
        },
        Field {
            one_column: true,
            ..Field::choice(&p, "attachment-change", "change", change.into())
        },
        Field::text(&p, "attachment-note", "note", typed.field("note")),
    ];
    form.show()
}
