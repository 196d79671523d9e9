//! The pocket's first page: the machines a phone may hold, and what waits on it. It names nobody.

use super::words;
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
};
use askama::Template;

#[derive(Template)]
#[template(path = "pocket/shelf.html")]
struct ShelfPage {
    p: Page,
    words: String,
    address: String,
    machines: Vec<Held>,
}

struct Held {
    id: String,
    name: String,
}

/// Shows it to anybody: it holds nothing but the machines' names.
pub(crate) fn show(desk: &Desk) -> Answer {
    let p = Page {
        person_name: String::new(),
        ..desk.page()
    };
    let with_book = desk.view.machines.iter().filter_map(|(id, machine)| {
        Some(Held {
            id: id.to_string(),
            name: machine.book()?.book.machine.name.clone(),
        })
    });
    page(&ShelfPage {
        words: words::dictionary(&p),
        address: desk.app.address.clone(),
        machines: with_book.collect(),
        p,
    })
}
