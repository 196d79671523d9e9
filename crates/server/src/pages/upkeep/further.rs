//! What a form asks of the hours beside the first meter: the other meters, and hours as told where no meter counts.

use super::short::Field;
use crate::{
    accept,
    desk::Desk,
    page::Page,
    pages::walkround::{
        form::{self, Typed},
        question::Asked,
    },
    refusal::Refusal,
};
use yard::{
    book::Book,
    entry::{Body, HoursTold, MeterReading},
    id::MachineId,
    people::Deed,
    state::MachineState,
};

/// The fields: one for each further meter; hours as told where there is no meter, or it is broken.
pub(crate) fn fields(p: &Page, state: &MachineState, book: &Book, typed: &Typed) -> Vec<Field> {
    let further = book.further_meters.iter().map(|one| {
        let name = format!("m.{}", one.id);
        let typed = typed.get("m", one.id.as_str()).to_owned();
        Field {
            label: p.t1("meters-shows-too", "meter", &one.name),
            ..Field::text(p, "meters-shows-too-plain", name, &typed)
        }
    });
    let told = asks_told(state, book);
    further
        .chain(told.then(|| Field::text(p, "meters-ran", "ran", typed.field("ran"))))
        .collect()
}

/// What was typed in them, as entries; what does not read is asked about.
pub(crate) fn read(desk: &Desk, book: &Book, typed: &Typed, asked: &mut Vec<Asked>) -> Vec<Body> {
    let p = desk.page();
    let mut hours = |text: &str| {
        form::hours(&p, text, &desk.reading()).unwrap_or_else(|told| {
            asked.push(told);
            None
        })
    };
    let mut bodies = Vec::new();
    for one in &book.further_meters {
        if let Some(shows) = hours(typed.get("m", one.id.as_str())) {
            let meter = Some(one.id.clone());
            bodies.push(Body::MeterReading(MeterReading { meter, shows }));
        }
    }
    let ran = hours(typed.field("ran"));
    bodies.extend(ran.map(|ran| Body::HoursTold(HoursTold { ran })));
    bodies
}

/// Keeps them.
pub(crate) fn keep(desk: &Desk, machine: &MachineId, bodies: Vec<Body>) -> Result<(), Refusal> {
    if !bodies.is_empty() {
        desk.may(Deed::ReadMeter)?;
    }
    for body in bodies {
        accept::keep(desk, Some(machine), body)?;
    }
    Ok(())
}

fn asks_told(state: &MachineState, book: &Book) -> bool {
    book.is_without_meter() || state.hours.broken.is_some()
}
