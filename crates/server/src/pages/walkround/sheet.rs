//! A filled paper sheet coming back: exceptions and values are typed by number, the rest counts as ticked.

use super::{
    form::{self, Read, Typed},
    question::{Asked, Choice},
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
    book::{Point, PointKind},
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
    hours_typed: String,
    answers: String,
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
    for (i, line) in typed
        .field("answers")
        .lines()
        .enumerate()
        .filter(|(_, l)| !l.trim().is_empty())
    {
        let told = |key: &str| {
            let args = [("line", Arg::from(i + 1)), ("text", Arg::from(line.trim()))];
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
            Some(point) => match one(p, point, said.trim(), &desk.reading()) {
                Read::Answered(answered) => answers.push(answered),
                Read::Nothing => asked.push(told("ask-sheet-said")),
                Read::Asked(more) => asked.extend(more),
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
fn one(p: &Page, point: &Point, said: &str, habits: &quantity::Habits) -> Read {
    let id = &point.id;
    let mut pairs: Vec<(String, String)> = Vec::new();
    let mut words: Vec<&str> = said.split(',').map(str::trim).collect();
    match &point.kind {
        PointKind::Measure(limit) => {
            let other = words
                .iter()
                .position(|w| w.eq_ignore_ascii_case("other way"))
                .map(|at| words.remove(at))
                .is_some();
            let missed = words
                .iter()
                .position(|w| w.eq_ignore_ascii_case("not met"))
                .map(|at| words.remove(at))
                .is_some();
            pairs.extend(
                words
                    .iter()
                    .enumerate()
                    .map(|(i, w)| (format!("v{i}.{id}"), (*w).to_owned())),
            );
            pairs.push((
                format!("m.{id}"),
                if other { "no" } else { "yes" }.to_owned(),
            ));
            if limit.condition.is_some() {
                pairs.push((
                    format!("c.{id}"),
                    if missed { "no" } else { "yes" }.to_owned(),
                ));
            }
        }
        PointKind::Level(mark) => {
            let mut words = words.into_iter();
            pairs.push((format!("a.{id}"), code(words.next().unwrap_or_default())));
            pairs.push((format!("looks.{id}"), code(words.next().unwrap_or("clean"))));
            let pose = mark
                .pose
                .as_ref()
                .map_or_else(|| "other".to_owned(), ToString::to_string);
            pairs.push((format!("pose.{id}"), words.next().map_or(pose, code)));
            pairs.push((
                format!("oil.{id}"),
                words
                    .next()
                    .map_or_else(|| yard::code::Coded::code(mark.oil).to_owned(), code),
            ));
        }
        PointKind::Crank(cases) => {
            let tried = words.iter().zip(0..cases.len());
            pairs.extend(tried.map(|(w, i)| (format!("k{i}.{id}"), code(w))));
            let bypassed = words.iter().any(|w| w.eq_ignore_ascii_case("bypassed"));
            pairs.push((
                format!("by.{id}"),
                if bypassed { "yes" } else { "no" }.to_owned(),
            ));
        }
        _ => pairs.push((
            format!("a.{id}"),
            code(words.first().copied().unwrap_or_default()),
        )),
    }
    if let Some(why) = said.strip_prefix("not checked") {
        pairs = vec![(
            format!("why.{id}"),
            code(why.trim_start_matches([',', ' ']).trim()),
        )];
        if yard::code::Coded::from_code(&pairs[0].1)
            .is_none_or(|h: yard::entry::Hindrance| h == yard::entry::Hindrance::Other)
        {
            pairs[0].1 = "other".to_owned();
        }
    }
    form::read(p, point, &Typed::of(pairs), habits, false)
}

/// Words as written on the sheet, as a code: `worn through` is `worn-through`; leak classes stay capital.
fn code(word: &str) -> String {
    let word = word.trim();
    if word.chars().all(|c| c == 'I') && !word.is_empty() {
        word.to_owned()
    } else {
        word.to_lowercase().replace(' ', "-")
    }
}

fn render(desk: &Desk, walk: &Walk<'_>, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::TakeInPaper)?;
    let p = desk.page();
    let chosen = typed.field("walker");
    let able = desk
        .view
        .yard
        .people
        .iter()
        .filter(|(_, state)| state.role_at(desk.now) > Role::Visitor);
    let people = able
        .map(|(id, _)| Choice {
            code: id.to_string(),
            word: desk.view.name(*id),
            chosen: id.to_string() == chosen,
        })
        .collect();
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
        hours_typed: typed.field("hours").to_owned(),
        answers: typed.field("answers").to_owned(),
        rest_well: typed.field("rest") == "well",
        asked,
        p,
    })
}
