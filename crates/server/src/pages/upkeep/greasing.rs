//! Greasing outside a round: which joints, and what became of each.

use super::short::{Field, ShortForm};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    names,
    pages::walkround::{
        form::{self, Read, Typed},
        question::{Asked, choices},
    },
};
use yard::{
    book::{Point, PointKind},
    entry::{self, Answered, Body, GreaseTook},
    id::FaultRef,
    people::Deed,
    state::MachineState,
    walkround::numbers,
};

/// Shows the form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps the joints that were answered. What refused before and takes grease now is named as mended.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Service)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let (mut fittings, mut asked) = (Vec::new(), Vec::new());
    for point in book.points.iter().filter(|point| is_fitting(point)) {
        match form::read(&p, point, typed, &desk.reading(), false) {
            Read::Answered(answered) => fittings.push(answered),
            Read::Nothing => {}
            Read::Asked(told) => asked.extend(told),
        }
    }
    if fittings.is_empty() && asked.is_empty() {
        asked.push(form::asked(&p, "ask-greasing"));
    }
    if !asked.is_empty() {
        return render(desk, machine, typed, asked);
    }
    let mends = fittings
        .iter()
        .flat_map(|answered| takes_again(state, answered))
        .collect();
    accept::keep(
        desk,
        Some(&id),
        Body::Greasing(entry::Greasing { fittings, mends }),
    )?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn is_fitting(point: &Point) -> bool {
    matches!(point.kind, PointKind::Fitting(_))
}

/// The refusals, not yet mended, that an answer says are over.
fn takes_again(state: &MachineState, answered: &Answered) -> Vec<FaultRef> {
    if !matches!(
        answered.answer.took(),
        Some(GreaseTook::Seen | GreaseTook::Took)
    ) {
        return Vec::new();
    }
    let open = state.findings.values().filter(|finding| {
        finding.open()
            && finding.id.point.as_ref() == Some(&answered.point)
            && matches!(&finding.what, yard::state::Found::Answer(found) if found.answer.took() == Some(GreaseTook::Refused))
    });
    open.map(|finding| finding.id.clone()).collect()
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Service)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "greasing", "greasing-title", "do-keep")?;
    let p = form.p.clone();
    let names = names::names(desk, state);
    form.cautions = p
        .words
        .cautions(&["caution-engine-off", "caution-pressure"], book);
    form.lines = vec![p.t("greasing-intro")];
    if !book.points.iter().any(is_fitting) {
        form.lines = vec![p.t("greasing-none")];
        form.button = String::new();
        return form.show();
    }
    form.asked = asked;
    let numbers = numbers(book);
    let number = |point: &Point| numbers.get(&point.id).copied().unwrap_or_default();
    let mut fittings: Vec<_> = book.points.iter().filter(|at| is_fitting(at)).collect();
    fittings.sort_by_key(|point| number(point));
    form.fields = fittings
        .into_iter()
        .map(|point| Field {
            label: format!("{} · {}", number(point), p.words.point(&point.id, &names)),
            ..Field::choice(
                &p,
                "greasing-joint",
                format!("a.{}", point.id),
                choices::<GreaseTook>(&p, "grease", typed.get("a", point.id.as_str())),
            )
        })
        .collect();
    form.show()
}
