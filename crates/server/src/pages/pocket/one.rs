//! The pocket page of one machine: its round, station by station, and every short form, each a view of one page.

use super::{marks::mark, reads::reads, words};
use crate::pages::yard::machine::stop_words;
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    pages::{
        handover::leave::{self, Step},
        upkeep::{in_sight, run},
        walkround::{
            form::Typed,
            question::{Choice, Question, capital, choices, question},
            round::{Walk, hours_last, leg_key, leg_title},
            station::{because, drawing},
        },
        yard::{home::class, machine::zone_words},
    },
    refusal::Refusal,
};
use askama::Template;
use jiff::Timestamp;
use papers::drawing::{Mark, verdict_mark};
use serde_json::json;
use yard::{
    book::{Book, Engine, Severity},
    code::Coded,
    handover::{Alone, Judgement},
    id::PointId,
    people::Role,
    walkround::{Leg, Stop, guards_at, show_me_points},
};

#[derive(Template)]
#[template(path = "pocket/one.html")]
struct PocketPage {
    p: Page,
    name: String,
    here: String,
    /// What the script needs besides the words: ids, times, what is answered already.
    data: String,
    words: String,
    stop: Option<String>,
    zone: String,
    mark: String,
    class: &'static str,
    verdict: String,
    reasons: Vec<String>,
    legs: Vec<PocketLeg>,
    stations: Vec<Station>,
    engines: Vec<Choice>,
    steps: Vec<Step>,
    severities: Vec<Choice>,
    /// Cautions before a start, and while it is left.
    start_cautions: Vec<String>,
    held: Vec<String>,
    start_lines: Vec<String>,
    end_lines: Vec<String>,
    learner: bool,
    hours_last: String,
}

struct PocketLeg {
    title: String,
    guards: Vec<String>,
    /// Whether this leg starts the engine.
    starts: bool,
    stops: Vec<PocketStop>,
}

struct PocketStop {
    name: String,
    view: String,
}

struct Station {
    view: String,
    name: String,
    title: String,
    guards: Vec<String>,
    /// Whether this leg starts the engine.
    starts: bool,
    drawing: String,
    points: Vec<Question>,
    one_tap: bool,
    all_one_tap: bool,
}

/// Shows the pocket page, for whoever may walk this machine round.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let walk = Walk::of(desk, machine)?;
    let judgement = desk.judgement(walk.machine);
    // What the phone keeps of this page names nobody.
    let p = Page {
        person_name: String::new(),
        ..desk.page()
    };
    let mark = Mark::of(&judgement);
    let alone = Alone::of(desk.situation(walk.machine));
    let severities: Vec<Choice> = choices::<Severity>(&p, "fault-severity", "");
    page(&PocketPage {
        name: walk.book.machine.name.clone(),
        here: walk.here.clone(),
        data: data(desk, &walk, &judgement, p.shared)?,
        words: words::dictionary(&p),
        stop: stop_words(&p, walk.book),
        zone: zone_words(&p, walk.book),
        mark: verdict_mark(mark),
        class: class(mark),
        verdict: p.words.verdict(&judgement),
        reasons: reasons(desk, &p, &walk, &judgement),
        legs: walk
            .plan
            .legs
            .iter()
            .map(|leg| leg_line(&p, &walk, leg))
            .collect(),
        stations: stations(desk, &p, &walk, &alone),
        engines: leave::engines(&p, walk.book, ""),
        steps: leave::steps(&p, walk.book, &Typed::default()),
        severities: severities.into_iter().rev().collect(),
        start_cautions: p
            .words
            .cautions(&["caution-seat", "caution-zone"], walk.book),
        held: p.words.cautions(&leave::CAUTIONS, walk.book),
        start_lines: run::start_lines(&p, walk.book),
        end_lines: run::end_lines(&p, walk.book),
        learner: desk.role == Role::Learner || in_sight::is_needed(&judgement),
        hours_last: hours_last(&p, walk.machine),
        p,
    })
}

/// What the script needs to write entries and to judge the age of what the page says.
fn data(
    desk: &Desk,
    walk: &Walk<'_>,
    judgement: &Judgement,
    shared: bool,
) -> Result<String, Refusal> {
    let person = desk.signed_in()?;
    let kept: Vec<&str> = walk
        .round
        .map(|round| round.answers.keys().map(PointId::as_str).collect())
        .unwrap_or_default();
    let ms = |at: Timestamp| at.as_millisecond();
    let data = json!({
        "yard": desk.app.yard.id().to_string(), "tag": desk.app.tag(), "machine": walk.machine_id.as_str(),
        "name": walk.book.machine.name, "book": walk.revision.to_string(), "person": person.to_string(),
        "role": desk.role.code(), "round": walk.round.map(|round| round.id.to_string()),
        "begun": walk.round.map(|round| ms(round.begun)), "purpose": walk.plan.purpose.code(), "kept": kept,
        "verdict": judgement.verdict.code(), "at": ms(judgement.at), "until": judgement.holds.until.map(ms),
        "stoodDown": !walk.stood_down.is_empty(), "holdsHours": desk.view.habits.round_holds_hours,
        "comma": desk.view.habits.decimal_comma, "program": env!("CARGO_PKG_VERSION"), "meter": walk.book.has_meter(),
        "address": desk.app.address, "showMe": shows(walk),
        // On a device of several people whoever has not touched it for so long has gone.
        "idle": shared.then_some(crate::session::IDLE.as_millis() as i64),
    });
    Ok(data.to_string())
}

/// The verdict's reasons without anybody's name.
fn reasons(desk: &Desk, p: &Page, walk: &Walk<'_>, judgement: &Judgement) -> Vec<String> {
    let nobody = std::collections::BTreeMap::new();
    let names = ::words::BookNames {
        people: &nobody,
        ..crate::names::names(desk, walk.machine)
    };
    let told = judgement.reasons.iter().map(|r| p.words.reason(r, &names));
    told.map(|told| format!("{} {}", told.what, told.next))
        .collect()
}

/// The points one of which this round is asked to show.
fn shows<'a>(walk: &Walk<'a>) -> Vec<&'a str> {
    let points = show_me_points(walk.book, walk.plan.purpose).into_iter();
    points.map(|point| point.id.as_str()).collect()
}

fn view_of(leg: &Leg, stop: &Stop) -> String {
    format!("round/{}/{}", leg_key(leg), stop.station)
}

fn station_name(book: &Book, stop: &Stop) -> String {
    let station = book.stations.iter().find(|s| s.id == stop.station);
    station.map(|s| s.name.clone()).unwrap_or_default()
}

fn leg_line(p: &Page, walk: &Walk<'_>, leg: &Leg) -> PocketLeg {
    PocketLeg {
        title: capital(&leg_title(p, walk.book, leg)),
        guards: walk.guards(p, leg, &leg.guards),
        starts: matches!(leg.engine, Engine::Idle | Engine::Working),
        stops: leg
            .stops
            .iter()
            .map(|stop| PocketStop {
                name: station_name(walk.book, stop),
                view: view_of(leg, stop),
            })
            .collect(),
    }
}

fn stations(desk: &Desk, p: &Page, walk: &Walk<'_>, alone: &Alone<'_>) -> Vec<Station> {
    let each = walk
        .plan
        .legs
        .iter()
        .flat_map(|leg| leg.stops.iter().map(move |stop| (leg, stop)));
    each.map(|(leg, stop)| station(desk, p, walk, alone, leg, stop))
        .collect()
}

fn station(
    desk: &Desk,
    p: &Page,
    walk: &Walk<'_>,
    alone: &Alone<'_>,
    leg: &Leg,
    stop: &Stop,
) -> Station {
    let name = station_name(walk.book, stop);
    let needed = guards_at(walk.book, leg, std::slice::from_ref(stop));
    let shows = shows(walk);
    let points = stop.points.iter().filter_map(|due| {
        let point = walk.book.points.iter().find(|q| q.id == due.point)?;
        let mut q = question(p, walk.book, point, due.number, &Typed::default());
        let outside = mark(alone, point, &mut q);
        let mut data = reads(point, outside);
        data["oneTap"] = due.one_tap.into();
        q.reads = data.to_string();
        q.earlier =
            crate::pages::yard::machine::open_finding_at(desk, walk.machine, &due.point, false)
                .unwrap_or_default();
        q.because = because(p, desk, walk, due);
        // Which of these it is, the phone works out by the round's id.
        if shows.contains(&due.point.as_str()) {
            let name = p
                .words
                .point(&due.point, &crate::names::names(desk, walk.machine));
            q.show_me = p.t1("show-me", "point", &name);
        }
        Some(q)
    });
    Station {
        view: view_of(leg, stop),
        title: capital(&format!("{}.", leg_title(p, walk.book, leg))),
        guards: walk.guards(p, leg, &needed),
        starts: matches!(leg.engine, Engine::Idle | Engine::Working),
        drawing: drawing(
            p,
            walk.book,
            stop,
            &name,
            &format!("s-{}-{}", leg_key(leg).replace('.', "-"), stop.station),
        ),
        points: points.collect(),
        one_tap: stop.points.iter().any(|d| d.one_tap),
        all_one_tap: stop.points.iter().all(|d| d.one_tap),
        name,
    }
}
