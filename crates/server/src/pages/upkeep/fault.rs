//! Reporting a fault.

use super::short::{Field, ShortForm};
use crate::pages::yard::machine::stop_words;
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
    id::PointId,
    people::Deed,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps the fault, at its point where the address names one of the book's.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (_, _, book) = desk.machine_and_book(machine)?;
    let point =
        PointId::new(typed.field("point")).filter(|id| book.points.iter().any(|q| q.id == *id));
    report(desk, machine, typed, (point, None), |asked| {
        render(desk, machine, typed, asked)
    })
}

/// Keeps what a form of ours tells as a fault: at which point, and with or without the name, is the form's own. Where words or
/// severity are missing, the form is shown again with what is asked.
pub(super) fn report(
    desk: &Desk,
    machine: &str,
    typed: &Typed,
    (point, told): (Option<PointId>, Option<Told>),
    again: impl FnOnce(Vec<Asked>) -> Answer,
) -> Answer {
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
        return again(asked);
    };
    let fault = entry::Fault {
        point,
        what: what.to_owned(),
        severity,
        told,
    };
    accept::keep(desk, Some(&id), Body::Fault(fault))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::ReportFault)?;
    let (_, _, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "fault", "fault-title", "fault-keep")?;
    let p = form.p.clone();
    form.stop = stop_words(&p, book);
    form.lines = vec![p.t("fault-intro")];
    form.asked = asked;
    let mut severities: Vec<Choice> =
        choices::<Severity>(&p, "fault-severity", typed.field("severity"));
    severities.reverse();
    form.fields = vec![
        Field::long(&p, "fault-what", "what", typed.field("what")),
        Field {
            one_column: true,
            ..Field::choice(&p, "fault-severity", "severity", severities)
        },
    ];
    form.show()
}
