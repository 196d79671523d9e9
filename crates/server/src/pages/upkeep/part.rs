//! A part fitted: which, in words, and the closer checks that it begins.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    names,
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, capital},
    },
};
use std::collections::BTreeSet;
use yard::{
    book::{Book, Part, Rhythm},
    entry::{self, Body},
    id::ItemId,
    people::Deed,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps it. What the book says of a part need not be typed.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Repair)?;
    let (id, _, book) = desk.machine_and_book(machine)?;
    let listed = book
        .parts
        .iter()
        .find(|part| part.id.as_str() == typed.field("part"));
    let what = match (typed.field("what"), listed) {
        ("", None) => {
            let asked = vec![form::asked(&desk.page(), "ask-part")];
            return render(desk, machine, typed, asked);
        }
        ("", Some(part)) => part.what.clone(),
        (typed, _) => typed.to_owned(),
    };
    // A part of several points says nothing of where this one went.
    let point = listed.and_then(|part| match part.points.as_slice() {
        [only] => Some(only.clone()),
        _ => None,
    });
    let event = events(book)
        .into_iter()
        .find(|event| event.as_str() == typed.field("event"))
        .cloned();
    let Some(count) = how_many(typed) else {
        let asked = vec![form::asked(&desk.page(), "ask-how-many")];
        return render(desk, machine, typed, asked);
    };
    let fitted = entry::PartFitted {
        part: listed.map(|part| part.id.clone()),
        what,
        point,
        event,
        cost: typed.some("cost"),
        count,
    };
    accept::keep(desk, Some(&id), Body::PartFitted(fitted))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

/// The events after which the book asks for closer checks.
fn events(book: &Book) -> BTreeSet<&ItemId> {
    let rhythms = book.points.iter().flat_map(|point| &point.rhythms);
    rhythms
        .filter_map(|rhythm| match rhythm {
            Rhythm::After { event, .. } => Some(event),
            _ => None,
        })
        .collect()
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Repair)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "part", "part-title", "do-keep")?;
    let p = form.p.clone();
    let names = names::names(desk, state);
    form.cautions = p.words.cautions(&["caution-engine-off"], book);
    form.asked = asked;
    let parts: Vec<_> = book.parts.iter().map(|part| choice(part, typed)).collect();
    if !parts.is_empty() {
        form.fields.push(Field {
            one_column: true,
            ..Field::choice(&p, "part-listed", "part", parts)
        });
    }
    let what = Field::text(&p, "part-what", "what", typed.field("what"));
    form.fields.push(what);
    let cost = Field::text(&p, "part-cost", "cost", typed.field("cost"));
    form.fields.push(cost);
    form.fields
        .push(Field::text(&p, "part-count", "count", typed.field("count")));
    let events = events(book).into_iter().map(|event| Choice {
        code: event.to_string(),
        word: capital(&p.words.event(event, &names)),
        chosen: event.as_str() == typed.field("event"),
    });
    let events: Vec<_> = events.collect();
    if !events.is_empty() {
        let event = Field::choice(&p, "part-event", "event", events);
        form.fields.push(event);
    }
    form.show()
}

/// How many, as typed: none where nothing is said; outer none where it is no number from 1 to 10 000.
pub(crate) fn how_many(typed: &Typed) -> Option<Option<u32>> {
    match typed.field("count") {
        "" => Some(None),
        text => Some(Some(
            text.parse().ok().filter(|n| (1..=10_000).contains(n))?,
        )),
    }
}

/// A part of the book with its size, as on the box.
pub(crate) fn choice(part: &Part, typed: &Typed) -> Choice {
    let size = part.size.iter().map(|size| format!(" · {size}"));
    Choice {
        code: part.id.to_string(),
        word: capital(&part.what) + &size.collect::<String>(),
        chosen: part.id.as_str() == typed.field("part"),
    }
}
