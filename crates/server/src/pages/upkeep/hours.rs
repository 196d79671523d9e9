//! The hour meters: what each shows, one line of hours, a reading, a broken meter, a change of meter.

use super::{further, short::Field};
use crate::{
    desk::{Answer, Desk, go, page},
    names,
    page::Page,
    pages::walkround::{
        form::{self, Typed},
        question::{Asked, Choice, capital},
        round::hours_last,
    },
};
use askama::Template;
use jiff::{Timestamp, civil::Date};
use yard::{
    book::Book,
    entry::{self, Body},
    id::ItemId,
    people::Deed,
    state::MachineState,
    upkeep::{HoursShown, hours_line, hours_shown, shown_hours},
};

/// See the template.
#[derive(Template)]
#[template(path = "upkeep/hours.html")]
struct HoursPage {
    p: Page,
    machine: String,
    here: String,
    life: String,
    line: Option<String>,
    meters: Vec<MeterLines>,
    asked: Vec<Asked>,
    read: Vec<Field>,
    broken: Vec<Field>,
    changed: Vec<Field>,
}

/// One meter: its name, what is said of it, the figures that can be opened.
struct MeterLines {
    name: String,
    lines: Vec<String>,
    links: Vec<(String, String)>,
}

/// Shows the page.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps readings; a broken meter; or a change of meter where a first reading of a new one is given.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::ReadMeter)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let mut asked = Vec::new();
    let bodies = match typed.field("what") {
        "broken" => said_broken(desk, book, typed, &mut asked),
        "" | "read" if typed.field("new").is_empty() => readings(desk, book, typed, &mut asked),
        _ => changed(desk, book, typed, &mut asked),
    };
    if asked.is_empty() && bodies.is_empty() {
        asked.push(form::asked(&desk.page(), "ask-hours-empty"));
    }
    if !asked.is_empty() {
        return render_with(desk, state, book, typed, asked);
    }
    further::keep(desk, &id, bodies)?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn readings(desk: &Desk, book: &Book, typed: &Typed, asked: &mut Vec<Asked>) -> Vec<Body> {
    let shows = hours(desk, typed.field("shows"), asked);
    let first = shows.map(|shows| Body::MeterReading(entry::MeterReading { meter: None, shows }));
    let more = further::read(desk, book, typed, asked);
    first.into_iter().chain(more).collect()
}

fn changed(desk: &Desk, book: &Book, typed: &Typed, asked: &mut Vec<Asked>) -> Vec<Body> {
    let p = desk.page();
    let (new_first, old_last, unmetered) = (
        hours(desk, typed.field("new"), asked),
        hours(desk, typed.field("old"), asked),
        hours(desk, typed.field("unmetered"), asked),
    );
    if typed.field("why").is_empty() {
        asked.push(form::asked(&p, "ask-hours-why"));
    }
    let Some(new_first) = new_first else {
        return Vec::new();
    };
    vec![Body::MeterChange(entry::MeterChange {
        meter: which(book, typed),
        old_last,
        new_first,
        unmetered,
        why: typed.field("why").to_owned(),
    })]
}

fn said_broken(desk: &Desk, book: &Book, typed: &Typed, asked: &mut Vec<Asked>) -> Vec<Body> {
    let p = desk.page();
    let since = match typed.field("since") {
        "" => None,
        text => {
            let read = text.parse().ok().and_then(|date| begun(desk, date));
            if read.is_none() {
                asked.push(form::asked(&p, "ask-meters-since"));
            }
            read
        }
    };
    if typed.field("why").is_empty() {
        asked.push(form::asked(&p, "ask-meters-why-broken"));
    }
    vec![Body::MeterBroken(entry::MeterBroken {
        meter: which(book, typed),
        since,
        why: typed.field("why").to_owned(),
    })]
}

/// The beginning of a day in the yard; none for one to come.
fn begun(desk: &Desk, date: Date) -> Option<Timestamp> {
    let begun = date
        .at(0, 0, 0, 0)
        .to_zoned_datetime(desk.zone.clone())
        .ok()?
        .timestamp();
    (begun <= desk.now).then_some(begun)
}

/// The meter that was chosen; the first where none was.
fn which(book: &Book, typed: &Typed) -> Option<ItemId> {
    let chosen = ItemId::new(typed.field("meter"))?;
    let known = book.further_meters.iter().any(|one| one.id == chosen);
    known.then_some(chosen)
}

fn hours(desk: &Desk, text: &str, asked: &mut Vec<Asked>) -> Option<quantity::Quantity> {
    form::hours(&desk.page(), text, &desk.reading()).unwrap_or_else(|told| {
        asked.push(told);
        None
    })
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::ReadMeter)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    render_with(desk, state, book, typed, asked)
}

fn render_with(
    desk: &Desk,
    state: &MachineState,
    book: &Book,
    typed: &Typed,
    asked: Vec<Asked>,
) -> Answer {
    let p = desk.page();
    let here = format!("{}/m/{}", p.home(), book.machine.id);
    let shown = hours_shown(state);
    let marks = hours_line(&state.hours);
    let numbered = shown.iter().enumerate();
    page(&HoursPage {
        machine: book.machine.name.clone(),
        life: p.words.life_hours(shown_hours(state).as_ref()),
        line: papers::drawing::hours_line(&marks, &p.t("meters-line")),
        meters: numbered
            .map(|(n, meter)| lines(desk, &p, state, &here, (n, meter)))
            .collect(),
        asked,
        read: read_fields(&p, state, book, typed),
        broken: broken_fields(&p, book, typed),
        changed: changed_fields(&p, book, typed),
        here,
        p,
    })
}

/// What is said of one meter: what it counts and shows, its hours, what it lets one estimate, whether it counts at all.
fn lines(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    here: &str,
    (n, shown): (usize, &HoursShown),
) -> MeterLines {
    let names = names::names(desk, state);
    let history = state.meter(shown.meter.as_ref());
    let mut lines = vec![p.words.name(shown.kind)];
    if shown.service {
        lines.push(p.t("meters-service"));
    }
    let last = history.and_then(|history| history.segments.last());
    if let Some(segment) = last {
        let shows = p.words.hours_number(&segment.last);
        lines.push(p.t1("hours-last", "value", &shows));
    }
    lines.push(p.words.life_hours(shown.life.as_ref()));
    if let Some(broken) = history.and_then(|history| history.broken.as_ref()) {
        let since = p.words.moment(broken.since, desk.now, &desk.zone);
        lines.push(p.t1("meters-broken-since", "when", &since));
    }
    let figures = [
        (&shown.figure, "meter", "life"),
        (&shown.by_service, "by-service", "hours"),
        (&shown.running, "running", "life"),
    ];
    let mut links = Vec::new();
    for (figure, word, output) in figures {
        let Some(figure) = figure else { continue };
        let Some(out) = figure.output(output) else {
            continue;
        };
        let (value, more) = (
            tenth(out.value.number().unwrap_or_default()),
            tenth(out.half_width.unwrap_or_default()),
        );
        let said = p.t2(
            &format!("meters-figure-{word}"),
            "value",
            &value,
            "more",
            &more,
        );
        links.push((said, format!("{here}/figure/{word}-{n}")));
    }
    MeterLines {
        name: capital(&p.words.meter_name(shown.meter.as_ref(), &names)),
        lines,
        links,
    }
}

fn tenth(hours: f64) -> String {
    format!("{hours:.1}")
}

fn read_fields(p: &Page, state: &MachineState, book: &Book, typed: &Typed) -> Vec<Field> {
    let first = book.meters().any(|(id, _)| id.is_none()).then(|| Field {
        hint: hours_last(p, state),
        ..Field::text(p, "hours-shows", "shows", typed.field("shows"))
    });
    // A book that says nothing of a meter yet may still have one.
    let unsaid = (book.meter.is_none() && book.further_meters.is_empty())
        .then(|| Field::text(p, "hours-shows", "shows", typed.field("shows")));
    first
        .or(unsaid)
        .into_iter()
        .chain(further::fields(p, state, book, typed))
        .collect()
}

fn broken_fields(p: &Page, book: &Book, typed: &Typed) -> Vec<Field> {
    if book.is_without_meter() {
        return Vec::new();
    }
    let since = Field {
        kind: "date",
        ..Field::text(p, "meters-since", "since", typed.field("since"))
    };
    let why = Field::text(p, "meters-why-broken", "why", "");
    choice(p, book, typed)
        .into_iter()
        .chain([since, why])
        .collect()
}

fn changed_fields(p: &Page, book: &Book, typed: &Typed) -> Vec<Field> {
    if book.is_without_meter() {
        return Vec::new();
    }
    let text = |key, name: &'static str| Field::text(p, key, name, typed.field(name));
    let fields = [
        text("hours-new", "new"),
        text("hours-old", "old"),
        text("hours-unmetered", "unmetered"),
        text("hours-why", "why"),
    ];
    choice(p, book, typed).into_iter().chain(fields).collect()
}

/// Which meter, where there are several.
fn choice(p: &Page, book: &Book, typed: &Typed) -> Option<Field> {
    if book.further_meters.is_empty() {
        return None;
    }
    let chosen = typed.field("meter");
    let first = Choice {
        code: String::new(),
        word: p.t("meter-first"),
        chosen: chosen.is_empty(),
    };
    let further = book.further_meters.iter().map(|one| Choice {
        code: one.id.to_string(),
        word: one.name.clone(),
        chosen: one.id.as_str() == chosen,
    });
    let all = std::iter::once(first).chain(further).collect();
    Some(Field::choice(p, "meters-which", "meter", all))
}
