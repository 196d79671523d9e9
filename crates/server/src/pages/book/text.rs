//! The book: its gaps first, its points with numbers and limits, its text; the steward checks and adopts changes.

use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::walkround::form::Typed,
};
use askama::Template;
use words::Arg;
use yard::{
    book::{Book, compare, gaps, read},
    entry::{Body, BookAdopted, GapAccepted},
    id::MachineId,
    people::Deed,
    state::MachineState,
    walkround::numbers,
};

#[derive(Template)]
#[template(path = "book/book.html")]
struct BookPage {
    p: Page,
    machine: String,
    here: String,
    revision: String,
    gaps: Vec<GapLine>,
    points: Vec<PointLine>,
    troubles: Vec<String>,
    text: String,
    why: String,
}

struct GapLine {
    id: String,
    what: String,
    unlock: String,
    accepted: String,
    acceptable: bool,
}

struct PointLine {
    id: String,
    number: u32,
    what: String,
    source: String,
    rhythm: String,
    limit: String,
}

/// Shows the book in force.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let text = text_in_force(desk, state);
    render(desk, &id, state, book, text, "", Vec::new())
}

/// Checks a changed text, or adopts it where it has no mistakes.
pub(crate) fn change(desk: &Desk, machine: &str, typed: &Typed, text: String) -> Answer {
    desk.may(Deed::AdoptBook)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let reading = read(&text, &desk.reading());
    let mut troubles: Vec<String> = reading
        .troubles
        .iter()
        .map(|t| p.words.diagnostic(t, "book", &text))
        .collect();
    let mut sound = reading.book.is_some();
    if let Some(new) = &reading.book {
        let compared = compare(book, new);
        let mut mistakes: Vec<String> = compared
            .vanished
            .iter()
            .map(|id| p.t1("book-point-vanished", "id", id.as_str()))
            .collect();
        if !compared.same_machine {
            mistakes.push(p.t1("book-other-machine", "id", id.as_str()));
        }
        sound = mistakes.is_empty();
        troubles.extend(mistakes);
    }
    if typed.field("do") == "adopt" && sound {
        let why = typed.some("why");
        accept::keep(
            desk,
            Some(&id),
            Body::BookAdopted(BookAdopted { text, why }),
        )?;
        return go(&format!("/y/{}/m/{id}/book", desk.app.tag()));
    }
    if troubles.is_empty() {
        troubles.push(p.t("book-no-mistakes"));
    }
    render(desk, &id, state, book, text, typed.field("why"), troubles)
}

/// Accepts a minor gap.
pub(crate) fn accept_gap(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::AdoptBook)?;
    let (id, _, book) = desk.machine_and_book(machine)?;
    let known = gaps(book)
        .into_iter()
        .any(|g| g.id == typed.field("gap") && !g.bears_on_safety);
    if known && !typed.field("why").is_empty() {
        accept::keep(
            desk,
            Some(&id),
            Body::GapAccepted(GapAccepted {
                gap: typed.field("gap").to_owned(),
                why: typed.field("why").to_owned(),
            }),
        )?;
    }
    go(&format!("/y/{}/m/{id}/book", desk.app.tag()))
}

/// The adopted text as it was written.
pub(crate) fn text_in_force(desk: &Desk, state: &MachineState) -> String {
    let revision = state.book().map(|b| b.revision);
    let entry = desk.view.entries.iter().find(|e| Some(e.id) == revision);
    entry
        .and_then(|e| {
            if let Body::BookAdopted(adopted) = &e.body {
                Some(adopted.text.clone())
            } else {
                None
            }
        })
        .unwrap_or_default()
}

fn render(
    desk: &Desk,
    id: &MachineId,
    state: &MachineState,
    book: &Book,
    text: String,
    why: &str,
    troubles: Vec<String>,
) -> Answer {
    let p = desk.page();
    let names = crate::names::names(desk, state);
    let adopted = state.book().map(|b| (b.since, b.by));
    let revision = adopted.map(|(since, by)| {
        p.words.say(
            "book-adopted-by",
            &[
                (
                    "when",
                    Arg::from(p.words.moment(since, desk.now, &desk.zone)),
                ),
                ("name", desk.view.name(by).into()),
            ],
        )
    });
    page(&BookPage {
        machine: book.machine.name.clone(),
        here: format!("{}/m/{id}", p.home()),
        revision: revision.unwrap_or_default(),
        gaps: gap_lines(&p, book, state, &names),
        points: point_lines(&p, book, &names),
        troubles,
        text,
        why: why.to_owned(),
        p,
    })
}

fn gap_lines(
    p: &Page,
    book: &Book,
    state: &MachineState,
    names: &dyn words::Names,
) -> Vec<GapLine> {
    gaps(book)
        .into_iter()
        .map(|gap| {
            let told = p.words.gap(&gap, names);
            let accepted = if state.accepted_gaps.contains_key(&gap.id) {
                p.t("gap-accepted")
            } else {
                String::new()
            };
            GapLine {
                what: told.what,
                unlock: told.next,
                accepted,
                acceptable: !gap.bears_on_safety,
                id: gap.id,
            }
        })
        .collect()
}

fn point_lines(p: &Page, book: &Book, names: &dyn words::Names) -> Vec<PointLine> {
    let numbers = numbers(book);
    let mut lines: Vec<PointLine> = book
        .points
        .iter()
        .map(|q| PointLine {
            id: q.id.to_string(),
            number: numbers.get(&q.id).copied().unwrap_or_default(),
            what: q.what.clone(),
            source: q.source.clone().unwrap_or_default(),
            rhythm: p.words.rhythms(&q.rhythms, names),
            limit: crate::pages::walkround::question::limit_of(p, q),
        })
        .collect();
    lines.sort_by_key(|line| line.number);
    lines
}
