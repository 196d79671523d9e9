//! Upkeep: what is due next, and the hours run.

use crate::{desk::Desk, kit::Kit, rows::rows, said::Said, trouble::Trouble};
use clap::Subcommand;
use serde_json::json;
use yard::{
    id::PersonId,
    upkeep::{Ahead, DueLine, hours_figure, next_due, repeats, shown_hours},
};

/// As many readings are shown as fit a screen.
const MOST_READINGS: usize = 12;

#[derive(Subcommand)]
pub(crate) enum Job {
    Due {
        machine: String,
    },
    Hours {
        machine: String,
    },
    Shopping {
        machine: Option<String>,
        #[arg(long, default_value_t = Ahead::default().hours)]
        hours: u32,
        #[arg(long, default_value_t = Ahead::default().days)]
        days: u32,
    },
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::Due { machine } => due(kit, &machine),
        Job::Hours { machine } => hours(kit, &machine),
        Job::Shopping {
            machine,
            hours,
            days,
        } => super::shopping::run(kit, machine.as_deref(), &Ahead { hours, days }),
    }
}

fn due(kit: &Kit, machine: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let machine = desk.machine(machine)?;
    machine.book(kit)?;
    let names = desk.names(Some(&machine.state));
    // What is due by hours and dates is the same for everybody.
    let nobody = PersonId(uuid::Uuid::nil());
    let mut lines = next_due(&desk.situation(&machine.state, nobody));
    lines.sort_by(|a, b| {
        (a.on.is_none(), a.on, &a.at_hours, &a.point).cmp(&(
            b.on.is_none(),
            b.on,
            &b.at_hours,
            &b.point,
        ))
    });
    let told = |line: &DueLine| {
        json!({
            "point": line.point.as_str(), "on": line.on.map(|date| date.to_string()), "at_hours": line.at_hours.as_ref().map(ToString::to_string),
            "meter_shows": line.meter_shows.as_ref().map(ToString::to_string), "said": kit.words.due(line, &names),
            "figure": line.figure.as_ref().map(super::reckon::figure_json),
        })
    };
    let text = if lines.is_empty() {
        kit.t("due-none")
    } else {
        lines
            .iter()
            .map(|line| kit.words.due(line, &names) + "\n")
            .collect()
    };
    Ok(Said::new(
        text,
        json!({ "machine": machine.id.as_str(), "due": lines.iter().map(told).collect::<Vec<_>>() }),
    ))
}

fn hours(kit: &Kit, machine: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let machine = desk.machine(machine)?;
    let state = &machine.state;
    let names = desk.names(Some(state));
    let (life, figure) = (shown_hours(state), hours_figure(state));
    let said = kit.words.life_hours(life.as_ref());
    let mut text = format!("{said}\n");
    text += &figure
        .as_ref()
        .map(|figure| rows(&kit.words.figure_rows(figure)))
        .unwrap_or_default();
    let last = state
        .hours
        .readings
        .iter()
        .rev()
        .take(MOST_READINGS)
        .map(|read| {
            (
                desk.moment(read.at),
                format!("{} h", kit.words.hours_number(&read.shows)),
            )
        });
    text += &format!(
        "\n{}\n{}",
        kit.t("hours-readings"),
        rows(&last.collect::<Vec<_>>())
    );
    text += &repeats(state)
        .iter()
        .map(|repeat| format!("\n{}", kit.words.repeat(repeat, &names)))
        .collect::<String>();
    let readings = state.hours.readings.iter().map(|read| json!({ "at": read.at.to_string(), "shows": read.shows.to_string(), "entry": read.entry.to_string() }));
    let json = json!({
        "machine": machine.id.as_str(), "said": said, "in_question": state.hours.in_question(),
        "life_hours": life.as_ref().map(|life| json!({ "hours": life.hours.to_string(), "plus_minus": life.plus_minus.to_string() })),
        "figure": figure.as_ref().map(super::reckon::figure_json), "readings": readings.collect::<Vec<_>>(),
    });
    Ok(Said::new(text, json))
}
