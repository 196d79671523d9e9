//! The walk-round: the round due now, and the points of a book along its lap.

use crate::{
    Exit, desk::Desk, files::read_text, kit::Kit, rows::rows, said::Said, trouble::Trouble,
};
use clap::{Subcommand, builder::PossibleValuesParser};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use words::{BookNames, Names};
use yard::{
    book::{Book, read},
    code::Coded,
    entry::RoundPurpose,
    walkround::{DuePoint, Leg, RoundPlan, numbers, plan},
};

#[derive(Subcommand)]
pub(crate) enum Job {
    Plan {
        machine: String,
        #[arg(long, value_name = "PERSON")]
        by: String,
        #[arg(long, default_value = "start", value_parser = purposes())]
        purpose: String,
    },
    Points {
        #[arg(value_name = "FILE")]
        book: PathBuf,
    },
}

/// The purposes a round can be asked for.
pub(crate) fn purposes() -> PossibleValuesParser {
    PossibleValuesParser::new(RoundPurpose::ALL.iter().map(|purpose| purpose.code()))
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::Plan {
            machine,
            by,
            purpose,
        } => round(kit, &machine, &by, &purpose),
        Job::Points { book } => points(kit, &book),
    }
}

fn round(kit: &Kit, machine: &str, by: &str, purpose: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let machine = desk.machine(machine)?;
    let by = desk.person(by)?;
    let book = machine.book(kit)?;
    let purpose = RoundPurpose::from_code(purpose).unwrap_or(RoundPurpose::Start);
    let planned = plan(&desk.situation(&machine.state, by), purpose)
        .ok_or_else(|| Trouble::Ours("a book without a plan".to_owned()))?;
    let names = desk.names(Some(&machine.state));
    let text = format!(
        "{}\n\n{}",
        heading(kit, &planned),
        planned
            .legs
            .iter()
            .map(|leg| leg_text(kit, book, leg, &names))
            .collect::<Vec<_>>()
            .join("\n")
    );
    let json = json!({
        "machine": machine.id.as_str(), "person": by.to_string(), "purpose": planned.purpose.code(), "seconds": planned.seconds,
        "points": count(&planned), "skipped": planned.skipped, "fittings": planned.fittings,
        "find": planned.finds.iter().map(|joint| joint.as_str()).collect::<Vec<_>>(),
        "legs": planned.legs.iter().map(|leg| leg_json(kit, book, leg, &names)).collect::<Vec<_>>(),
    });
    Ok(Said::new(text, json))
}

fn count(plan: &RoundPlan) -> usize {
    plan.legs
        .iter()
        .flat_map(|leg| &leg.stops)
        .map(|stop| stop.points.len())
        .sum()
}

fn heading(kit: &Kit, plan: &RoundPlan) -> String {
    let args = [
        ("what", kit.words.name(plan.purpose).into()),
        ("points", count(plan).into()),
        ("span", kit.words.span(plan.seconds).into()),
        ("skipped", plan.skipped.into()),
    ];
    kit.words.say("plan-heading", &args)
}

fn leg_text(kit: &Kit, book: &Book, leg: &Leg, names: &dyn Names) -> String {
    let engine = kit.words.name(leg.engine);
    let mut text = format!("{engine} · {}\n", kit.words.pose(leg.pose.as_ref(), names));
    if !leg.guards.is_empty() {
        text += &format!("  {}\n", kit.t("plan-first"));
    }
    for guard in &leg.guards {
        text += &format!("   · {}\n", kit.words.safeguard(*guard));
    }
    for stop in &leg.stops {
        let station = names.station(&stop.station);
        text += &format!(
            "  {}\n",
            station.unwrap_or_else(|| stop.station.to_string())
        );
        let points = stop
            .points
            .iter()
            .map(|due| point_text(kit, book, due, names));
        text += &points.collect::<String>();
    }
    text
}

fn point_text(kit: &Kit, book: &Book, due: &DuePoint, names: &dyn Names) -> String {
    let limit = limit(kit, book, due, names)
        .map(|limit| format!(" · {limit}"))
        .unwrap_or_default();
    format!(
        "   {:>3}  {}{limit} ({})\n",
        due.number,
        kit.words.point(&due.point, names),
        kit.words.because(&due.because, names)
    )
}

fn limit(kit: &Kit, book: &Book, due: &DuePoint, names: &dyn Names) -> Option<String> {
    let point = book.points.iter().find(|point| point.id == due.point)?;
    kit.words.point_limit(point, names)
}

fn leg_json(kit: &Kit, book: &Book, leg: &Leg, names: &dyn Names) -> Value {
    let point = |due: &DuePoint| {
        json!({
            "point": due.point.as_str(), "number": due.number, "what": kit.words.point(&due.point, names),
            "because": kit.words.because(&due.because, names), "one_tap": due.one_tap, "limit": limit(kit, book, due, names),
        })
    };
    let stops = leg.stops.iter().map(|stop| json!({ "station": stop.station.as_str(), "points": stop.points.iter().map(point).collect::<Vec<_>>() }));
    json!({
        "engine": leg.engine.code(), "pose": leg.pose.as_ref().map(|pose| pose.as_str()),
        "guards": leg.guards.iter().map(|guard| guard.code()).collect::<Vec<_>>(), "stops": stops.collect::<Vec<_>>(),
    })
}

fn points(kit: &Kit, file: &Path) -> Result<Said, Trouble> {
    let text = read_text(kit, file)?;
    let reading = read(&text, &quantity::Habits::default());
    let Some(book) = reading.book else {
        let what = kit
            .words
            .diagnostics(&reading.troubles, &file.display().to_string(), &text);
        let told = words::Told {
            what,
            next: kit.t("book-mend-first"),
        };
        return Err(kit.told("book-has-mistakes", told, Exit::Mistakes));
    };
    let (people, zone) = (Default::default(), kit.world.zone());
    let names = BookNames {
        book: Some(&book),
        people: &people,
        now: kit.world.now(),
        zone: &zone,
    };
    let numbers = numbers(&book);
    let mut all: Vec<_> = book
        .points
        .iter()
        .map(|point| (numbers.get(&point.id).copied().unwrap_or_default(), point))
        .collect();
    all.sort_by_key(|(number, _)| *number);
    let line = |(number, point): &(u32, &yard::book::Point)| {
        let about = [
            Some(point.what.clone()),
            Some(kit.words.rhythms(&point.rhythms, &names)),
            kit.words.point_limit(point, &names),
        ];
        (
            format!("{number:>3}  {}", point.id),
            about.into_iter().flatten().collect::<Vec<_>>().join(" · "),
        )
    };
    let told = |(number, point): &(u32, &yard::book::Point)| {
        json!({
            "number": number, "id": point.id.as_str(), "station": point.station.as_str(), "what": point.what, "count": point.count,
            "rhythm": kit.words.rhythms(&point.rhythms, &names), "limit": kit.words.point_limit(point, &names), "line": point.line,
        })
    };
    let text = rows(&all.iter().map(line).collect::<Vec<_>>());
    Ok(Said::new(
        text,
        json!({ "machine": book.machine.id.as_str(), "points": all.iter().map(told).collect::<Vec<_>>() }),
    ))
}
