//! Telling what happened, without blame: "it happened while I had it".

use super::{
    fault,
    short::{Field, ShortForm},
};
use crate::{
    desk::{Answer, Desk},
    pages::{
        walkround::{
            form::Typed,
            question::{Asked, Choice, choices},
        },
        yard::machine::stop_words,
    },
};
use yard::{book::Severity, entry::Told, people::Deed};

/// Shows the form, which says first that nobody is blamed, and who can see the name.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps it as a fault, with or without the name on the pages. Where nothing is said, the name is left off.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let told = match typed.field("name") {
        "named" => Told::Named,
        _ => Told::Unnamed,
    };
    fault::report(desk, machine, typed, (None, Some(told)), |asked| {
        render(desk, machine, typed, asked)
    })
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::ReportFault)?;
    let (_, _, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "happened", "happened-title", "happened-keep")?;
    let p = form.p.clone();
    form.stop = stop_words(&p, book);
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
