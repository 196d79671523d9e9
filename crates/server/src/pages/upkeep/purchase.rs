//! Something bought for a machine: what, and what it cost.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, capital},
    },
};
use yard::{
    book::Part,
    entry::{self, Body},
    id::ItemId,
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
    let what = typed.field("what");
    if what.is_empty() {
        let asked = vec![form::asked(&desk.page(), "ask-purchase")];
        return render(desk, machine, typed, asked);
    }
    let purchase = entry::Purchase {
        what: what.to_owned(),
        cost: typed.some("cost"),
        part: ItemId::new(typed.field("part"))
            .filter(|id| book.parts.iter().any(|part| part.id == *id)),
        point: None,
    };
    accept::keep(desk, Some(&id), Body::Purchase(purchase))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::SignOff)?;
    let mut form = ShortForm::new(desk, machine, "purchase", "purchase-title", "do-keep")?;
    let p = form.p.clone();
    form.asked = asked;
    form.fields = vec![
        Field::text(&p, "purchase-what", "what", typed.field("what")),
        Field::text(&p, "purchase-cost", "cost", typed.field("cost")),
    ];
    let (_, _, book) = desk.machine_and_book(machine)?;
    let part = |part: &Part| Choice {
        code: part.id.to_string(),
        word: capital(&part.what),
        chosen: part.id.as_str() == typed.field("part"),
    };
    if !book.parts.is_empty() {
        let parts = book.parts.iter().map(part).collect();
        form.fields.push(Field {
            one_column: true,
            ..Field::choice(&p, "purchase-part", "part", parts)
        });
    }
    form.show()
}
