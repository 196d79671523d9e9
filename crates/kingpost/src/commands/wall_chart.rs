//! The wall chart: every machine of the yard on one paper.

use crate::{
    desk::{Desk, tag},
    kit::Kit,
    said::Said,
    trouble::Trouble,
};
use clap::Args;
use papers::{NEXT_ON_THE_WALL, OnTheWall, WallChart};
use serde_json::json;
use std::path::PathBuf;
use yard::{
    handover::{OtherMachines, able},
    id::PersonId,
    state::MachineState,
    upkeep::{next_due, soonest},
};

#[derive(Args)]
pub(crate) struct Asked {
    #[arg(long, default_value = "a4", value_parser = ["a4", "letter"])]
    size: String,
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
}

pub(super) fn print(kit: &Kit, asked: &Asked) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let address = format!(
        "{}/y/{}",
        super::address::of_yard(kit, asked.address.as_deref()),
        tag(&desk.yard)
    );
    let chart = WallChart {
        words: &kit.words,
        size: super::papers::size_of(&asked.size),
        now: desk.now,
        zone: &desk.zone,
        address: &address,
    };
    let all = desk.state.machines.iter();
    let machines: Vec<OnTheWall<'_>> = all
        .filter_map(|id| OtherMachines::machine(&desk, id))
        .filter(|machine| machine.left.is_none())
        .filter_map(|machine| on_the_wall(&desk, machine))
        .collect();
    let made = papers::wall_chart(&chart, &machines);
    let bytes = made.map_err(|error| Trouble::Ours(error.to_string()))?;
    let told = json!({ "size": asked.size, "machines": machines.len() });
    super::papers::written(kit, &asked.output, &bytes, told)
}

fn on_the_wall<'a>(desk: &Desk<'_>, machine: &'a MachineState) -> Option<OnTheWall<'a>> {
    let names = desk.names(Some(machine));
    let situation = desk.situation(machine, PersonId(uuid::Uuid::nil()));
    let due = soonest(next_due(&situation), NEXT_ON_THE_WALL);
    let able = able(&situation).into_iter();
    Some(OnTheWall {
        book: &machine.book()?.book,
        due: due
            .iter()
            .map(|line| desk.kit.words.due(line, &names))
            .collect(),
        may_run: Some(
            able.map(|able| {
                let name = desk.kit.words.person(able.person, &names);
                desk.kit.words.able(&able, &name)
            })
            .collect(),
        ),
    })
}
