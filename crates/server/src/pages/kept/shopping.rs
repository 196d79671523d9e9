//! The shopping list of the whole yard: what is due soon, and what is low or out, machine by machine.

use crate::{
    desk::{Answer, Desk, page},
    names,
    page::Page,
};
use askama::Template;
use words::Arg;
use yard::{
    id::MachineId,
    state::MachineState,
    upkeep::{Ahead, shopping},
};

#[derive(Template)]
#[template(path = "kept/shopping.html")]
struct ShoppingPage {
    p: Page,
    ahead: String,
    machines: Vec<OfMachine>,
}

struct OfMachine {
    id: MachineId,
    name: String,
    lines: Vec<Bought>,
}

/// One line of the list.
pub(crate) struct Bought {
    /// How many of what.
    pub(crate) what: String,
    /// Why.
    pub(crate) why: String,
    /// What is printed on it, where to get it, what fits instead.
    pub(crate) more: Vec<String>,
}

/// Shows it.
pub(crate) fn show(desk: &Desk) -> Answer {
    let p = desk.page();
    let machines = desk.view.machines.iter().filter_map(|(id, state)| {
        let lines = of_machine(desk, &p, state);
        let name = state.book()?.book.machine.name.clone();
        let id = id.clone();
        (!lines.is_empty()).then_some(OfMachine { id, name, lines })
    });
    page(&ShoppingPage {
        ahead: ahead(&p),
        machines: machines.collect(),
        p,
    })
}

/// How far the list looks ahead, in words.
pub(crate) fn ahead(p: &Page) -> String {
    let ahead = Ahead::default();
    p.words.say(
        "shopping-ahead",
        &[("hours", ahead.hours.into()), ("days", ahead.days.into())],
    )
}

/// One machine's lines.
pub(crate) fn of_machine(desk: &Desk, p: &Page, state: &MachineState) -> Vec<Bought> {
    let Some(book) = state.book().map(|adopted| &adopted.book) else {
        return Vec::new();
    };
    let names = names::names(desk, state);
    let lines = shopping(&desk.situation(state), &Ahead::default());
    let bought = lines.iter().filter_map(|line| {
        let part = book.parts.iter().find(|part| part.id == line.part)?;
        let mut more = vec![p.words.part_details(part).join(" · ")];
        let from = part.from.as_deref();
        more.extend(from.map(|from| p.words.say("part-from", &[("from", Arg::from(from))])));
        more.extend(part.instead.iter().map(|one| p.words.part_instead(one)));
        Some(Bought {
            what: p.words.to_buy(line, part),
            why: p.words.to_buy_why(line, part, &names).join(" · "),
            more,
        })
    });
    bought.collect()
}
