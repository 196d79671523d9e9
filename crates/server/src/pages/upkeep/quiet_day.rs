//! For a quiet day: small open things of the whole yard that can wait, ranked, on one page to print.

use crate::{
    desk::{Answer, Desk, page},
    names,
    page::Page,
};
use askama::Template;
use yard::{
    handover::{Judgement, Verdict},
    id::MachineId,
    state::MachineState,
    upkeep::{CanWait, can_wait},
};

#[derive(Template)]
#[template(path = "upkeep/quiet_day.html")]
struct QuietPage {
    p: Page,
    lines: Vec<Line>,
}

struct Line {
    machine: String,
    what: String,
    link: String,
    since: String,
    times: String,
    weighs: String,
}

/// Shows the list.
pub(crate) fn show(desk: &Desk) -> Answer {
    let p = desk.page();
    let with_book = desk
        .view
        .machines
        .iter()
        .filter(|(_, m)| m.book().is_some());
    let judged: Vec<(&MachineId, &MachineState, Judgement)> = with_book
        .map(|(id, state)| (id, state, desk.judgement(state)))
        .collect();
    let mut all: Vec<(&MachineId, &MachineState, CanWait<'_>)> = judged
        .iter()
        .flat_map(|(id, state, judgement)| {
            let waits = can_wait(state, judgement).into_iter();
            waits.map(|one| (*id, *state, one))
        })
        .collect();
    // Each machine's list is ranked: the yard's is by the same rank, machine by machine within it.
    all.sort_by_key(|(_, _, one)| std::cmp::Reverse((one.weighs, one.times)));
    let lines = all
        .iter()
        .map(|(id, state, one)| line(desk, &p, id, state, one))
        .collect();
    page(&QuietPage { lines, p })
}

fn line(desk: &Desk, p: &Page, id: &MachineId, state: &MachineState, one: &CanWait<'_>) -> Line {
    let names = names::names(desk, state);
    let latest = one.thing.latest;
    let since = one.thing.all.first().map_or(latest.at, |first| first.at);
    let when = p.words.moment(since, desk.now, &desk.zone);
    Line {
        machine: state
            .book()
            .map(|adopted| adopted.book.machine.name.clone())
            .unwrap_or_default(),
        what: p.words.found(latest, &names),
        link: format!(
            "{}/m/{id}/finding/{}",
            p.home(),
            crate::session::encode(&latest.id.to_string())
        ),
        since: p.t1("quiet-since", "when", &when),
        times: p.tn("quiet-times", "n", one.times),
        weighs: p.t(if one.weighs == Verdict::Care {
            "quiet-care"
        } else {
            "quiet-note"
        }),
    }
}
