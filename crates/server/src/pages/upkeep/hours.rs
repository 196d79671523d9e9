//! The hour meter: a reading, or a change of meter.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::Asked,
        round::hours_last,
    },
};
use yard::{
    entry::{self, Body},
    people::Deed,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps a reading; or a change of meter where a first reading of a new one is given.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, ..) = desk.machine(machine)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let mut read = |name: &str| {
        form::hours(&p, typed.field(name), &desk.reading()).unwrap_or_else(|told| {
            asked.push(told);
            None
        })
    };
    let (shows, new_first, old_last, unmetered) =
        (read("shows"), read("new"), read("old"), read("unmetered"));
    if asked.is_empty() && shows.is_none() && new_first.is_none() {
        asked.push(form::asked(&p, "ask-hours-empty"));
    }
    if new_first.is_some() && typed.field("why").is_empty() {
        asked.push(form::asked(&p, "ask-hours-why"));
    }
    if !asked.is_empty() {
        return render(desk, machine, typed, asked);
    }
    if let Some(new_first) = new_first {
        let change = entry::MeterChange {
            old_last,
            new_first,
            unmetered,
            why: typed.field("why").to_owned(),
        };
        accept::keep(desk, Some(&id), Body::MeterChange(change))?;
    } else if let Some(shows) = shows {
        accept::keep(
            desk,
            Some(&id),
            Body::MeterReading(entry::MeterReading { shows }),
        )?;
    }
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::ReadMeter)?;
    let (_, state, _) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "hours", "hours-title", "do-keep")?;
    let p = form.p.clone();
    form.lines = vec![hours_last(&p, state)];
    form.asked = asked;
    form.fields = vec![
        Field::text(&p, "hours-shows", "shows", typed.field("shows")),
        Field::text(&p, "hours-new", "new", typed.field("new")),
        Field::text(&p, "hours-old", "old", typed.field("old")),
        Field::text(&p, "hours-unmetered", "unmetered", typed.field("unmetered")),
        Field::text(&p, "hours-why", "why", typed.field("why")),
    ];
    form.show()
}
