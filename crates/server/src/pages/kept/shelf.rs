//! Counting the shelf: how many of each part lie there.

use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::{
        upkeep::short::{Field, ShortForm},
        walkround::form::{self, Typed},
    },
};
use yard::{
    entry::{Body, ShelfCount},
    people::Deed,
};

/// More than anybody counts.
const MOST: u32 = 100_000;

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), None)
}

/// Keeps a count for each part that has a number; what is left empty was not counted.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Repair)?;
    let (id, _, book) = desk.machine_and_book(machine)?;
    let mut counted = Vec::new();
    for part in &book.parts {
        match typed.field(&format!("n.{}", part.id)) {
            "" => {}
            text => match text.parse().ok().filter(|count| *count <= MOST) {
                Some(count) => counted.push(ShelfCount {
                    part: part.id.clone(),
                    count,
                }),
                None => return render(desk, machine, typed, Some("ask-shelf-number")),
            },
        }
    }
    if counted.is_empty() {
        return render(desk, machine, typed, Some("ask-shelf"));
    }
    for count in counted {
        accept::keep(desk, Some(&id), Body::ShelfCount(count))?;
    }
    go(&format!("/y/{}/m/{id}/parts", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Option<&str>) -> Answer {
    desk.may(Deed::Repair)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "shelf", "shelf-title", "do-keep")?;
    let p = form.p.clone();
    form.lines = vec![p.t("shelf-intro")];
    form.asked = asked.into_iter().map(|key| form::asked(&p, key)).collect();
    form.fields = book
        .parts
        .iter()
        .map(|part| {
            let name = format!("n.{}", part.id);
            let value = typed.field(&name).to_owned();
            let counts = p.words.part_counts(part, state.shelf.get(&part.id));
            let mut details = p.words.part_details(part);
            details.extend(counts);
            Field {
                label: part.what.clone(),
                hint: details.join(" · "),
                kind: "number",
                ..Field::text(&p, "shelf-title", name, &value)
            }
        })
        .collect();
    form.show()
}
