//! Two people on one round: the rounds of others that may be joined, joining one, and what comes after the other closed it.

use super::{
    form::{self, Typed},
    round::{self, Walk},
};
use crate::{
    accept,
    desk::{Answer, Desk, go},
    page::Page,
};
use words::Arg;
use yard::{
    entry::{Answered, Body, RoundPurpose, WalkRound},
    id::RoundId,
    state::{Given, Round},
    walkround::plan_round,
};

/// Somebody else's round that may be joined.
pub(crate) struct Offer {
    /// Its id, for the form.
    pub(crate) round: String,
    /// Who began it, when, and how far it is.
    pub(crate) line: String,
}

/// The rounds of others that are open here; none for whoever is on a round already.
pub(crate) fn offers(desk: &Desk, walk: &Walk<'_>) -> Vec<Offer> {
    if walk.round.is_some() {
        return Vec::new();
    }
    let p = desk.page();
    let rounds = walk.machine.rounds.values();
    let open = rounds.filter(|round| may_join(desk, walk, round));
    open.map(|round| Offer {
        round: round.id.to_string(),
        line: line(desk, &p, walk, round),
    })
    .collect()
}

/// Whether this person may join a round: young, by the book in force, not closed. A relief check is one person's own look.
fn may_join(desk: &Desk, walk: &Walk<'_>, round: &Round) -> bool {
    let own = desk.person.is_some_and(|person| round.by.contains(&person));
    !own && round.purpose != RoundPurpose::Relief
        && !round.from_paper
        && round::is_open(desk, walk.machine, round, walk.revision)
}

fn line(desk: &Desk, p: &Page, walk: &Walk<'_>, round: &Round) -> String {
    let plan = plan_round(&desk.situation(walk.machine), round.purpose, Some(round));
    let legs = plan.map_or_else(Vec::new, |plan| plan.legs);
    let stops = legs.iter().flat_map(|leg| &leg.stops);
    let points: Vec<_> = stops.flat_map(|stop| &stop.points).collect();
    let done = points
        .iter()
        .filter(|due| round.answers.contains_key(&due.point));
    let people: Vec<String> = round.by.iter().map(|who| desk.view.name(*who)).collect();
    p.words.say(
        "together-offer",
        &[
            ("people", Arg::from(p.words.list(&people))),
            (
                "at",
                p.words.moment(round.begun, desk.now, &desk.zone).into(),
            ),
            ("done", Arg::from(done.count())),
            ("points", Arg::from(points.len())),
        ],
    )
}

/// Joins somebody's round by an empty part of it, and goes on in it.
pub(crate) fn join(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let walk = Walk::of(desk, machine)?;
    if walk.round.is_some() {
        return go(&format!("{}/round", walk.here));
    }
    let wanted = named(&walk, typed).filter(|round| may_join(desk, &walk, round));
    let Some(round) = wanted else {
        return round::tell(desk, &walk, form::asked(&desk.page(), "ask-join-gone"));
    };
    let part = WalkRound {
        round: round.id,
        purpose: round.purpose,
        ..walk.part(Vec::new())
    };
    accept::keep(desk, Some(&walk.machine_id), Body::WalkRound(part))?;
    go(&format!("{}/round", walk.here))
}

/// The round a form was made for.
fn named<'a>(walk: &Walk<'a>, typed: &Typed) -> Option<&'a Round> {
    let id = typed.field("round").parse().ok().map(RoundId)?;
    walk.machine.rounds.get(&id)
}

/// The round a form was made for, where somebody closed it since: nothing more is begun by that form.
pub(crate) fn closed_meanwhile<'a>(
    desk: &Desk,
    walk: &Walk<'a>,
    typed: &Typed,
) -> Option<&'a Round> {
    let walks = |round: &&Round| desk.person.is_some_and(|who| round.by.contains(&who));
    named(walk, typed)
        .filter(|round| round.closed.is_some())
        .filter(walks)
}

/// Says that the other closed the round. Answers that came too late are kept in the journal: what is amiss still counts.
pub(crate) fn too_late(
    desk: &Desk,
    machine: &str,
    walk: &Walk<'_>,
    round: &Round,
    answers: Vec<Answered>,
) -> Answer {
    if !answers.is_empty() {
        let part = WalkRound {
            round: round.id,
            book: round.book,
            purpose: round.purpose,
            ..walk.part(answers)
        };
        accept::keep(desk, Some(&walk.machine_id), Body::WalkRound(part))?;
    }
    let fresh = desk.again()?;
    let walk = Walk::of(&fresh, machine)?;
    let p = fresh.page();
    let (at, by, _) = round
        .closed
        .unwrap_or((round.last, round.by[0], round.book));
    let at = p.words.moment(at, fresh.now, &fresh.zone);
    let asked = super::question::Asked {
        what: p.t2("round-closed-by", "person", fresh.view.name(by), "at", at),
        hint: p.t("round-closed-by.next"),
    };
    round::tell(&fresh, &walk, asked)
}

/// Who else walks this round; empty where nobody does.
pub(crate) fn company(desk: &Desk, p: &Page, walk: &Walk<'_>) -> String {
    let by = walk.round.map_or(&[][..], |round| &round.by);
    let others = by.iter().filter(|who| Some(**who) != desk.person);
    let others: Vec<String> = others.map(|who| desk.view.name(*who)).collect();
    if others.is_empty() {
        return String::new();
    }
    p.t1("together-with", "people", &p.words.list(&others))
}

/// The other person whose answer this is; empty where it is one's own.
pub(crate) fn answered_by(desk: &Desk, given: &Given) -> String {
    if Some(given.by) == desk.person {
        return String::new();
    }
    desk.view.name(given.by)
}
