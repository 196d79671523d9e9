//! Papers of the whole yard: the wall chart.

use super::pdf;
use crate::{
    desk::{Answer, Desk},
    names,
    refusal::Refusal,
};
use papers::{OnTheWall, PaperSize, WallChart};
use yard::{
    handover::able,
    state::MachineState,
    upkeep::{next_due, soonest},
};

/// Makes one: `wall-chart.pdf`.
pub(crate) fn show(desk: &Desk, file: &str, size: &str) -> Answer {
    if file != "wall-chart.pdf" {
        return Err(Refusal::NotFound);
    }
    let size = if size == "letter" {
        PaperSize::Letter
    } else {
        PaperSize::A4
    };
    let address = format!("{}/y/{}", desk.app.address, desk.app.tag());
    let chart = WallChart {
        words: &desk.app.words,
        size,
        now: desk.now,
        zone: &desk.zone,
        address: &address,
    };
    let here = desk.view.machines.values().filter(|m| m.left.is_none());
    let machines: Vec<OnTheWall<'_>> = here
        .filter_map(|machine| {
            Some(OnTheWall {
                book: &machine.book()?.book,
                due: due(desk, machine),
                may_run: may_run(desk, machine),
            })
        })
        .collect();
    let made = papers::wall_chart(&chart, &machines).map_err(|e| Refusal::Ours(e.to_string()))?;
    Ok(pdf(made, "wall-chart"))
}

fn due(desk: &Desk, machine: &MachineState) -> Vec<String> {
    let names = names::names(desk, machine);
    let lines = soonest(next_due(&desk.situation(machine)), papers::NEXT_ON_THE_WALL);
    let said = lines.iter().map(|line| desk.app.words.due(line, &names));
    said.collect()
}

/// Whoever is not signed in sees no names.
fn may_run(desk: &Desk, machine: &MachineState) -> Option<Vec<String>> {
    desk.person?;
    let able = able(&desk.situation(machine)).into_iter();
    let words = &desk.app.words;
    Some(
        able.map(|able| words.able(&able, &desk.view.name(able.person)))
            .collect(),
    )
}
