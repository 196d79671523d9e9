//! One station of a round: shown, answered, kept at once, and on to the next.

use super::{
    form::{self, Read, Typed},
    question::{Asked, Question, capital, question},
    round::{Walk, leg_key, leg_title},
    scale::scale,
    show_me, together,
};
use crate::pages::yard::machine::stop_words;
use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::photos,
    refusal::Refusal,
};
use askama::Template;
use papers::drawing::{Emphasis, Side, side};
use std::collections::BTreeMap;
use yard::{
    book::{Book, View},
    entry::{self, Answered, Body},
    handover::{Reason, Verdict, What},
    id::{MachineId, PointId},
    state::keeps_harm,
    walkround::{Because, DuePoint, Leg, Stop, Weighed, guards_at, weigh},
};

#[derive(Template)]
#[template(path = "walkround/station.html")]
struct StationPage {
    p: Page,
    machine: String,
    here: String,
    station: String,
    index: usize,
    stops: usize,
    done: usize,
    points_total: usize,
    bar: String,
    stop: Option<String>,
    stood_down: Vec<String>,
    guards: Vec<String>,
    drawing: String,
    kept: String,
    action: String,
    /// The id of the round; empty where none is begun.
    round: String,
    next: Option<String>,
    points: Vec<Question>,
    one_tap: bool,
    all_one_tap: bool,
    asked_back: bool,
}

/// Shows a station.
pub(crate) fn show(desk: &Desk, machine: &str, leg: &str, station: &str) -> Answer {
    let walk = Walk::of(desk, machine)?;
    let (leg, stop) = walk.stop(leg, station)?;
    if walk.may_not_start(leg) {
        return go(&format!("{}/round?list=1", walk.here));
    }
    render(desk, &walk, leg, stop, &Typed::default(), &BTreeMap::new())
}

/// Keeps a station's answers and goes on.
pub(crate) fn keep(desk: &Desk, machine: &str, leg: &str, station: &str, typed: &Typed) -> Answer {
    let walk = Walk::of(desk, machine)?;
    if let Some(closed) = together::closed_meanwhile(desk, &walk, typed) {
        let answers = all_typed(desk, walk.book, typed);
        return together::too_late(desk, machine, &walk, closed, answers);
    }
    let (leg, stop) = walk.stop(leg, station)?;
    if walk.may_not_start(leg) {
        return go(&format!("{}/round?list=1", walk.here));
    }
    let p = desk.page();
    let rest_well = typed.field("rest") == "well";
    let (mut answers, mut asked) = (Vec::new(), BTreeMap::new());
    for due in &stop.points {
        let Some(point) = walk.book.points.iter().find(|q| q.id == due.point) else {
            continue;
        };
        let rest_well = rest_well && due.one_tap && walk.kept(&due.point).is_none();
        match form::read(&p, point, typed, &desk.reading(), rest_well) {
            Read::Answered(answered) => answers.push(answered),
            Read::Nothing if walk.kept(&due.point).is_none() => {
                asked.insert(due.point.clone(), vec![form::asked(&p, "ask-not-answered")]);
            }
            Read::Nothing => {}
            Read::Asked(told) => {
                asked.insert(due.point.clone(), told);
            }
        }
    }
    keep_answers(desk, &walk, &walk.machine_id, &answers)?;
    keep_why_no_photo(desk, &walk, typed)?;
    if !asked.is_empty() {
        // What reads is kept already; the page comes back with the rest, nothing typed is lost.
        let fresh = desk.again()?;
        let walk = Walk::of(&fresh, machine)?;
        return render(&fresh, &walk, leg, stop, typed, &asked);
    }
    let look_again = answers.iter().find(|a| wants_a_second_look(walk.book, a));
    match look_again {
        Some(answered) => go(&format!(
            "{}?kept=1#p-{}",
            walk.stop_address(leg, stop),
            answered.point
        )),
        None => go(&walk.after(leg, stop, &answers)),
    }
}

/// Keeps why there is no photo of the point that this round was asked to show, where that was written.
fn keep_why_no_photo(desk: &Desk, walk: &Walk<'_>, typed: &Typed) -> Result<(), Refusal> {
    let asks = show_me::asks(desk, &desk.page(), walk).filter(|asks| asks.link.is_some());
    let why = asks.and_then(|asks| typed.some(&show_me::why_not(&asks.point)));
    if why.is_some() {
        let part = entry::WalkRound {
            no_photo: why,
            ..walk.part(Vec::new())
        };
        accept::keep(desk, Some(&walk.machine_id), Body::WalkRound(part))?;
    }
    Ok(())
}

/// Every answer in a form, whatever is due by now.
fn all_typed(desk: &Desk, book: &Book, typed: &Typed) -> Vec<Answered> {
    let (p, habits) = (desk.page(), desk.reading());
    let read = |point| match form::read(&p, point, typed, &habits, false) {
        Read::Answered(answered) => Some(answered),
        Read::Nothing | Read::Asked(_) => None,
    };
    book.points.iter().filter_map(read).collect()
}

/// A measure that is not plainly inside, or a level that cannot be compared, is shown again before going on.
fn wants_a_second_look(book: &Book, answered: &Answered) -> bool {
    let point = book.points.iter().find(|q| q.id == answered.point);
    let judged = matches!(
        answered.answer,
        entry::Answer::Measure { .. } | entry::Answer::Level { .. }
    );
    judged && point.is_some_and(|point| !matches!(weigh(point, &answered.answer), Weighed::Well))
}

/// Whether an answer tells that something is not as it should be. A measure may be a slip of the pen and can be corrected.
fn amiss(book: &Book, answered: &Answered) -> bool {
    let point = book.points.iter().find(|q| q.id == answered.point);
    let measured = matches!(answered.answer, entry::Answer::Measure { .. });
    !measured && point.is_some_and(|point| weigh(point, &answered.answer) == Weighed::Amiss)
}

/// New answers become a part of the round; changed ones correct the part they stand in, so that both stay readable.
fn keep_answers(
    desk: &Desk,
    walk: &Walk<'_>,
    machine: &MachineId,
    answers: &[Answered],
) -> Result<(), Refusal> {
    let mut fresh = Vec::new();
    let mut changed: BTreeMap<yard::id::EntryId, Vec<Answered>> = BTreeMap::new();
    for answered in answers {
        match walk.kept(&answered.point) {
            None => fresh.push(answered.clone()),
            // What the other said stays theirs: one's own look stands beside it.
            Some(given) if Some(given.by) != desk.person => fresh.push(answered.clone()),
            Some(given) if given.answered == *answered => {}
            // What was found amiss stays found: the later answer stands beside it and corrects nothing.
            Some(given) if amiss(walk.book, &given.answered) => fresh.push(answered.clone()),
            Some(given) => changed
                .entry(given.entry)
                .or_default()
                .push(answered.clone()),
        }
    }
    let mut corrections = Vec::new();
    for (of, answers) in changed {
        let Some(original) = walk.part_as_it_stands(of) else {
            continue;
        };
        let mut instead = original.clone();
        for answered in &answers {
            instead.answers.retain(|a| a.point != answered.point);
            instead.answers.push(answered.clone());
        }
        let (before, after) = (Body::WalkRound(original), Body::WalkRound(instead));
        if keeps_harm(&before, Some(&after)) {
            corrections.push((of, after));
        } else {
            // It would unsay harm: that is for deputy and steward, so the new answer stands beside the old one.
            fresh.extend(answers);
        }
    }
    if !fresh.is_empty() {
        accept::keep(desk, Some(machine), Body::WalkRound(walk.part(fresh)))?;
    }
    for (of, instead) in corrections {
        let correction = entry::Correction {
            of,
            instead: Some(Box::new(instead)),
            why: desk.page().t("correction-answered-again"),
        };
        accept::keep(desk, Some(machine), Body::Correction(correction))?;
    }
    Ok(())
}

fn render(
    desk: &Desk,
    walk: &Walk<'_>,
    leg: &Leg,
    stop: &Stop,
    typed: &Typed,
    asked: &BTreeMap<PointId, Vec<Asked>>,
) -> Answer {
    let p = desk.page();
    let (index, stops) = walk.position(leg, stop);
    let (done, points_total) = walk.progress();
    let station = walk
        .book
        .stations
        .iter()
        .find(|s| s.id == stop.station)
        .map(|s| s.name.clone())
        .unwrap_or_default();
    let questions: Vec<Question> = stop
        .points
        .iter()
        .filter_map(|due| one_question(&p, desk, walk, due, typed, asked).transpose())
        .collect::<Result<_, _>>()?;
    let open: Vec<&DuePoint> = stop
        .points
        .iter()
        .filter(|d| walk.kept(&d.point).is_none())
        .collect();
    let next = open.is_empty().then(|| walk.after(leg, stop, &[]));
    let mut guards = vec![capital(&format!("{}.", leg_title(&p, walk.book, leg)))];
    let needed = guards_at(walk.book, leg, std::slice::from_ref(stop));
    guards.extend(walk.guards(&p, leg, &needed));
    page(&StationPage {
        machine: walk.book.machine.name.clone(),
        here: walk.here.clone(),
        index,
        stops,
        done,
        points_total,
        bar: bar(done, points_total),
        stop: stop_words(&p, walk.book),
        stood_down: walk.stood_down.clone(),
        guards,
        drawing: drawing(&p, walk.book, stop, &station, "station"),
        kept: if next.is_some() {
            p.t("station-already-kept")
        } else {
            String::new()
        },
        action: walk.stop_address(leg, stop),
        round: walk
            .round
            .map(|round| round.id.to_string())
            .unwrap_or_default(),
        next,
        one_tap: open.iter().any(|d| d.one_tap),
        all_one_tap: open.iter().all(|d| d.one_tap),
        asked_back: !asked.is_empty(),
        points: questions,
        station,
        p,
    })
}

fn one_question(
    p: &Page,
    desk: &Desk,
    walk: &Walk<'_>,
    due: &DuePoint,
    typed: &Typed,
    asked: &BTreeMap<PointId, Vec<Asked>>,
) -> Result<Option<Question>, Refusal> {
    let Some(point) = walk.book.points.iter().find(|q| q.id == due.point) else {
        return Ok(None);
    };
    let mut q = question(p, walk.book, point, due.number, typed);
    q.asked = asked.get(&due.point).cloned().unwrap_or_default();
    q.earlier = crate::pages::yard::machine::open_finding_at(desk, walk.machine, &due.point, true)
        .unwrap_or_default();
    q.because = because(p, desk, walk, due);
    if let Some(asks) = show_me::asks(desk, p, walk).filter(|asks| asks.point == due.point)
        && let Some(link) = asks.link
    {
        (q.show_me, q.show_me_link) = (asks.line, link);
    }
    q.photos = photos::row(photos::of_open_at(desk, p, walk.machine, &due.point)?)?;
    if let Some(given) = walk.kept(&due.point) {
        q.kept_by = together::answered_by(desk, given);
        q.kept = p
            .words
            .answered(&given.answered, &crate::names::names(desk, walk.machine));
        match weigh(point, &given.answered.answer) {
            Weighed::Well => {}
            Weighed::Amiss => q.judged = p.t("judged-amiss"),
            Weighed::Unknown(What::TooClose { .. }) => {
                q.judged = format!("{} {}", p.t("well-too-close"), p.t("well-too-close.next"));
            }
            Weighed::Unknown(what) => q.judged = told(p, desk, walk, point, what),
        }
        q.scale = scale(p, point, &given.answered.answer).unwrap_or_default();
    }
    Ok(Some(q))
}

/// Why a point is asked that nobody may expect; empty where it comes round by itself.
pub(crate) fn because(p: &Page, desk: &Desk, walk: &Walk<'_>, due: &DuePoint) -> String {
    match &due.because {
        because @ (Because::OtherSide { .. } | Because::NotReaching) => capital(
            &p.words
                .because(because, &crate::names::names(desk, walk.machine)),
        ),
        _ => String::new(),
    }
}

/// An unknown in the words of a verdict's reason: what is not known, and what to do next.
fn told(p: &Page, desk: &Desk, walk: &Walk<'_>, point: &yard::book::Point, what: What) -> String {
    let reason = Reason {
        rule: "",
        weighs: Verdict::Care,
        rank: 40,
        unknown: true,
        point: Some(point.id.clone()),
        finding: None,
        what,
        figure: None,
    };
    let told = p
        .words
        .reason(&reason, &crate::names::names(desk, walk.machine));
    format!("{} {}", told.what, told.next)
}

/// The part of the machine seen from this station, with its points; empty where the book draws nothing there.
pub(crate) fn drawing(p: &Page, book: &Book, stop: &Stop, station: &str, id: &str) -> String {
    let here: Vec<&PointId> = stop.points.iter().map(|d| &d.point).collect();
    let places: Vec<_> = book
        .points
        .iter()
        .filter(|q| here.contains(&&q.id))
        .filter_map(|q| q.at)
        .collect();
    if places.is_empty() || book.drawing.is_empty() {
        return String::new();
    }
    let right = places.iter().filter(|at| at.y < 0.0).count() * 2 > places.len();
    let numbers = yard::walkround::numbers(book);
    let shows = |point: &yard::book::Point| {
        if here.contains(&&point.id) {
            Emphasis::Strong
        } else {
            Emphasis::Hidden
        }
    };
    side(&Side {
        book,
        view: if right { View::Right } else { View::Left },
        numbers: &numbers,
        shows: &shows,
        title: &p.t1("side-station", "name", station),
        zone: None,
        id,
        radius: 16.0,
        close_up: true,
    })
}

fn bar(done: usize, of: usize) -> String {
    let share = if of == 0 {
        0.0
    } else {
        done as f64 / of as f64 * 100.0
    };
    format!(
        "<svg viewBox=\"0 0 100 8\" preserveAspectRatio=\"none\" aria-hidden=\"true\"><rect width=\"{share:.1}\" height=\"8\" fill=\"#211E19\"/></svg>"
    )
}

/// Where a station's page stands.
pub(crate) fn address(here: &str, leg: &Leg, stop: &Stop) -> String {
    format!("{here}/round/{}/{}", leg_key(leg), stop.station)
}
