//! A machine's parts: where each sits on the drawing, what is printed on it, what lies on the shelf, what to buy.

use super::shopping::{self, Bought};
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
};
use askama::Template;
use papers::{
    drawing::{Emphasis, Side, side_with},
    parts_on_side,
};
use std::collections::BTreeMap;
use yard::{
    book::{Book, View},
    state::MachineState,
    upkeep::part_numbers,
};

#[derive(Template)]
#[template(path = "kept/parts.html")]
struct PartsPage {
    p: Page,
    name: String,
    here: String,
    drawings: Vec<(String, String)>,
    parts: Vec<PartLine>,
    to_buy: Vec<Bought>,
    ahead: String,
    papers: Vec<(String, String)>,
}

struct PartLine {
    number: u32,
    id: String,
    what: String,
    details: String,
    counts: String,
    from: Option<String>,
    instead: Vec<String>,
}

/// Shows them.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let here = format!("{}/m/{id}", p.home());
    let ahead = shopping::ahead(&p);
    page(&PartsPage {
        name: book.machine.name.clone(),
        drawings: drawings(&p, book),
        parts: parts(&p, state, book),
        to_buy: shopping::of_machine(desk, &p, state),
        ahead,
        papers: ["a4", "letter"]
            .into_iter()
            .map(|size| {
                let word = p.t(&format!("paper-named-{size}"));
                let name = p.t2("paper-link", "paper", p.t("link-parts-list"), "size", word);
                (format!("{here}/papers/parts-list.pdf?size={size}"), name)
            })
            .collect(),
        here,
        p,
    })
}

fn parts(p: &Page, state: &MachineState, book: &Book) -> Vec<PartLine> {
    let numbers = part_numbers(&book.parts);
    let line = |part: &yard::book::Part| {
        let counts = p.words.part_counts(part, state.shelf.get(&part.id));
        Some(PartLine {
            number: *numbers.get(&part.id)?,
            id: part.id.to_string(),
            what: part.what.clone(),
            details: p.words.part_details(part).join(" · "),
            counts: counts.join(" · "),
            from: part
                .from
                .as_deref()
                .map(|from| p.t1("part-from", "from", from)),
            instead: part
                .instead
                .iter()
                .map(|one| p.words.part_instead(one))
                .collect(),
        })
    };
    book.parts.iter().filter_map(line).collect()
}

/// Both sides, as far as parts have places there.
fn drawings(p: &Page, book: &Book) -> Vec<(String, String)> {
    let numbers = part_numbers(&book.parts);
    let sides = [
        (View::Left, "side-left", "parts-left"),
        (View::Right, "side-right", "parts-right"),
    ];
    let drawn = sides.into_iter().filter_map(|(view, key, id)| {
        let marks = parts_on_side(book, &numbers, view);
        if marks.is_empty() {
            return None;
        }
        let caption = p.t1(key, "name", &book.machine.name);
        let what = Side {
            book,
            view,
            numbers: &BTreeMap::new(),
            shows: &|_| Emphasis::Hidden,
            title: &caption,
            zone: None,
            id,
            radius: 17.0,
            close_up: false,
        };
        Some((side_with(&what, &marks), caption.clone()))
    });
    drawn.collect()
}
