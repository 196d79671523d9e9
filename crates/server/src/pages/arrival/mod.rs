//! The day a machine comes: what to look at in which order, what its book does not say yet, the first month.

mod keep;
mod steps;

pub(crate) use keep::keep;

use super::{
    walkround::{form::Typed, question::Asked},
    yard::machine::{Drawn, drawings},
};
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
};
use askama::Template;
use steps::StepShown;
use words::Arg;
use yard::{
    arrival::{ArrivalPlan, RankedGap, plan},
    people::Deed,
    state::MachineState,
    walkround::day_of,
};

/// See the template.
#[derive(Template)]
#[template(path = "arrival/arrival.html")]
struct ArrivalPage {
    p: Page,
    name: String,
    here: String,
    stop: Option<String>,
    cautions: Vec<String>,
    asked: Option<Asked>,
    since: String,
    steps_done: String,
    steps: Vec<StepShown>,
    drawings: Vec<Drawn>,
    gaps: Gaps,
    month: Vec<Day>,
    papers: Vec<(String, String)>,
}

/// Gaps in their order: what keeps it from running, and what can wait.
struct Gaps {
    safety: Vec<GapShown>,
    minor: Vec<GapShown>,
    more: String,
}

struct GapShown {
    rank: u32,
    what: String,
    next: String,
    blocks: String,
    accepted: bool,
}

/// What is to be done by one day.
struct Day {
    by: String,
    lines: Vec<(String, bool)>,
}

/// Shows it.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), None)
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Option<Asked>) -> Answer {
    desk.may(Deed::Arrive)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let plan = plan(&desk.situation(state));
    let here = format!("{}/m/{id}", p.home());
    let count = |all: usize| u32::try_from(all).unwrap_or(u32::MAX);
    let done = plan.steps.iter().filter(|step| step.done).count();
    page(&ArrivalPage {
        name: book.machine.name.clone(),
        stop: book.stop.as_ref().map(|stop| stop.how.clone()),
        cautions: p
            .words
            .cautions(&["caution-engine-off", "caution-held"], book),
        asked,
        since: since(desk, &p, state),
        steps_done: p.words.say(
            "arrival-steps-done",
            &[
                ("n", count(done).into()),
                ("of", count(plan.steps.len()).into()),
            ],
        ),
        steps: steps::shown(desk, &p, state, book, &plan, typed),
        drawings: drawings(&p, book),
        gaps: gaps(desk, &p, state, &plan),
        month: month(desk, &p, state, &plan),
        papers: ["a4", "letter"]
            .into_iter()
            .map(|size| {
                let word = p.t(&format!("paper-named-{size}"));
                let name = p.t2(
                    "paper-link",
                    "paper",
                    p.t("link-arrival-sheet"),
                    "size",
                    word,
                );
                (format!("{here}/papers/arrival-sheet.pdf?size={size}"), name)
            })
            .collect(),
        here,
        p,
    })
}

fn since(desk: &Desk, p: &Page, state: &MachineState) -> String {
    let date = |at| p.words.date(day_of(at, &desk.zone));
    match &state.arrival {
        None => p.t("arrival-not-begun"),
        Some(arrived) => match arrived.over {
            Some((_, at)) => p.t1("arrival-is-over", "date", &date(at)),
            None => p.t1("arrival-since", "date", &date(arrived.since)),
        },
    }
}

fn gaps(desk: &Desk, p: &Page, state: &MachineState, plan: &ArrivalPlan) -> Gaps {
    let names = crate::names::names(desk, state);
    let shown = |ranked: &RankedGap| {
        let told = p.words.gap(&ranked.gap, &names);
        GapShown {
            rank: ranked.rank,
            what: told.what,
            next: told.next,
            blocks: p.words.gap_blocks(&ranked.gap),
            accepted: ranked.accepted,
        }
    };
    let (safety, minor): (Vec<&RankedGap>, Vec<&RankedGap>) = plan
        .gaps
        .iter()
        .partition(|ranked| ranked.gap.bears_on_safety);
    let n = Arg::from(u32::try_from(minor.len()).unwrap_or(u32::MAX));
    Gaps {
        safety: safety.into_iter().map(shown).collect(),
        minor: minor.into_iter().map(shown).collect(),
        more: p.words.say("arrival-gaps-more", &[("n", n)]),
    }
}

fn month(desk: &Desk, p: &Page, state: &MachineState, plan: &ArrivalPlan) -> Vec<Day> {
    let names = crate::names::names(desk, state);
    let mut days: Vec<Day> = Vec::new();
    for line in &plan.month {
        let by = p.t1("arrival-month-by", "date", &p.words.date(line.by));
        let said = (p.words.month_line(line, &names), line.done);
        match days.last_mut() {
            Some(day) if day.by == by => day.lines.push(said),
            _ => days.push(Day {
                by,
                lines: vec![said],
            }),
        }
    }
    days
}
