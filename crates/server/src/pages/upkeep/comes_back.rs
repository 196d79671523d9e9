//! What comes back on one machine: repeats with counts, gaps and cost, parts fitted again, what to look at closer.

use crate::{
    desk::{Answer, Desk, page},
    names,
    page::Page,
};
use askama::Template;
use papers::drawing::{Emphasis, Side, side};
use words::{Arg, BookNames};
use yard::{
    book::{Book, View},
    id::PointId,
    state::MachineState,
    upkeep::{PartAgain, Repeat, costs, not_reaching, one_sided, parts_again, repeat_at, repeats},
    walkround::{numbers, twin_asks},
};

#[derive(Template)]
#[template(path = "upkeep/comes_back.html")]
struct ComesBackPage {
    p: Page,
    machine: String,
    here: String,
    drawings: Vec<String>,
    watch: Vec<String>,
    repeats: Vec<Told>,
    parts: Vec<Told>,
}

/// One thing that comes back, as a page shows it.
pub(crate) struct Told {
    pub(crate) what: String,
    pub(crate) link: String,
    pub(crate) count: String,
    pub(crate) hint: Option<String>,
    pub(crate) lines: Vec<String>,
    pub(crate) cures: Vec<String>,
}

/// Shows the page.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let here = format!("{}/m/{id}", p.home());
    let all = repeats(state);
    page(&ComesBackPage {
        machine: book.machine.name.clone(),
        drawings: drawings(&p, book, &all),
        watch: watch(desk, &p, state, book),
        repeats: all
            .iter()
            .map(|repeat| told(desk, &p, state, repeat, &here))
            .collect(),
        parts: parts_again(state)
            .iter()
            .map(|part| part_told(desk, &p, state, part))
            .collect(),
        here,
        p,
    })
}

/// What comes back at one point, for the page of a finding there; none where nothing does.
pub(crate) fn at(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    point: &PointId,
    here: &str,
) -> Option<Told> {
    repeat_at(state, point).map(|repeat| told(desk, p, state, &repeat, here))
}

fn told(desk: &Desk, p: &Page, state: &MachineState, repeat: &Repeat, here: &str) -> Told {
    let names = names::names(desk, state);
    let last = repeat.failures.last().map(ToString::to_string);
    let cures = repeat.cures.iter().map(|cure| match cure {
        Some(cure) => p.words.cure(cure, &names),
        None => p.t("comes-back-cure-none"),
    });
    Told {
        what: p.words.point(&repeat.point, &names),
        link: format!(
            "{here}/finding/{}",
            crate::session::encode(&last.unwrap_or_default())
        ),
        count: p.tn("comes-back-count", "n", repeat.failures.len()),
        hint: repeat.stripped.then(|| p.t("comes-back-stripped")),
        lines: spans_and_costs(
            desk,
            p,
            state,
            &repeat.gaps_hours,
            &repeat.gaps_days(&desk.zone),
            &repeat.work,
        ),
        cures: cures.collect(),
    }
}

fn part_told(desk: &Desk, p: &Page, state: &MachineState, part: &PartAgain) -> Told {
    let names = names::names(desk, state);
    Told {
        what: p.words.item(&part.part, &names),
        link: String::new(),
        count: p.tn("comes-back-fitted", "n", part.at.len()),
        hint: None,
        lines: spans_and_costs(
            desk,
            p,
            state,
            &part.gaps_hours,
            &part.gaps_days(&desk.zone),
            &part.work,
        ),
        cures: Vec::new(),
    }
}

fn spans_and_costs(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    hours: &[Option<quantity::Exact>],
    days: &[i64],
    work: &[yard::id::EntryId],
) -> Vec<String> {
    let costs = costs(state, work, desk.view.habits.decimal_comma);
    let mut lines = vec![p.words.held(hours, days)];
    lines.extend(p.words.costs(&costs));
    lines
}

/// What the next round asks because of what was found elsewhere, and what the journal shows of grease and adjusters.
fn watch(desk: &Desk, p: &Page, state: &MachineState, book: &Book) -> Vec<String> {
    let names = names::names(desk, state);
    let situation = desk.situation(state);
    let unreached = book.points.iter().filter_map(|point| {
        let found = not_reaching(&situation, point)?;
        let what = yard::handover::What::NotReaching(found);
        let told = p.words.what(&what, Some(&point.id), &names);
        Some(format!("{} {}", told.what, told.next))
    });
    let sided = one_sided(&situation)
        .into_iter()
        .map(|sided| p.words.one_sided(&sided, &names));
    let twins = twin_asks(&situation)
        .into_iter()
        .map(|ask| p.words.twin_ask(&ask, &names));
    unreached.chain(sided).chain(twins).collect()
}

/// The other sides that the next round asks because of what was found at this point.
pub(crate) fn other_sides(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    point: &PointId,
    names: &BookNames<'_>,
) -> Vec<String> {
    let asks = twin_asks(&desk.situation(state)).into_iter();
    let here = asks.filter(|ask| ask.of == *point);
    let say = |point: &PointId| {
        let args = [("point", Arg::from(p.words.point(point, names)))];
        p.words.say("mend-other-side", &args)
    };
    here.map(|ask| say(&ask.point)).collect()
}

/// Both sides of the machine with the points that come back; none where the book draws nothing, or nothing comes back.
fn drawings(p: &Page, book: &Book, repeats: &[Repeat]) -> Vec<String> {
    let again = |point: &yard::book::Point| {
        point.at.is_some() && repeats.iter().any(|repeat| repeat.point == point.id)
    };
    if book.drawing.is_empty() || !book.points.iter().any(again) {
        return Vec::new();
    }
    let numbers = numbers(book);
    let shows = |point: &yard::book::Point| {
        if again(point) {
            Emphasis::Strong
        } else {
            Emphasis::Hidden
        }
    };
    let one = |view: View, right: bool, key: &str, id: &str| {
        let there = |point: &&yard::book::Point| {
            again(point) && point.at.is_some_and(|at| (at.y < 0.0) == right)
        };
        book.points.iter().any(|point| there(&point)).then(|| {
            side(&Side {
                book,
                view,
                numbers: &numbers,
                shows: &shows,
                title: &p.t1(key, "name", &book.machine.name),
                zone: None,
                id,
                // Few numbers: the whole machine fits the screen, and they are still read.
                radius: 30.0,
                close_up: false,
            })
        })
    };
    let left = one(View::Left, false, "side-left", "again-left");
    let right = one(View::Right, true, "side-right", "again-right");
    left.into_iter().chain(right).collect()
}
