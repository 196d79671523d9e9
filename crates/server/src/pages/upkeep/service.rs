//! Topping up, adjusting: what was done, and what it closes by naming it.

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
use yard::{
    book::{Book, Point, PointKind},
    entry::{self, Body},
    id::{FaultRef, ItemId, PointId},
    people::Deed,
    state::MachineState,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps a top-up (where an amount is given) or an adjustment (where words are), closing the finding chosen.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let mends: Vec<FaultRef> = typed
        .field("mends")
        .parse()
        .ok()
        .into_iter()
        .filter(|f| state.findings.contains_key(f))
        .collect();
    let (amount, what) = (typed.field("amount"), typed.field("what"));
    let mut asked = Vec::new();
    let added = match amount {
        "" => None,
        text => match quantity::parse(text, &desk.reading(), Some(quantity::Dimension::Volume)) {
            Ok(added) => Some(added),
            Err(trouble) => {
                let told = p.words.quantity_trouble(&trouble);
                asked.push(Asked {
                    what: told.what,
                    hint: told.next,
                });
                None
            }
        },
    };
    if added.is_none() && what.is_empty() {
        asked.push(form::asked(&p, "ask-service"));
    }
    if !asked.is_empty() {
        return render(desk, machine, typed, asked);
    }
    let body = match added {
        Some(added) => Body::TopUp(entry::TopUp {
            fluid: ItemId::new(typed.field("fluid")),
            added,
            grade: typed.some("grade"),
            mends,
        }),
        None => {
            let named = PointId::new(typed.field("point"))
                .filter(|id| book.points.iter().any(|known| known.id == *id));
            let point = named.or_else(|| mends.first().and_then(|f| f.point.clone()));
            Body::Adjustment(entry::Adjustment {
                point,
                what: what.to_owned(),
                event: None,
                mends,
            })
        }
    };
    accept::keep(desk, Some(&id), body)?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Service)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "service", "service-title", "do-keep")?;
    let p = form.p.clone();
    form.cautions = p
        .words
        .cautions(&["caution-engine-off", "caution-pressure"], book);
    form.asked = asked;
    let fluids = book
        .fluids
        .iter()
        .map(|f| Choice {
            code: f.id.to_string(),
            word: capital(&f.name),
            chosen: f.id.as_str() == typed.field("fluid"),
        })
        .collect();
    form.fields = vec![
        Field::choice(&p, "service-fluid", "fluid", fluids),
        Field::text(&p, "service-amount", "amount", typed.field("amount")),
        Field::text(&p, "service-grade", "grade", typed.field("grade")),
        Field::long(&p, "service-what", "what", typed.field("what")),
    ];
    let adjusted = adjustable(book, typed.field("point"));
    if !adjusted.is_empty() {
        form.fields.push(Field {
            one_column: true,
            ..Field::choice(&p, "service-point", "point", adjusted)
        });
    }
    let open = open_choices(desk, &form.p, state, typed.field("mends"));
    if !open.is_empty() {
        form.fields.push(Field {
            one_column: true,
            ..Field::choice(&p, "service-mends", "mends", open)
        });
    }
    form.show()
}

/// What can be adjusted: what is measured, and bolts.
fn adjustable(book: &Book, chosen: &str) -> Vec<Choice> {
    let can = |point: &&Point| matches!(point.kind, PointKind::Measure(_) | PointKind::Bolts);
    let choice = |point: &Point| Choice {
        code: point.id.to_string(),
        word: capital(&point.what),
        chosen: point.id.as_str() == chosen,
    };
    book.points.iter().filter(can).map(choice).collect()
}

fn open_choices(
    desk: &Desk,
    p: &crate::page::Page,
    state: &MachineState,
    chosen: &str,
) -> Vec<Choice> {
    let names = names::names(desk, state);
    let open = state.findings.values().filter(|f| f.open());
    open.map(|f| Choice {
        code: f.id.to_string(),
        word: p.words.found(f, &names),
        chosen: f.id.to_string() == chosen,
    })
    .collect()
}
