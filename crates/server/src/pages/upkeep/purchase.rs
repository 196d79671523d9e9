//! Something bought for a machine: what, and what it cost.

use super::{
    part::{choice, how_many},
    short::{Field, ShortForm},
};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::Asked,
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

/// Keeps it. The cost is kept as written.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::SignOff)?;
    let (id, _, book) = desk.machine_and_book(machine)?;
    let listed = book
        .parts
        .iter()
        .find(|part| part.id.as_str() == typed.field("part"));
    let ask = |key| {
        let asked = vec![form::asked(&desk.page(), key)];
        render(desk, machine, typed, asked)
    };
    let what = match (typed.field("what"), listed) {
        ("", None) => return ask("ask-purchase"),
        ("", Some(part)) => part.what.clone(),
        (typed, _) => typed.to_owned(),
    };
    let Some(count) = how_many(typed) else {
        return ask("ask-how-many");
    };
    let purchase = entry::Purchase {
        what,
        cost: typed.some("cost"),
        part: listed.map(|part| part.id.clone()),
        point: None,
        count: count.filter(|_| listed.is_some()),
    };
    accept::keep(desk, Some(&id), Body::Purchase(purchase))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::SignOff)?;
    let mut form = ShortForm::new(desk, machine, "purchase", "purchase-title", "do-keep")?;
    let p = form.p.clone();
    form.asked = asked;
    let (_, _, book) = desk.machine_and_book(machine)?;
    let parts: Vec<_> = book.parts.iter().map(|part| choice(part, typed)).collect();
    if !parts.is_empty() {
        form.fields.push(Field {
            one_column: true,
            ..Field::choice(&p, "part-listed", "part", parts)
        });
    }
    form.fields.extend([
        Field::text(&p, "purchase-what", "what", typed.field("what")),
        Field::text(&p, "part-count", "count", typed.field("count")),
        Field::text(&p, "purchase-cost", "cost", typed.field("cost")),
    ]);
    form.show()
}
