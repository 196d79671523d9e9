//! The arm of a machine: every figure of given poses, the pins, the map, the strongest poses.

mod asked;
mod figures;
mod findings;
mod heading;
mod missing;
mod poses;
mod sheet;
mod slip;
mod strength;
mod survey;
mod whole;

use super::book::sound;
use crate::{Exit, desk::Desk, files::read_text, kit::Kit, said::Said, trouble::Trouble};
use clap::{ArgGroup, Args, builder::PossibleValuesParser, value_parser};
use quantity::{Dimension, Habits, parse};
use std::path::{Path, PathBuf};
use yard::{
    arm::{ArmOfBook, arm_of},
    book::Book,
};

#[derive(Args)]
#[command(group = ArgGroup::new("what").args(["poses", "survey", "map", "strongest"]))]
pub(crate) struct Arm {
    #[arg(value_name = "MACHINE|BOOK")]
    which: String,
    #[arg(long, value_name = "FILE")]
    poses: Option<PathBuf>,
    #[arg(long, value_name = "DRAWS", requires = "poses", value_parser = value_parser!(u32).range(2..=100_000))]
    likely: Option<u32>,
    #[arg(long)]
    survey: bool,
    #[arg(long)]
    map: bool,
    #[arg(long)]
    strongest: bool,
    #[arg(long, value_name = "DIRECTION", value_parser = PossibleValuesParser::new(strength::directions()), conflicts_with_all = ["poses", "survey"])]
    direction: Option<String>,
    #[arg(long, value_name = "STANCE", conflicts_with_all = ["poses", "survey"])]
    stance: Option<String>,
    #[arg(long, value_name = "LENGTH", conflicts_with_all = ["poses", "survey", "strongest"])]
    square: Option<String>,
    #[arg(long, value_name = "N", value_parser = value_parser!(u16).range(2..=200), conflicts_with_all = ["poses", "survey"])]
    steps: Option<u16>,
}

/// The arm that is asked about, and how it was named.
struct Subject {
    name: String,
    arm: ArmOfBook,
    habits: Habits,
}

pub(crate) fn run(kit: &Kit, asked: &Arm) -> Result<Said, Trouble> {
    let subject = subject(kit, &asked.which)?;
    match &asked.poses {
        Some(file) => poses::run(kit, &subject, file, draws(asked)),
        None if asked.survey => Ok(survey::run(kit, &subject)),
        None if asked.map => strength::map(kit, &subject, asked),
        None if asked.strongest => strength::best(kit, &subject, asked),
        None => whole::run(kit, &subject),
    }
}

/// How many draws a likelihood is made of, where one is asked for.
fn draws(asked: &Arm) -> Option<usize> {
    asked.likely.and_then(|draws| usize::try_from(draws).ok())
}

/// A length written on the command line, in metres.
fn length(kit: &Kit, subject: &Subject, written: &str) -> Result<f64, Trouble> {
    let read = parse(written, &subject.habits, Some(Dimension::Length)).map_err(|slip| {
        kit.told(
            slip.code(),
            kit.words.quantity_trouble(&slip),
            Exit::Mistakes,
        )
    })?;
    Ok(read.si_f64())
}

/// A book by its file, without any yard; else a machine of the yard.
fn subject(kit: &Kit, which: &str) -> Result<Subject, Trouble> {
    let path = Path::new(which);
    let is_file = path.extension().is_some_and(|ending| ending == "toml") || path.is_file();
    if is_file {
        let habits = Habits::default();
        let text = read_text(kit, path)?;
        let book = sound(kit, path, &text, &habits)?;
        return Ok(of(&book, habits));
    }
    let desk = Desk::look(kit)?;
    let machine = desk.machine(which)?;
    Ok(of(machine.book(kit)?, desk.reading()))
}

fn of(book: &Book, habits: Habits) -> Subject {
    Subject {
        name: book.machine.name.clone(),
        arm: arm_of(book),
        habits,
    }
}
