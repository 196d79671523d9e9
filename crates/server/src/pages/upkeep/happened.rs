//! Telling what happened, without blame: "it happened while I had it".

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, choices},
    },
};
use yard::{
    book::Severity,
    code::Coded,
    entry::{self, Body, Told},
    people::Deed,
};

/// Shows the form, which says first that nobody is blamed, and who can see the name.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps it as a fault, with or without the name on the pages. Where nothing is said, the name is left off.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, ..) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let severity = Severity::from_code(typed.field("severity"));
    let what = typed.field("what");
    let mut asked = Vec::new();
    if what.is_empty() {
        asked.push(form::asked(&p, "ask-fault-what"));
    }
    if severity.is_none() {
        asked.push(form::asked(&p, "ask-fault-severity"));
    }
    let (Some(severity), true) = (severity, asked.is_empty()) else {
        return render(desk, machine, typed, asked);
    };
    let told = match typed.field("name") {
        "named" => Told::Named,
        _ => Told::Unnamed,
    };
    let fault = entry::Fault {
        point: None,
        what: what.to_owned(),
        severity,
        told: Some(told),
    };
    accept::keep(desk, Some(&id), Body::Fault(fault))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::ReportFault)?;
    let (_, _, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "happened", "happened-title", "happened-keep")?;
    let p = form.p.clone();
    form.stop = book.stop.as_ref().map(|stop| stop.how.clone());
    form.lines = [
        "happened-intro",
        "happened-never",
        "happened-who-sees",
        "happened-who-sees-all",
    ]
    .map(|key| p.t(key))
    .to_vec();
    form.asked = asked;
    let mut severities = choices::<Severity>(&p, "fault-severity", typed.field("severity"));
    severities.reverse();
    let named = typed.field("name") == "named";
    let name = |code: &str, chosen| Choice {
        code: code.to_owned(),
        word: p.t(&format!("happened-name-{code}")),
        chosen,
    };
    form.fields = vec![
        Field::long(&p, "happened-what", "what", typed.field("what")),
        Field {
            one_column: true,
            ..Field::choice(&p, "fault-severity", "severity", severities)
        },
        Field {
            one_column: true,
            ..Field::choice(
                &p,
                "happened-name",
                "name",
                vec![name("unnamed", !named), name("named", named)],
            )
        },
    ];
    form.show()
}
