//! Questions that only steward or deputy can settle.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    names,
    page::Page,
    pages::walkround::{form, form::Typed, question::Choice},
    refusal::Refusal,
};
use askama::Template;
use yard::{
    entry::{Body, Ruling, RulingSays},
    id::{EntryId, MachineId},
    people::Deed,
    state::{Asks, Question},
};

#[derive(Template)]
#[template(path = "journal/questions.html")]
struct QuestionsPage {
    p: Page,
    questions: Vec<Line>,
}

struct Line {
    entry: EntryId,
    machine: String,
    asks: String,
    when: String,
    choices: Vec<Choice>,
    unmetered: bool,
}

/// Shows all open questions.
pub(crate) fn show(desk: &Desk) -> Answer {
    desk.may(Deed::Settle)?;
    let p = desk.page();
    let all = desk
        .view
        .machines
        .values()
        .flat_map(|m| m.asked().map(move |q| (m, q)));
    let questions = all.map(|(machine, question)| {
        let meter = matches!(
            question.asks,
            Asks::MeterFell { .. }
                | Asks::MeterJumped { .. }
                | Asks::MeterStuck { .. }
                | Asks::BrokenMeterMoved { .. }
        );
        Line {
            entry: question.entry,
            machine: machine
                .book()
                .map(|b| b.book.machine.name.clone())
                .unwrap_or_default(),
            asks: p
                .words
                .question(question, &names::names(desk, machine))
                .what,
            when: p.words.moment(question.at, desk.now, &desk.zone),
            choices: choices(&p, question),
            unmetered: meter,
        }
    });
    let questions = questions.collect();
    page(&QuestionsPage { questions, p })
}

fn choices(p: &Page, question: &Question) -> Vec<Choice> {
    let codes: &[&str] = match question.asks {
        Asks::MeterFell { .. } => &["wrong", "replaced", "rolled-over"],
        Asks::MeterJumped { .. } => &["wrong", "right", "replaced"],
        Asks::MeterStuck { .. } => &["wrong", "right", "stood-still", "replaced"],
        Asks::BrokenMeterMoved { .. } => &["wrong", "right", "replaced"],
        Asks::MeterSaidBroken { .. } => &["is-broken", "not-broken"],
        Asks::ToldTooMuch { .. } | Asks::NoMeterToRead { .. } => &["wrong", "right"],
        _ => &["answered"],
    };
    codes
        .iter()
        .map(|code| Choice {
            code: (*code).to_owned(),
            word: p.t(&format!("settle-{code}")),
            chosen: codes.len() == 1,
        })
        .collect()
}

/// Settles one.
pub(crate) fn settle(desk: &Desk, entry: &str, typed: &Typed) -> Answer {
    desk.may(Deed::Settle)?;
    let about: EntryId = entry.parse().map_err(|_| Refusal::NotFound)?;
    let machine: MachineId = desk
        .view
        .machines
        .iter()
        .find(|(_, m)| m.asked().any(|q| q.entry == about))
        .map(|(id, _)| id.clone())
        .ok_or(Refusal::NotFound)?;
    let unmetered = form::hours(&desk.page(), typed.field("unmetered"), &desk.reading())
        .ok()
        .flatten();
    let says = match typed.field("says") {
        "wrong" | "not-broken" => RulingSays::ReadingWrong,
        "right" | "is-broken" => RulingSays::ReadingRight,
        "stood-still" => RulingSays::MeterBroken,
        "replaced" => RulingSays::MeterReplaced { unmetered },
        "rolled-over" => RulingSays::MeterRolledOver,
        "answered" => RulingSays::Answered,
        _ => return go(&format!("/y/{}/questions", desk.app.tag())),
    };
    accept::keep(
        desk,
        Some(&machine),
        Body::Ruling(Ruling {
            about,
            says,
            why: typed.field("why").to_owned(),
        }),
    )?;
    go(&format!("/y/{}/questions", desk.app.tag()))
}
