//! The yard page: every machine with its verdict and why.

use super::machine::reason_lines;
use crate::{
    app::Machines,
    desk::{Answer, Desk, page},
    page::Page,
    pages::kept::documents,
    pages::walkround::signs,
};
use askama::Template;
use papers::drawing::{Mark, verdict_mark};
use yard::{id::MachineId, state::MachineState};

#[derive(Template)]
#[template(path = "yard/yard.html")]
struct YardPage {
    p: Page,
    machines: Vec<Card>,
    questions: usize,
    signs: usize,
    only: Option<MachineId>,
    left: Vec<(MachineId, String)>,
    to_see: Vec<String>,
}

struct Card {
    id: MachineId,
    name: String,
    mark: String,
    class: &'static str,
    verdict: String,
    reasons: Vec<String>,
    more: usize,
    notes: Vec<String>,
}

/// How many reasons a card shows; the machine's page shows all.
const SHOWN: usize = 2;

/// Shows the yard.
pub(crate) fn show(desk: &Desk) -> Answer {
    let p = desk.page();
    let with_book = desk
        .view
        .machines
        .iter()
        .filter(|(_, m)| m.book().is_some() && m.left.is_none());
    let machines: Vec<Card> = with_book
        .map(|(id, machine)| card(desk, &p, id, machine))
        .collect();
    let only = (machines.len() == 1).then(|| machines[0].id.clone());
    page(&YardPage {
        questions: open_questions(&desk.view.machines),
        signs: signs::count(desk),
        only,
        machines,
        left: left(desk, &p),
        to_see: documents::to_see(desk, &p, &desk.view.yard.documents),
        p,
    })
}

/// Machines that left: their history stays.
fn left(desk: &Desk, p: &Page) -> Vec<(MachineId, String)> {
    let gone = desk.view.machines.iter().filter_map(|(id, machine)| {
        let left = machine.left.as_ref()?;
        let name = machine.book()?.book.machine.name.clone();
        let how = p.words.name(left.said.how);
        Some((id.clone(), p.t2("machine-left", "name", name, "how", how)))
    });
    gone.collect()
}

/// How many questions wait for steward or deputy.
pub(crate) fn open_questions(machines: &Machines) -> usize {
    machines.values().map(|m| m.asked().count()).sum()
}

fn card(desk: &Desk, p: &Page, id: &MachineId, machine: &MachineState) -> Card {
    let judgement = desk.judgement(machine);
    let mark = Mark::of(&judgement);
    let reasons = reason_lines(desk, p, id, machine, &judgement);
    let mut notes = Vec::new();
    if let Some((_, at, by, handover)) = &machine.handover {
        let said = handover.next.clone().unwrap_or_default();
        let key = if said.is_empty() {
            "card-handed-over"
        } else {
            "card-handed-over-saying"
        };
        let args = [
            ("name", desk.view.name(*by).into()),
            ("when", p.words.moment(*at, desk.now, &desk.zone).into()),
            ("said", said.into()),
        ];
        notes.push(p.words.say(key, &args));
    }
    if let Some((by, since)) = &machine.running {
        notes.push(p.words.say(
            "card-running",
            &[
                ("name", desk.view.name(*by).into()),
                ("when", p.words.moment(*since, desk.now, &desk.zone).into()),
            ],
        ));
    }
    let all = reasons.len();
    Card {
        id: id.clone(),
        name: machine
            .book()
            .map(|b| b.book.machine.name.clone())
            .unwrap_or_default(),
        mark: verdict_mark(mark),
        class: class(mark),
        verdict: p.words.verdict(&judgement),
        reasons: reasons.into_iter().take(SHOWN).map(|r| r.what).collect(),
        more: all.saturating_sub(SHOWN),
        notes,
    }
}

/// The style class of a mark.
pub(crate) fn class(mark: Mark) -> &'static str {
    match mark {
        Mark::Fit => "fit",
        Mark::Care => "care",
        Mark::StandDown => "stand-down",
        Mark::NotKnown => "not-known",
    }
}
