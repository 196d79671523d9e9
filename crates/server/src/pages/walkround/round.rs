//! The round as a list, its beginning and its end; and `Walk`, the round as somebody is walking it.

use super::{
    form,
    form::Typed,
    question::Asked,
    show_me, signs, station,
    together::{self, Offer},
};
use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    page::Page,
    pages::{upkeep::in_sight, yard::machine::stop_words},
    refusal::Refusal,
};
use askama::Template;
use words::Arg;
use yard::{
    book::{Book, Engine, Safeguard},
    entry::{Answered, Body, Entry, Evidence, RoundPurpose, WalkRound},
    handover::{Judgement, Situation, judge, keeps_engine_off},
    id::{EntryId, MachineId, PersonId, PointId, RoundId},
    people::Deed,
    state::{Given, MachineState, Round, fold_machine},
    walkround::{Leg, RoundPlan, Stop, plan_round},
};

/// A round as one person is walking it now: the plan, what is kept already, and where the pages are.
pub(crate) struct Walk<'a> {
    pub(crate) machine_id: MachineId,
    pub(crate) machine: &'a MachineState,
    pub(crate) book: &'a Book,
    pub(crate) revision: EntryId,
    pub(crate) plan: RoundPlan,
    pub(crate) round: Option<&'a Round>,
    pub(crate) here: String,
    /// What stands the machine down already, in words: the engine is not started any more in this round.
    pub(crate) stood_down: Vec<String>,
    /// Whether this person runs it only in sight of steward or deputy.
    in_sight: bool,
    entries: &'a [Entry],
    new_round: RoundId,
}

impl<'a> Walk<'a> {
    /// The round this person is on, or would begin.
    pub(crate) fn of(desk: &'a Desk, machine: &str) -> Result<Self, Refusal> {
        let person = desk.may(Deed::WalkRound)?;
        let (machine_id, state, book) = desk.machine_and_book(machine)?;
        let revision = state.book().map(|b| b.revision).ok_or(Refusal::NotFound)?;
        let round = open_round(desk, state, revision, person);
        let situation = desk.situation(state);
        let purpose = round.map_or(RoundPurpose::Start, |r| r.purpose);
        let plan = plan_round(&situation, purpose, round).ok_or(Refusal::NotFound)?;
        let here = format!("/y/{}/m/{machine_id}", desk.app.tag());
        let judgement = desk.judgement(state);
        let stood_down = stood_down(desk, state, &judgement);
        Ok(Self {
            machine_id,
            machine: state,
            book,
            revision,
            plan,
            round,
            here,
            stood_down,
            in_sight: in_sight::is_needed(&judgement),
            entries: &desk.view.entries,
            new_round: RoundId(desk.new_id().0),
        })
    }

    /// What this round holds for a point already.
    pub(crate) fn kept(&self, point: &PointId) -> Option<&'a Given> {
        self.round.and_then(|round| round.answers.get(point))
    }

    /// A stop by the address' parts.
    pub(crate) fn stop(&self, leg: &str, station: &str) -> Result<(&Leg, &Stop), Refusal> {
        let leg = self
            .plan
            .legs
            .iter()
            .find(|l| leg_key(l) == leg)
            .ok_or(Refusal::NotFound)?;
        let stop = leg
            .stops
            .iter()
            .find(|s| s.station.as_str() == station)
            .ok_or(Refusal::NotFound)?;
        Ok((leg, stop))
    }

    fn stops(&self) -> impl Iterator<Item = (&Leg, &Stop)> {
        self.plan
            .legs
            .iter()
            .flat_map(|leg| leg.stops.iter().map(move |stop| (leg, stop)))
    }

    /// Whether this leg would start the engine of a machine that is stood down.
    pub(crate) fn may_not_start(&self, leg: &Leg) -> bool {
        matches!(leg.engine, Engine::Idle | Engine::Working) && !self.stood_down.is_empty()
    }

    /// What must be in place at a leg, in words: its guards, and for whoever runs it in sight only that somebody has them in it.
    pub(crate) fn guards(&self, p: &Page, leg: &Leg, guards: &[Safeguard]) -> Vec<String> {
        let starts = matches!(leg.engine, Engine::Idle | Engine::Working);
        let in_sight = (starts && self.in_sight).then(|| p.t("round-in-sight"));
        let guards = guards.iter().map(|guard| p.words.name(*guard));
        in_sight.into_iter().chain(guards).collect()
    }

    fn left_at(&self, stop: &Stop, just: &[Answered]) -> usize {
        stop.points
            .iter()
            .filter(|d| self.kept(&d.point).is_none() && !just.iter().any(|a| a.point == d.point))
            .count()
    }

    /// Where to go after a stop: the next one along the lap with something left, else the first with something left, else the list.
    pub(crate) fn after(&self, leg: &Leg, stop: &Stop, just: &[Answered]) -> String {
        let all: Vec<(&Leg, &Stop)> = self.stops().collect();
        let at = all
            .iter()
            .position(|(l, s)| leg_key(l) == leg_key(leg) && s.station == stop.station)
            .unwrap_or(0);
        let later = all[at + 1..].iter().chain(&all[..=at]);
        let next = later
            .into_iter()
            .find(|(l, s)| self.left_at(s, just) > 0 && !self.may_not_start(l));
        next.map_or_else(
            || format!("{}/round?list=1", self.here),
            |(leg, stop)| self.stop_address(leg, stop),
        )
    }

    /// The first stop with something left.
    fn first_left(&self) -> Option<String> {
        self.stops()
            .find(|(leg, stop)| self.left_at(stop, &[]) > 0 && !self.may_not_start(leg))
            .map(|(leg, stop)| self.stop_address(leg, stop))
    }

    pub(crate) fn stop_address(&self, leg: &Leg, stop: &Stop) -> String {
        station::address(&self.here, leg, stop)
    }

    /// Number of this stop and how many there are.
    pub(crate) fn position(&self, leg: &Leg, stop: &Stop) -> (usize, usize) {
        let at = self
            .stops()
            .position(|(l, s)| leg_key(l) == leg_key(leg) && s.station == stop.station);
        (at.map_or(0, |i| i + 1), self.stops().count())
    }

    /// Points answered and points in all.
    pub(crate) fn progress(&self) -> (usize, usize) {
        let all: usize = self.stops().map(|(_, s)| s.points.len()).sum();
        let left: usize = self.stops().map(|(_, s)| self.left_at(s, &[])).sum();
        (all - left, all)
    }

    /// A part of this round with these answers.
    pub(crate) fn part(&self, answers: Vec<Answered>) -> WalkRound {
        let round = self.round.map_or(self.new_round, |r| r.id);
        let purpose = self.plan.purpose;
        WalkRound {
            round,
            book: self.revision,
            purpose,
            from_paper: false,
            answers,
            hours: None,
            closes: None,
            no_photo: None,
        }
    }

    /// A part already kept, as it stands now with its corrections.
    pub(crate) fn part_as_it_stands(&self, of: EntryId) -> Option<WalkRound> {
        let round_of = |body: &Body| {
            if let Body::WalkRound(part) = body {
                Some(part.clone())
            } else {
                None
            }
        };
        let corrected = self.entries.iter().rev().find_map(|e| match &e.body {
            Body::Correction(c) if c.of == of => c.instead.as_deref().and_then(round_of),
            _ => None,
        });
        corrected.or_else(|| {
            self.entries
                .iter()
                .find(|e| e.id == of)
                .and_then(|e| round_of(&e.body))
        })
    }
}

/// What keeps the engine off in this round, in words.
fn stood_down(desk: &Desk, state: &MachineState, judgement: &Judgement) -> Vec<String> {
    let names = crate::names::names(desk, state);
    let off = judgement
        .reasons
        .iter()
        .filter(|reason| keeps_engine_off(reason));
    let words = &desk.app.words;
    off.map(|reason| words.reason(reason, &names))
        .map(|told| format!("{} {}", told.what, told.next))
        .collect()
}

/// The round this person has open on this machine, under the book in force, young enough to go on with.
fn open_round<'a>(
    desk: &Desk,
    machine: &'a MachineState,
    revision: EntryId,
    person: PersonId,
) -> Option<&'a Round> {
    let open = machine
        .rounds
        .values()
        .filter(|round| is_open(desk, machine, round, revision));
    open.filter(|round| round.by.contains(&person))
        .max_by_key(|round| round.begun)
}

/// Whether a round may be gone on with: not closed, under this revision of the book, young enough to count.
pub(super) fn is_open(
    desk: &Desk,
    machine: &MachineState,
    round: &Round,
    revision: EntryId,
) -> bool {
    let oldest = jiff::SignedDuration::from_hours(i64::from(desk.view.habits.round_holds_hours));
    round.closed.is_none()
        && round.book == revision
        && desk.now.duration_since(round.begun) < oldest
        && (round.purpose == RoundPurpose::After || !overtaken(machine, round))
}

/// Whether the machine was handed over or released since the round began: what it found would not count, so another is begun.
fn overtaken(machine: &MachineState, round: &Round) -> bool {
    let handed_over = machine.handover.as_ref().map(|(_, at, ..)| *at);
    let released = machine
        .findings
        .values()
        .filter_map(|finding| machine.closed_at.get(finding.released.as_ref()?).copied())
        .max();
    handed_over.max(released).is_some_and(|at| at > round.begun)
}

/// A leg's part of the address.
pub(crate) fn leg_key(leg: &Leg) -> String {
    use yard::code::Coded;
    format!(
        "{}.{}",
        leg.engine.code(),
        leg.pose.as_ref().map_or("found", |pose| pose.as_str())
    )
}

/// A leg in words: engine state and pose.
pub(crate) fn leg_title(p: &Page, book: &Book, leg: &Leg) -> String {
    let engine = p.words.leg_state(leg.engine, book);
    let pose = leg
        .pose
        .as_ref()
        .and_then(|id| book.poses.iter().find(|pose| pose.id == *id))
        .map(|pose| pose.what.clone());
    format!("{engine} · {}", pose.unwrap_or_else(|| p.t("leg-as-found")))
}

#[derive(Template)]
#[template(path = "walkround/round.html")]
struct RoundPage {
    p: Page,
    machine: String,
    here: String,
    stop: Option<String>,
    stood_down: Vec<String>,
    offers: Vec<Offer>,
    company: String,
    /// What happened to the round meanwhile.
    told: Vec<Asked>,
    /// The id of the round that is walked; empty where none is begun.
    round: String,
    summary: String,
    /// The one point this round is asked to show, or what became of its photo; and where it is taken.
    show_me: String,
    show_me_link: String,
    /// Signs of rounds not walked, for the steward alone.
    signs: Vec<String>,
    relief: bool,
    after: bool,
    legs: Vec<LegLine>,
    finds: Vec<String>,
    next: Option<String>,
    next_label: String,
    left: usize,
    hours_last: String,
    hours_typed: String,
    asked: Vec<Asked>,
}

struct LegLine {
    title: String,
    guards: Vec<String>,
    stops: Vec<StopLine>,
}

struct StopLine {
    name: String,
    link: String,
    state: String,
}

/// Shows the round's list; a round already begun goes on where it was, unless the list is asked for.
pub(crate) fn show(desk: &Desk, machine: &str, list: bool) -> Answer {
    let walk = Walk::of(desk, machine)?;
    match walk.first_left() {
        Some(next) if !list && walk.round.is_some() => go(&next),
        _ => render(desk, &walk, "", Vec::new()),
    }
}

/// The list with something told above it.
pub(super) fn tell(desk: &Desk, walk: &Walk<'_>, told: Asked) -> Answer {
    let told = vec![told];
    page(&RoundPage {
        told,
        ..list(desk, walk, "", Vec::new())
    })
}

fn render(desk: &Desk, walk: &Walk<'_>, hours_typed: &str, asked: Vec<Asked>) -> Answer {
    page(&list(desk, walk, hours_typed, asked))
}

fn list(desk: &Desk, walk: &Walk<'_>, hours_typed: &str, asked: Vec<Asked>) -> RoundPage {
    let p = desk.page();
    let offers = together::offers(desk, walk);
    let (done, all) = walk.progress();
    let minutes = p.words.say(
        "round-minutes",
        &[("minutes", Arg::from(walk.plan.seconds.div_ceil(60)))],
    );
    let skipped = p
        .words
        .say("round-skipped", &[("n", Arg::from(walk.plan.skipped))]);
    let summary = p.words.say(
        "round-summary",
        &[
            ("points", Arg::from(all)),
            ("minutes", minutes.into()),
            ("skipped", skipped.into()),
        ],
    );
    let after = walk.round.is_none()
        && plan_round(&desk.situation(walk.machine), RoundPurpose::After, None)
            .is_some_and(|plan| !plan.legs.is_empty());
    let relief = walk.round.is_none()
        && desk.view.habits.relief_allowed
        && plan_round(&desk.situation(walk.machine), RoundPurpose::Relief, None).is_some();
    let asks = show_me::asks(desk, &p, walk);
    let (show_me, link) = asks.map_or_else(Default::default, |asks| (asks.line, asks.link));
    RoundPage {
        show_me,
        show_me_link: link.unwrap_or_default(),
        signs: signs::of_machine(desk, &p, &walk.machine_id),
        machine: walk.book.machine.name.clone(),
        here: walk.here.clone(),
        stop: stop_words(&p, walk.book),
        stood_down: walk.stood_down.clone(),
        company: together::company(desk, &p, walk),
        round: walk
            .round
            .map(|round| round.id.to_string())
            .unwrap_or_default(),
        summary,
        relief,
        after,
        legs: walk
            .plan
            .legs
            .iter()
            .map(|leg| leg_line(&p, walk, leg))
            .collect(),
        finds: walk
            .plan
            .finds
            .iter()
            .filter_map(|id| walk.book.joints.iter().find(|j| j.id == *id))
            .map(|j| j.name.clone())
            .collect(),
        next: walk.first_left(),
        next_label: p.t(if !offers.is_empty() {
            "begin-own-round"
        } else if done == 0 {
            "begin-round"
        } else {
            "go-on-round"
        }),
        left: all - done,
        hours_last: hours_last(&p, walk.machine),
        hours_typed: hours_typed.to_owned(),
        offers,
        told: Vec::new(),
        asked,
        p,
    }
}

fn leg_line(p: &Page, walk: &Walk<'_>, leg: &Leg) -> LegLine {
    let name = |stop: &Stop| {
        walk.book
            .stations
            .iter()
            .find(|s| s.id == stop.station)
            .map(|s| s.name.clone())
            .unwrap_or_default()
    };
    let state = |stop: &Stop| {
        let (left, all) = (walk.left_at(stop, &[]), stop.points.len());
        let key = if left == 0 { "stop-done" } else { "stop-left" };
        p.words.say(
            key,
            &[("done", Arg::from(all - left)), ("all", Arg::from(all))],
        )
    };
    LegLine {
        title: super::question::capital(&leg_title(p, walk.book, leg)),
        guards: walk.guards(p, leg, &leg.guards),
        stops: leg
            .stops
            .iter()
            .map(|stop| StopLine {
                name: name(stop),
                link: walk.stop_address(leg, stop),
                state: state(stop),
            })
            .collect(),
    }
}

/// What the first meter showed last, as a hint beside the field; empty where the book says that there is none to read: then
/// there is no field.
pub(crate) fn hours_last(p: &Page, machine: &MachineState) -> String {
    if machine
        .book()
        .is_some_and(|adopted| adopted.book.is_without_meter())
    {
        return String::new();
    }
    let first = machine.meter(None);
    let last = first
        .map_or(&[][..], |history| &history.segments)
        .last()
        .map(|s| quantity::format_exact(&s.last, 1));
    last.map_or_else(
        || p.t("hours-none-yet"),
        |last| p.t1("hours-last", "value", &last),
    )
}

/// Begins a round with a purpose of its own (a relief check, a round after use).
pub(crate) fn begin(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    use yard::code::Coded;
    let purpose = RoundPurpose::from_code(typed.field("purpose")).ok_or(Refusal::BadRequest)?;
    let mut walk = Walk::of(desk, machine)?;
    if walk.round.is_none() {
        walk.plan =
            plan_round(&desk.situation(walk.machine), purpose, None).ok_or(Refusal::BadRequest)?;
        accept::keep(
            desk,
            Some(&walk.machine_id),
            Body::WalkRound(walk.part(Vec::new())),
        )?;
    }
    go(&format!("{}/round", walk.here))
}

/// Closes the round: reads the meter, keeps the verdict as evidence, shows the machine.
pub(crate) fn close(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    let walk = Walk::of(desk, machine)?;
    if let Some(closed) = together::closed_meanwhile(desk, &walk, typed) {
        return together::too_late(desk, machine, &walk, closed, Vec::new());
    }
    let p = desk.page();
    let text = typed.field("hours");
    let not_read = text.eq_ignore_ascii_case(&p.t("hours-not-read"));
    let hours = match form::hours(&p, if not_read { "" } else { text }, &desk.reading()) {
        Ok(None) if walk.book.has_meter() && !not_read => {
            return render(desk, &walk, text, vec![form::asked(&p, "ask-hours")]);
        }
        Ok(hours) => hours,
        Err(asked) => return render(desk, &walk, text, vec![asked]),
    };
    if let Some(more) = more_due(desk, &walk, machine, hours.as_ref(), text)? {
        return Ok(more);
    }
    let fresh = desk.again()?;
    let walk = Walk::of(&fresh, machine)?;
    let mut part = walk.part(Vec::new());
    part.hours = hours;
    part.closes = Some(evidence(&fresh, &walk, &part));
    accept::keep(&fresh, Some(&walk.machine_id), Body::WalkRound(part))?;
    go(&walk.here)
}

/// Keeps the meter's reading at once. Where it makes more points due than the list held, the list comes back with them, so
/// that the round can be finished as one.
fn more_due(
    desk: &Desk,
    walk: &Walk<'_>,
    machine: &str,
    hours: Option<&quantity::Quantity>,
    typed: &str,
) -> Result<Option<axum::response::Response>, Refusal> {
    let Some(hours) = hours else { return Ok(None) };
    let before: Vec<&PointId> = walk
        .stops()
        .flat_map(|(_, stop)| &stop.points)
        .map(|due| &due.point)
        .collect();
    let mut part = walk.part(Vec::new());
    part.hours = Some(hours.clone());
    accept::keep(desk, Some(&walk.machine_id), Body::WalkRound(part))?;
    let fresh = desk.again()?;
    let now = Walk::of(&fresh, machine)?;
    let more = now
        .stops()
        .flat_map(|(_, stop)| &stop.points)
        .any(|due| !before.contains(&&due.point));
    if more {
        let asked = vec![form::asked(&fresh.page(), "ask-more-due")];
        return render(&fresh, &now, typed, asked).map(Some);
    }
    Ok(None)
}

/// The verdict this round is given: computed on the journal as it will stand with the closing part in it.
pub(crate) fn evidence(desk: &Desk, walk: &Walk<'_>, part: &WalkRound) -> Evidence {
    let blank = Evidence {
        verdict: String::new(),
        reasons: Vec::new(),
        book: walk.revision,
        program: env!("CARGO_PKG_VERSION").to_owned(),
    };
    let person = desk.person.unwrap_or(PersonId(uuid::Uuid::nil()));
    let mut entries: Vec<Entry> = desk
        .view
        .entries
        .iter()
        .filter(|e| e.machine.as_ref() == Some(&walk.machine_id))
        .cloned()
        .collect();
    let body = Body::WalkRound(WalkRound {
        closes: Some(blank.clone()),
        ..part.clone()
    });
    entries.push(Entry {
        id: desk.new_id(),
        seq: u64::MAX,
        machine: Some(walk.machine_id.clone()),
        at: desk.now,
        ordered_at: desk.now,
        written: desk.now,
        clock_corrected: false,
        by: person,
        device: desk.device(),
        counter: 0,
        body,
    });
    let state = fold_machine(&walk.machine_id, &entries, &desk.view.yard, &desk.reading());
    let judgement = judge(&Situation {
        machine: &state,
        ..desk.situation(walk.machine)
    });
    Evidence {
        verdict: judgement.verdict.code().to_owned(),
        reasons: judgement
            .reasons
            .iter()
            .map(|r| r.what.code().to_owned())
            .collect(),
        ..blank
    }
}
