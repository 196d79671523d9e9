//! The handover page: the rest order with what proves each step, engine, hours, and what the next person must know.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::upkeep::{further, short::Field},
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, choices},
        round::hours_last,
    },
};
use askama::Template;
use yard::{
    book::{Book, RestKind, RestStep, Without},
    code::Coded,
    entry::{self, Body, EngineLeft, RestAnswer, RestState},
    people::Deed,
    state::MachineState,
};

#[derive(Template)]
#[template(path = "handover/handover.html")]
struct HandoverPage {
    p: Page,
    machine: String,
    here: String,
    cautions: Vec<String>,
    asked: Vec<Asked>,
    engines: Vec<Choice>,
    steps: Vec<Step>,
    hours_last: String,
    hours_typed: String,
    fields: Vec<Field>,
    next: String,
    /// Whether it has an arm whose page shows how it is parked well.
    arm: bool,
}

/// What holds while a machine is left.
pub(crate) const CAUTIONS: [&str; 2] = ["caution-pressure", "caution-held"];

/// One step of the rest order, as the template shows it.
pub(crate) struct Step {
    pub(crate) id: String,
    pub(crate) number: usize,
    pub(crate) what: String,
    pub(crate) proof: String,
    pub(crate) to_dig: String,
    pub(crate) choices: Vec<Choice>,
    pub(crate) note: String,
    /// Whether it is a lock: left undone it stands the machine down.
    pub(crate) lock: bool,
}

/// The steps of the book's rest order, with what was typed.
pub(crate) fn steps(p: &Page, book: &Book, typed: &Typed) -> Vec<Step> {
    let numbered = book.rest.iter().enumerate();
    numbered
        .map(|(i, rest)| step(p, i + 1, rest, typed))
        .collect()
}

/// Shows the handover.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    desk.may(Deed::HandOver)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    render(desk, machine, state, book, &Typed::default(), Vec::new())
}

/// Keeps the handover. Every step and the engine must be answered; how they are answered is the verdict's affair.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::HandOver)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let engine = EngineLeft::from_code(typed.field("engine"));
    if engine.is_none() {
        asked.push(form::asked(&p, "ask-engine"));
    }
    let mut steps = Vec::new();
    for step in &book.rest {
        let note = typed.some(&format!("n.{}", step.id));
        match RestState::from_code(typed.get("s", step.id.as_str())) {
            Some(state) => steps.push(RestAnswer {
                step: step.id.clone(),
                state,
                note,
            }),
            None => asked.push(Asked {
                what: p.t1("ask-rest-step", "step", &step.what),
                hint: p.t("ask-rest-step.next"),
            }),
        }
    }
    let hours = form::hours(&p, typed.field("hours"), &desk.reading()).unwrap_or_else(|told| {
        asked.push(told);
        None
    });
    let more = further::read(desk, book, typed, &mut asked);
    let (Some(engine), true) = (engine, asked.is_empty()) else {
        return render(desk, machine, state, book, typed, asked);
    };
    let next = typed.some("next");
    let revision = state
        .book()
        .map(|b| b.revision)
        .ok_or(crate::refusal::Refusal::NotFound)?;
    further::keep(desk, &id, more)?;
    accept::keep(
        desk,
        Some(&id),
        Body::Handover(entry::Handover {
            book: revision,
            hours,
            engine,
            steps,
            next,
        }),
    )?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

/// How the engine may be left. A machine without one has no choice, and it is not asked.
pub(crate) fn engines(p: &Page, book: &Book, chosen: &str) -> Vec<Choice> {
    let off = EngineLeft::Off.code();
    choices::<EngineLeft>(p, "left", chosen)
        .into_iter()
        .filter(|c| c.code != EngineLeft::NotSaid.code())
        .filter(|c| c.code == off || !book.lacks(Without::Engine))
        .collect()
}

fn render(
    desk: &Desk,
    machine: &str,
    state: &MachineState,
    book: &Book,
    typed: &Typed,
    asked: Vec<Asked>,
) -> Answer {
    let p = desk.page();
    let engines = engines(&p, book, typed.field("engine"));
    page(&HandoverPage {
        machine: book.machine.name.clone(),
        here: format!("{}/m/{machine}", p.home()),
        cautions: p.words.cautions(&CAUTIONS, book),
        asked,
        engines,
        steps: steps(&p, book, typed),
        hours_last: hours_last(&p, state),
        hours_typed: typed.field("hours").to_owned(),
        fields: further::fields(&p, state, book, typed),
        next: typed.field("next").to_owned(),
        arm: crate::pages::yard::machine::may_have_an_arm(book),
        p,
    })
}

fn step(p: &Page, number: usize, step: &RestStep, typed: &Typed) -> Step {
    let id = step.id.as_str();
    // Only what is lowered can instead be held up by a lock.
    let fits = |c: &Choice| c.code != "on-lock" || step.is == RestKind::Lowered;
    Step {
        number,
        what: step.what.clone(),
        proof: step.proof.clone().unwrap_or_default(),
        to_dig: step.to_dig.clone().unwrap_or_default(),
        choices: choices::<RestState>(p, "rest-short", typed.get("s", id))
            .into_iter()
            .filter(fits)
            .collect(),
        note: typed.get("n", id).to_owned(),
        lock: step.is == RestKind::Lock,
        id: id.to_owned(),
    }
}
