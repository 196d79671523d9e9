//! One machine's page: how to stop it, the verdict with all its reasons, what can be done, its drawings, what is due.

use super::home::class;
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    pages::kept::{attachments, documents},
};
use askama::Template;
use papers::drawing::{Emphasis, Mark, Plan, Side, plan, side, verdict_mark};
use words::Arg;
use yard::{
    book::{Book, Moves, PointKind, View, Without},
    handover::{Judgement, Reason, Verdict, What},
    id::{FaultRef, MachineId, PointId},
    state::{Finding, Given, MachineState},
    upkeep::{DueLine, OpenThing, hours_figure, next_due, open_things, shown_hours},
    walkround::numbers,
};

#[derive(Template)]
#[template(path = "yard/machine.html")]
struct MachinePage {
    p: Page,
    here: String,
    name: String,
    kind: String,
    stop: Option<String>,
    stop_then: String,
    zone: String,
    mark: String,
    class: &'static str,
    verdict: String,
    holds: String,
    reasons: Vec<ReasonLine>,
    permit: Option<String>,
    round_label: String,
    running: bool,
    may_start: bool,
    drawings: Vec<Drawn>,
    findings: Vec<FindingLine>,
    remarks: Vec<String>,
    due: Vec<Linked>,
    hours: String,
    hours_figure: Option<String>,
    papers: Vec<Paper>,
    to_see: Vec<String>,
    fitted: Vec<String>,
    /// Whether it has anything to grease.
    greased: bool,
    arm: bool,
    left: bool,
}

/// A reason as a page shows it.
pub(crate) struct ReasonLine {
    pub(crate) class: &'static str,
    pub(crate) what: String,
    pub(crate) next: String,
    pub(crate) figure: Option<String>,
    pub(crate) link: Option<String>,
}

pub(crate) struct Drawn {
    pub(crate) wide: bool,
    pub(crate) svg: String,
    pub(crate) caption: String,
}

struct FindingLine {
    link: String,
    what: String,
    when: String,
}

struct Linked {
    text: String,
    figure: Option<String>,
}

struct Paper {
    file: String,
    name: String,
}

/// Shows the machine.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let judgement = desk.judgement(state);
    let mark = Mark::of(&judgement);
    let here = format!("{}/m/{id}", p.home());
    let open = state.rounds.values().any(|r| {
        r.closed.is_none()
            && desk.person.is_some_and(|who| r.by.contains(&who))
            && r.book == judgement.book.unwrap_or(r.book)
    });
    let running = state
        .running
        .as_ref()
        .is_some_and(|(who, _)| Some(*who) == desk.person || p.role_leads());
    page(&MachinePage {
        name: book.machine.name.clone(),
        kind: book.machine.kind.clone(),
        stop: stop_words(&p, book),
        stop_then: book
            .stop
            .as_ref()
            .and_then(|stop| stop.then.clone())
            .unwrap_or_default(),
        zone: zone_words(&p, book),
        mark: verdict_mark(mark),
        class: class(mark),
        verdict: p.words.verdict(&judgement),
        holds: p
            .words
            .holds(&judgement, None, &crate::names::names(desk, state)),
        reasons: reason_lines(desk, &p, &id, state, &judgement),
        permit: permit(desk, &p, state, &judgement),
        round_label: p.t(if open { "go-on-round" } else { "do-walk-round" }),
        running,
        may_start: state.running.is_none()
            && judgement.verdict != Verdict::StandDown
            && desk.person.is_some(),
        drawings: drawings(&p, book),
        findings: findings(desk, &p, state, &judgement, &here),
        remarks: remarks(desk, &p, state),
        due: due(desk, &p, state, &here),
        hours: p.words.life_hours(shown_hours(state).as_ref()),
        hours_figure: hours_figure(state).map(|_| format!("{here}/figure/hours")),
        papers: papers_of(&p, state.left.is_some(), may_have_an_arm(book)),
        to_see: documents::to_see(desk, &p, &state.documents),
        fitted: state
            .fitted
            .keys()
            .map(|id| {
                p.t1(
                    "attachment-on-machine",
                    "name",
                    &attachments::name_of(desk, id),
                )
            })
            .collect(),
        greased: book
            .points
            .iter()
            .any(|point| matches!(point.kind, PointKind::Fitting(_))),
        arm: may_have_an_arm(book),
        left: state.left.is_some(),
        here,
        p,
    })
}

/// Whether the book speaks of an arm: a pin of one, what moves one, or how it points.
pub(crate) fn may_have_an_arm(book: &Book) -> bool {
    let moves_it = |ram: &yard::book::Ram| {
        let moves = ram.work.moves;
        matches!(moves, Some(Moves::Boom | Moves::Dipper | Moves::Bucket))
    };
    book.arm.manner.is_some() || !book.arm.pins.is_empty() || book.rams.iter().any(moves_it)
}

/// How to stop the engine, or that nobody knows; none where there is no engine.
pub(crate) fn stop_words(p: &Page, book: &Book) -> Option<String> {
    match &book.stop {
        Some(stop) => Some(stop.how.clone()),
        None => (!book.lacks(Without::Engine)).then(|| p.t("paper-stop-unknown")),
    }
}

/// How far everybody keeps away, in both units; empty where the book does not say.
pub(crate) fn zone_words(p: &Page, book: &Book) -> String {
    let reach = book.danger_zone.as_ref().map(|zone| &zone.reach);
    reach.map_or_else(String::new, |reach| {
        p.t1("zone-in-words", "far", &p.words.quantity(reach))
    })
}

/// The reasons, worst first, with what to do next.
pub(crate) fn reason_lines(
    desk: &Desk,
    p: &Page,
    id: &MachineId,
    state: &MachineState,
    judgement: &Judgement,
) -> Vec<ReasonLine> {
    let names = crate::names::names(desk, state);
    judgement
        .reasons
        .iter()
        .enumerate()
        .map(|(i, reason)| {
            let mut told = p.words.reason(reason, &names);
            if reason.what == What::NotReleased {
                // What was wrong stays in sight until it is released.
                let found = reason.finding.as_ref().and_then(|id| state.finding(id));
                let what = found.map(|f| p.words.found(f, &names));
                told.what = [what.unwrap_or_default(), told.what].join(" · ");
            }
            let finding = reason.finding.as_ref().map(|f| {
                // What is asked, not found, is settled among the questions.
                if state.finding(f).is_none() {
                    return p.role_leads().then(|| format!("{}/questions", p.home()));
                }
                let f = crate::session::encode(&f.to_string());
                Some(format!("{}/m/{id}/finding/{f}", p.home()))
            });
            let finding = finding.flatten();
            let figure = reason
                .figure
                .as_ref()
                .map(|_| format!("{}/m/{id}/figure/reason-{i}", p.home()));
            ReasonLine {
                class: reason_class(reason),
                what: told.what,
                next: told.next,
                figure,
                link: finding,
            }
        })
        .collect()
}

fn reason_class(reason: &Reason) -> &'static str {
    match reason.weighs {
        Verdict::StandDown => "stand-down",
        Verdict::Care => "care",
        Verdict::Fit => "note",
    }
}

fn permit(desk: &Desk, p: &Page, state: &MachineState, judgement: &Judgement) -> Option<String> {
    let id = judgement.holds.permit?;
    let (.., permit) = state.permits.iter().find(|(entry, ..)| *entry == id)?;
    Some(p.words.permit(permit, &crate::names::names(desk, state)))
}

/// What is open, as links: one line for each thing, however often it was found.
fn findings(
    desk: &Desk,
    p: &Page,
    state: &MachineState,
    judgement: &Judgement,
    here: &str,
) -> Vec<FindingLine> {
    let names = crate::names::names(desk, state);
    let line = |thing: &OpenThing<'_>| {
        let what = p.words.found(thing.latest, &names);
        let args = [("what", what.into()), ("n", Arg::from(thing.all.len()))];
        let id = crate::session::encode(&thing.latest.id.to_string());
        FindingLine {
            link: format!("{here}/finding/{id}"),
            what: p.words.say("found-times", &args),
            when: finding_when(desk, p, thing.latest),
        }
    };
    open_things(state, judgement).iter().map(line).collect()
}

/// What the last round said beside answers that are well: a remark is often the first word of a fault.
fn remarks(desk: &Desk, p: &Page, state: &MachineState) -> Vec<String> {
    let names = crate::names::names(desk, state);
    let closed = state.rounds.values().filter(|round| round.closed.is_some());
    let last = closed.max_by_key(|round| round.closed.map(|(at, ..)| at));
    let given = last.into_iter().flat_map(|round| round.answers.values());
    let line = |given: &Given| {
        let point = &given.answered.point;
        let of = FaultRef {
            entry: given.entry,
            point: Some(point.clone()),
        };
        let note = given
            .answered
            .note
            .as_deref()
            .filter(|note| !note.trim().is_empty())?;
        state.finding(&of).is_none().then(|| {
            p.t2(
                "machine-remark",
                "point",
                p.words.point(point, &names),
                "note",
                note,
            )
        })
    };
    given.filter_map(line).collect()
}

/// Who found it and when; or only when.
fn found_when(desk: &Desk, p: &Page, finding: &Finding, named: bool) -> String {
    if named {
        return finding_when(desk, p, finding);
    }
    p.words.moment(finding.at, desk.now, &desk.zone)
}

fn finding_when(desk: &Desk, p: &Page, finding: &Finding) -> String {
    let args = [
        ("name", crate::unnamed::finder(desk, finding).into()),
        (
            "when",
            p.words.moment(finding.at, desk.now, &desk.zone).into(),
        ),
    ];
    p.words.say("found-by", &args)
}

/// What is open at a point, said beside its question; `named` with who found it.
pub(crate) fn open_finding_at(
    desk: &Desk,
    state: &MachineState,
    point: &PointId,
    named: bool,
) -> Option<String> {
    let p = desk.page();
    let finding = state
        .findings
        .values()
        .find(|f| f.open() && f.id.point.as_ref() == Some(point))?;
    Some(
        p.words.say(
            "open-here",
            &[
                (
                    "what",
                    p.words
                        .found(finding, &crate::names::names(desk, state))
                        .into(),
                ),
                ("who", found_when(desk, &p, finding, named).into()),
            ],
        ),
    )
}

pub(crate) fn drawings(p: &Page, book: &Book) -> Vec<Drawn> {
    if book.drawing.is_empty() {
        return Vec::new();
    }
    let numbers = numbers(book);
    let (zone, name) = (p.t("drawing-zone"), book.machine.name.as_str());
    let shows = |_: &yard::book::Point| Emphasis::Quiet;
    let one = |view: View, key: &str, id: &str| {
        let caption = p.t1(key, "name", name);
        let svg = side(&Side {
            book,
            view,
            numbers: &numbers,
            shows: &shows,
            title: &caption,
            zone: Some(&zone),
            id,
            radius: 17.0,
            close_up: false,
        });
        Drawn {
            wide: true,
            svg,
            caption,
        }
    };
    let caption = p.t1("seen-from-above", "name", name);
    let top = plan(&Plan {
        book,
        here: None,
        title: &caption,
        zone: &zone,
        id: "plan",
        radius: 34.0,
    });
    vec![
        one(View::Left, "side-left", "left"),
        one(View::Right, "side-right", "right"),
        Drawn {
            wide: false,
            svg: top,
            caption,
        },
    ]
}

/// What comes next: the four soonest by the hours, the four soonest by the calendar.
fn due(desk: &Desk, p: &Page, state: &MachineState, here: &str) -> Vec<Linked> {
    let names = crate::names::names(desk, state);
    let lines: Vec<(usize, DueLine)> = next_due(&desk.situation(state))
        .into_iter()
        .enumerate()
        .collect();
    let mut by_hours: Vec<_> = lines.iter().filter(|(_, l)| l.at_hours.is_some()).collect();
    by_hours.sort_by(|(_, a), (_, b)| a.at_hours.cmp(&b.at_hours));
    let mut by_date: Vec<_> = lines.iter().filter(|(_, l)| l.at_hours.is_none()).collect();
    by_date.sort_by_key(|(_, l)| l.on);
    let soonest = by_hours
        .into_iter()
        .take(4)
        .chain(by_date.into_iter().take(4));
    let linked = soonest.map(|(at, line)| Linked {
        text: p.words.due(line, &names),
        figure: line
            .figure
            .as_ref()
            .map(|_| format!("{here}/figure/due-{at}")),
    });
    linked.collect()
}

/// The papers of a machine; of one that left, those that go with it.
fn papers_of(p: &Page, left: bool, arm: bool) -> Vec<Paper> {
    let kinds = [
        "round-sheet",
        "greasing-chart",
        "due-strip",
        "arrival-sheet",
        "parts-list",
        "history",
    ];
    let of_arm = ["arm-sheet", "survey-sheet", "teaching-strips"];
    let of_arm = if arm && !left { &of_arm[..] } else { &[] };
    let kinds = if left { &kinds[4..] } else { &kinds[..] };
    let sizes = ["a4", "letter"];
    let both = kinds
        .iter()
        .chain(of_arm)
        .flat_map(|kind| sizes.iter().map(move |size| (kind, size)));
    both.map(|(kind, size)| {
        let size_word = p.t(&format!("paper-named-{size}"));
        let name = p.words.say(
            "paper-link",
            &[
                ("paper", Arg::from(p.t(&format!("link-{kind}")))),
                ("size", size_word.into()),
            ],
        );
        Paper {
            file: format!("{kind}.pdf?size={size}"),
            name,
        }
    })
    .collect()
}
