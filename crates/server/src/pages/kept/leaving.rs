//! A machine leaves the yard, or comes back: the steward's word.

use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::{
        upkeep::short::{Field, ShortForm},
        walkround::{
            form::{self, Typed},
            question::{Asked, choices},
        },
    },
};
use yard::{
    code::Coded,
    entry::{Body, CameBack, LeftHow, LeftYard},
    people::Deed,
};

/// Shows the form: leaving, or coming back where it left.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps it.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::LetGo)?;
    let (id, state, _) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let body = if state.left.is_some() {
        match typed.some("why") {
            Some(why) => Body::CameBack(CameBack { why }),
            None => return render(desk, machine, typed, vec![form::asked(&p, "ask-came-back")]),
        }
    } else {
        match left(desk, typed) {
            Ok(left) => Body::LeftYard(left),
            Err(asked) => return render(desk, machine, typed, vec![asked]),
        }
    };
    accept::keep(desk, Some(&id), body)?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn left(desk: &Desk, typed: &Typed) -> Result<LeftYard, Asked> {
    let p = desk.page();
    let how =
        LeftHow::from_code(typed.field("how")).ok_or_else(|| form::asked(&p, "ask-left-how"))?;
    let on = match typed.field("on") {
        "" => None,
        text => Some(text.parse().map_err(|_| form::asked(&p, "ask-day"))?),
    };
    Ok(LeftYard {
        how,
        on,
        to: typed.some("to"),
        hours: form::hours(&p, typed.field("hours"), &desk.reading())?,
        note: typed.some("note"),
    })
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::LetGo)?;
    let (_, state, _) = desk.machine_and_book(machine)?;
    let gone = state.left.is_some();
    let title = if gone {
        "came-back-title"
    } else {
        "leaving-title"
    };
    let mut form = ShortForm::new(desk, machine, "leaving", title, "do-keep")?;
    let p = form.p.clone();
    form.asked = asked;
    if gone {
        form.lines = vec![p.t("came-back-intro")];
        form.fields = vec![Field::text(&p, "came-back-why", "why", typed.field("why"))];
        return form.show();
    }
    form.lines = vec![p.t("leaving-intro")];
    form.fields = vec![
        Field {
            one_column: true,
            ..Field::choice(
                &p,
                "leaving-how",
                "how",
                choices::<LeftHow>(&p, "left-how", typed.field("how")),
            )
        },
        Field {
            kind: "date",
            ..Field::text(&p, "leaving-on", "on", typed.field("on"))
        },
        Field::text(&p, "leaving-to", "to", typed.field("to")),
        Field::text(&p, "leaving-hours", "hours", typed.field("hours")),
        Field::text(&p, "leaving-note", "note", typed.field("note")),
    ];
    form.show()
}
