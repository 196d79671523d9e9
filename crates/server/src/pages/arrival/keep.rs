//! Keeping what was said at a step.

use super::render;
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::form::{self, Typed},
    refusal::Refusal,
};
use yard::{
    arrival::plan,
    book::Book,
    code::Coded,
    entry::{Arrival, ArrivalStep, Body, FluidNow},
    id::ItemId,
    people::Deed,
    state::MachineState,
};

/// More than anybody counts.
const MOST: u32 = 10_000;

/// Keeps a step: one entry, or one for each thing that was told of.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Arrive)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let step = ArrivalStep::from_code(typed.field("step")).ok_or(Refusal::NotFound)?;
    match said(desk, state, book, step, typed) {
        Ok(all) => {
            for one in all {
                accept::keep(desk, Some(&id), Body::Arrival(one))?;
            }
            let step = step.code();
            go(&format!("/y/{}/m/{id}/arrival#{step}", desk.app.tag()))
        }
        Err(key) => render(desk, machine, typed, Some(form::asked(&desk.page(), key))),
    }
}

/// What the form says, or the key of what is asked.
fn said(
    desk: &Desk,
    state: &MachineState,
    book: &Book,
    step: ArrivalStep,
    typed: &Typed,
) -> Result<Vec<Arrival>, &'static str> {
    if state.arrival.is_none() && step != ArrivalStep::Came {
        return Err("ask-arrival-begun");
    }
    let one = Arrival {
        step,
        about: None,
        fluid: None,
        count: None,
        says: typed.some("says"),
    };
    let told = one.says.is_some();
    match step {
        ArrivalStep::Came | ArrivalStep::Stop => Ok(vec![one]),
        ArrivalStep::Fluids => fluids(book, typed, one),
        ArrivalStep::FittingsFirst | ArrivalStep::FittingsSecond => {
            let count: Option<u32> = typed.field("count").parse().ok();
            let count = count.filter(|count| *count <= MOST);
            let count = Some(count.ok_or("ask-arrival-count")?);
            Ok(vec![Arrival { count, ..one }])
        }
        ArrivalStep::Weaknesses => {
            let each = book.weaknesses.iter().filter_map(|weakness| {
                let says = Some(typed.some(&format!("w.{}", weakness.id))?);
                Some(about(&one, &weakness.id, None, says))
            });
            let each: Vec<Arrival> = each.collect();
            match (each.is_empty(), told) {
                (false, _) => Ok(each),
                (true, true) => Ok(vec![one]),
                (true, false) => Err("ask-arrival-says"),
            }
        }
        ArrivalStep::Over => {
            let plan = plan(&desk.situation(state));
            let mut others = plan
                .steps
                .iter()
                .filter(|step| step.step != ArrivalStep::Over);
            if others.any(|step| !step.done) && !told {
                return Err("ask-arrival-end");
            }
            Ok(vec![one])
        }
        _ if told => Ok(vec![one]),
        _ => Err("ask-arrival-says"),
    }
}

/// One entry for each fluid that is known now; where the book names none, a word of it.
fn fluids(book: &Book, typed: &Typed, one: Arrival) -> Result<Vec<Arrival>, &'static str> {
    let known = book.fluids.iter().filter_map(|fluid| {
        let now = FluidNow::from_code(typed.field(&format!("f.{}", fluid.id)))?;
        Some(about(&one, &fluid.id, Some(now), one.says.clone()))
    });
    let known: Vec<Arrival> = known.collect();
    match (known.is_empty(), book.fluids.is_empty(), one.says.is_some()) {
        (false, ..) => Ok(known),
        (true, true, true) => Ok(vec![one]),
        (true, true, false) => Err("ask-arrival-says"),
        (true, false, _) => Err("ask-arrival-fluid"),
    }
}

fn about(one: &Arrival, id: &ItemId, fluid: Option<FluidNow>, says: Option<String>) -> Arrival {
    Arrival {
        about: Some(id.clone()),
        fluid,
        says,
        ..one.clone()
    }
}
