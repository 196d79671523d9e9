//! Who may run this machine.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::{form::Typed, question::Choice},
    refusal::Refusal,
};
use askama::Template;
use yard::{
    entry::{Body, SignOff},
    id::PersonId,
    people::{Deed, Role},
    state::MachineState,
};

#[derive(Template)]
#[template(path = "people/sign_offs.html")]
struct SignOffsPage {
    p: Page,
    machine: String,
    here: String,
    asked: Vec<String>,
    people: Vec<Line>,
}

struct Line {
    id: PersonId,
    name: String,
    now: String,
    choices: Vec<Choice>,
}

/// Shows who is signed off.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, Vec::new())
}

/// Gives or withdraws a sign-off.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::SignOff)?;
    let (id, ..) = desk.machine(machine)?;
    let p = desk.page();
    let person = typed
        .field("person")
        .parse()
        .ok()
        .map(PersonId)
        .filter(|who| desk.view.names.contains_key(who))
        .ok_or(Refusal::BadRequest)?;
    let until = match typed.field("until") {
        "" => None,
        text => match text.parse() {
            Ok(date) => Some(date),
            Err(_) => return render(desk, machine, vec![p.t("ask-date")]),
        },
    };
    let (given, in_sight) = match typed.field("given") {
        "alone" => (true, false),
        "in-sight" => (true, true),
        "withdrawn" => (false, false),
        _ => return render(desk, machine, vec![p.t("ask-sign-off")]),
    };
    let limits = typed.some("limits");
    accept::keep(
        desk,
        Some(&id),
        Body::SignOff(SignOff {
            person,
            given,
            until,
            limits,
            in_sight,
        }),
    )?;
    go(&format!("/y/{}/m/{id}/sign-offs", desk.app.tag()))
}

fn render(desk: &Desk, machine: &str, asked: Vec<String>) -> Answer {
    desk.may(Deed::SignOff)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let needing = desk
        .view
        .yard
        .people
        .iter()
        .filter(|(_, s)| matches!(s.role_at(desk.now), Role::Operator | Role::Learner));
    let people = needing.map(|(who, s)| {
        let codes: &[&str] = if s.role_at(desk.now) == Role::Learner {
            &["in-sight", "withdrawn"]
        } else {
            &["alone", "in-sight", "withdrawn"]
        };
        let choices = codes.iter().map(|code| Choice {
            code: (*code).to_owned(),
            word: p.t(&format!("sign-off-{code}")),
            chosen: false,
        });
        Line {
            id: *who,
            name: desk.view.name(*who),
            now: standing(&p, state, *who),
            choices: choices.collect(),
        }
    });
    let people = people.collect();
    page(&SignOffsPage {
        machine: book.machine.name.clone(),
        here: format!("{}/m/{id}", p.home()),
        asked,
        people,
        p,
    })
}

/// How somebody stands on a machine, in a line.
pub(crate) fn standing(p: &Page, state: &MachineState, who: PersonId) -> String {
    let Some(signed) = state.sign_offs.get(&who) else {
        return p.t("sign-off-none");
    };
    let how = p.t(if signed.in_sight {
        "sign-off-in-sight"
    } else {
        "sign-off-alone"
    });
    let until = signed
        .until
        .map(|date| p.t1("sign-off-until-date", "date", &p.words.date(date)))
        .unwrap_or_default();
    [how, until, signed.limits.clone().unwrap_or_default()]
        .into_iter()
        .filter(|s| !s.is_empty())
        .collect::<Vec<_>>()
        .join(" · ")
}
