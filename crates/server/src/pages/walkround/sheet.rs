//! A filled paper sheet coming back: exceptions and values are typed by number, the rest counts as ticked.

mod line;

use super::{
    form::{self, Read, Typed},
    question::{Asked, Choice, people_with},
    round::{Walk, evidence},
};
use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
};
use askama::Template;
use std::collections::BTreeMap;
use words::Arg;
use yard::{
    book::{Book, Point, PointKind},
    entry::{Answered, Body, WalkRound},
    handover::Situation,
    id::{PersonId, RoundId},
    people::{Deed, Role},
    walkround::{numbers, plan_round},
};

#[derive(Template)]
#[template(path = "walkround/sheet.html")]
struct SheetPage {
    p: Page,
    machine: String,
    here: String,
    asked: Vec<Asked>,
    people: Vec<Choice>,
    when: String,
    has_meter: bool,
    hours_typed: String,
    answers: String,
    examples: Vec<String>,
    rest_well: bool,
}

/// Shows the empty form.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let walk = Walk::of(desk, machine)?;
    render(desk, &walk, &Typed::default(), Vec::new())
}

/// Keeps the sheet as a whole round, marked "from paper"; what does not read is asked about, line by line.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    desk.may(Deed::TakeInPaper)?;
    let walk = Walk::of(desk, machine)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let walker = typed
        .field("walker")
        .parse::<PersonId>()
        .ok()
        .filter(|w| desk.view.yard.role_at(*w, desk.now) > Role::Visitor);
    if walker.is_none() {
        asked.push(form::asked(&p, "ask-sheet-who"));
    }
    let at = when(desk, typed.field("when"));
    if at.is_none() {
        asked.push(form::asked(&p, "ask-sheet-when"));
    }
    let hours = form::hours(&p, typed.field("hours"), &desk.reading()).unwrap_or_else(|told| {
        asked.push(told);
        None
    });
    let (answers, troubles) = read_lines(
        &p,
        &walk,
        desk,
        typed,
        walker.unwrap_or(PersonId(uuid::Uuid::nil())),
    );
    asked.extend(troubles);
    let (Some(walker), Some(at), true) = (walker, at, asked.is_empty()) else {
        return render(desk, &walk, typed, asked);
    };
    let mut part = WalkRound {
        round: RoundId(desk.new_id().0),
        from_paper: true,
        hours,
        closes: None,
        ..walk.part(answers)
    };
    part.closes = Some(evidence(desk, &walk, &part));
    accept::keep_from_paper(desk, &walk.machine_id, walker, at, Body::WalkRound(part))?;
    go(&walk.here)
}

/// Local date and time of the yard, not in the future.
fn when(desk: &Desk, text: &str) -> Option<jiff::Timestamp> {
    let civil: jiff::civil::DateTime = text.parse().ok()?;
    let at = civil.to_zoned_datetime(desk.zone.clone()).ok()?.timestamp();
    (at <= desk.now).then_some(at)
}

/// Reads `number: what` lines. Unnamed points count as well where the sheet was ticked and one tap could have said so.
fn read_lines(
    p: &Page,
    walk: &Walk<'_>,
    desk: &Desk,
    typed: &Typed,
    walker: PersonId,
) -> (Vec<Answered>, Vec<Asked>) {
    let by_number: BTreeMap<u32, &Point> = numbers(walk.book)
        .into_iter()
        .filter_map(|(id, n)| walk.book.points.iter().find(|q| q.id == id).map(|q| (n, q)))
        .collect();
    let (mut answers, mut asked) = (Vec::new(), Vec::new());
    let poses: Vec<String> = walk
        .book
        .poses
        .iter()
        .map(|pose| pose.id.to_string())
        .collect();
    let poses = poses.join(", ");
    for (i, line) in typed
        .field("answers")
        .lines()
        .enumerate()
        .filter(|(_, l)| !l.trim().is_empty())
    {
        let told = |key: &str| {
            let args = [
                ("line", Arg::from(i + 1)),
                ("text", Arg::from(line.trim())),
                ("poses", Arg::from(poses.as_str())),
            ];
            Asked {
                what: p.words.say(key, &args),
                hint: p.words.say(&format!("{key}.next"), &args),
            }
        };
        let Some((number, said)) = line.split_once(':') else {
            asked.push(told("ask-sheet-line"));
            continue;
        };
        match number
            .trim()
            .parse()
            .ok()
            .and_then(|n: u32| by_number.get(&n))
        {
            None => asked.push(told("ask-sheet-number")),
            Some(point) => match one(p, walk.book, point, said.trim(), &desk.reading()) {
                Ok(Read::Answered(answered)) => answers.push(answered),
                Ok(Read::Nothing) => asked.push(told("ask-sheet-said")),
                Ok(Read::Asked(more)) => asked.extend(more),
                Err(question) => asked.push(told(question)),
            },
        }
    }
    if typed.field("rest") == "well" {
        let situation = Situation {
            person: walker,
            ..desk.situation(walk.machine)
        };
        let due = plan_round(&situation, walk.plan.purpose, None)
            .map(|plan| plan.legs)
            .unwrap_or_default();
        for due in due.iter().flat_map(|l| &l.stops).flat_map(|s| &s.points) {
            let point = walk
                .book
                .points
                .iter()
                .find(|q| q.id == due.point && due.one_tap);
            let unnamed = !answers.iter().any(|a: &Answered| a.point == due.point);
            if let Some(answer) = point.filter(|_| unnamed).and_then(form::well_answer) {
                answers.push(Answered {
                    point: due.point.clone(),
                    answer,
                    note: None,
                    photos: Vec::new(),
                });
            }
        }
    }
    (answers, asked)
}

/// One line's words as the fields of a station page, then read by the same reader.
fn one(
    p: &Page,
    book: &Book,
    point: &Point,
    said: &str,
    habits: &quantity::Habits,
) -> Result<Read, line::Question> {
    let fields = line::fields(&p.words, book, point, said)?;
    let named = fields
        .into_iter()
        .map(|(what, value)| (format!("{what}.{}", point.id), value));
    Ok(form::read(
        p,
        point,
        &Typed::of(named.collect()),
        habits,
        false,
    ))
}

/// Lines as they may be typed for this machine, one for each kind that is written differently.
fn examples(p: &Page, book: &Book) -> Vec<String> {
    let numbers = numbers(book);
    let first = |is: fn(&PointKind) -> bool| book.points.iter().find(|point| is(&point.kind));
    let printed = |point: &Point, code: &str| {
        let words = papers::answer_words(&p.words, book, point);
        let word = words.into_iter().find(|word| word.code == code);
        word.map(|word| word.word)
    };
    let level = first(|kind| matches!(kind, PointKind::Level(_)));
    let clip = first(|kind| matches!(kind, PointKind::PinClip));
    let hose = first(|kind| matches!(kind, PointKind::Hose));
    let measure =
        first(|kind| matches!(kind, PointKind::Measure(limit) if limit.condition.is_none()));
    let said = [
        level.and_then(|point| Some((point, printed(point, "at-mark")?))),
        clip.and_then(|point| Some((point, printed(point, "missing")?))),
        measure.and_then(|point| Some((point, readings(point)?))),
        hose.map(|point| (point, p.t("sheet-not-checked-example"))),
    ];
    let line = |(point, said): (&Point, String)| {
        let number = numbers.get(&point.id)?;
        Some(p.t2("sheet-example", "n", number, "said", said))
    };
    said.into_iter().flatten().filter_map(line).collect()
}

/// As many readings as the point has, each at its limit.
fn readings(point: &Point) -> Option<String> {
    let PointKind::Measure(limit) = &point.kind else {
        return None;
    };
    let at_limit = limit.max.as_ref().or(limit.min.as_ref())?;
    Some(vec![at_limit.text(); limit.readings.len()].join(", "))
}

fn render(desk: &Desk, walk: &Walk<'_>, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::TakeInPaper)?;
    let p = desk.page();
    let chosen = typed.field("walker");
    let people = people_with(desk, |role| role > Role::Visitor, chosen);
    let now = desk
        .now
        .to_zoned_datetime(desk.zone.clone())
        .strftime("%Y-%m-%dT%H:%M")
        .to_string();
    page(&SheetPage {
        machine: walk.book.machine.name.clone(),
        here: walk.here.clone(),
        people,
        when: if typed.field("when").is_empty() {
            now
        } else {
            typed.field("when").to_owned()
        },
        has_meter: !walk.book.is_without_meter(),
        hours_typed: typed.field("hours").to_owned(),
        answers: typed.field("answers").to_owned(),
        rest_well: typed.field("rest") == "well",
        examples: examples(&p, walk.book),
        asked,
        p,
    })
}
