//! One finding: what was found and done, and the entries that close it by naming it.

use super::comes_back::{self, Told};
use crate::{
    accept,
    desk::{Answer, Desk, go, page},
    names,
    page::Page,
    pages::{
        photos,
        walkround::{
            form::{self, Typed},
            question::Asked,
        },
    },
    refusal::Refusal,
    unnamed,
};
use askama::Template;
use jiff::Timestamp;
use yard::{
    entry::{self, Body, Cause},
    id::{FaultRef, MachineId},
    people::{Deed, may},
    state::{Finding, MachineState},
    upkeep::{OpenThing, Repeat, open_things, repeat_at},
};

#[derive(Template)]
#[template(path = "upkeep/finding.html")]
struct FindingPage {
    p: Page,
    machine: String,
    here: String,
    what: String,
    when: String,
    now: Vec<String>,
    /// Before anybody mends it.
    cautions: Vec<String>,
    also: Vec<String>,
    history: Vec<String>,
    again: Vec<Told>,
    /// What to know before mending it: that the same was done before, and what the other side is asked.
    before_mending: Vec<String>,
    /// Whether the repair asks for the cause.
    asks_cause: bool,
    asked: Vec<Asked>,
    closed: bool,
    tag: Option<String>,
    sheet: String,
    photos: String,
    add_photo: Option<String>,
    action: String,
    may_mend: bool,
    may_release: bool,
    typed: String,
    typed_release: String,
    typed_cause: String,
    typed_not_found: String,
}

fn find<'a>(
    desk: &'a Desk,
    machine: &str,
    finding: &str,
) -> Result<(MachineId, &'a MachineState, &'a Finding), Refusal> {
    let (id, state) = desk.machine(machine)?;
    let name: FaultRef = finding.parse().map_err(|()| Refusal::NotFound)?;
    let finding = state.findings.get(&name).ok_or(Refusal::NotFound)?;
    Ok((id, state, finding))
}

/// Every open finding of the same thing: whoever mends it mends them all.
fn all_of(desk: &Desk, state: &MachineState, found: &Finding) -> Vec<FaultRef> {
    let judgement = desk.judgement(state);
    let things = open_things(state, &judgement);
    let same = things
        .iter()
        .find(|thing| thing.all.iter().any(|f| f.id == found.id));
    same.map_or_else(|| vec![found.id.clone()], OpenThing::names)
}

/// Shows a finding.
pub(crate) fn show(desk: &Desk, machine: &str, finding: &str) -> Answer {
    render(desk, machine, finding, Vec::new(), &Typed::default())
}

/// Writes a repair that names it.
pub(crate) fn mend(desk: &Desk, machine: &str, finding: &str, typed: &Typed) -> Answer {
    let (id, state, found) = find(desk, machine, finding)?;
    let p = desk.page();
    let what = typed.field("what");
    let cause = cause(typed);
    let mut asked = Vec::new();
    if what.is_empty() {
        asked.push(plain(p.t("ask-repair-what")));
    }
    if cause.is_none() && repeat_of(state, found).is_some_and(|repeat| repeat.asks_cause()) {
        asked.push(form::asked(&p, "ask-mend-cause"));
    }
    if !asked.is_empty() {
        return render(desk, machine, finding, asked, typed);
    }
    accept::keep(
        desk,
        Some(&id),
        Body::Repair(entry::Repair {
            mends: all_of(desk, state, found),
            what: what.to_owned(),
            cost: typed.some("cost"),
            event: None,
            cause,
        }),
    )?;
    go(&address(desk, &id, &found.id))
}

/// The cause as it was written: found, or not found and why.
fn cause(typed: &Typed) -> Option<Cause> {
    let found = typed.some("cause").map(Cause::Found);
    found.or_else(|| typed.some("cause-not-found").map(Cause::NotFound))
}

/// What comes back at the point of a finding.
fn repeat_of(state: &MachineState, found: &Finding) -> Option<Repeat> {
    found.point().and_then(|point| repeat_at(state, point))
}

fn plain(what: String) -> Asked {
    Asked {
        what,
        hint: String::new(),
    }
}

/// Writes the release that names it.
pub(crate) fn release(desk: &Desk, machine: &str, finding: &str, typed: &Typed) -> Answer {
    let (id, state, found) = find(desk, machine, finding)?;
    let mended = typed.field("mended");
    desk.may(Deed::Release)?;
    if mended.is_empty() {
        return render(
            desk,
            machine,
            finding,
            vec![plain(desk.page().t("ask-release-mended"))],
            typed,
        );
    }
    accept::keep(
        desk,
        Some(&id),
        Body::Release(entry::Release {
            lifts: all_of(desk, state, found),
            mended: mended.to_owned(),
        }),
    )?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

fn address(desk: &Desk, machine: &MachineId, finding: &FaultRef) -> String {
    format!(
        "/y/{}/m/{machine}/finding/{}",
        desk.app.tag(),
        crate::session::encode(&finding.to_string())
    )
}

fn render(desk: &Desk, machine: &str, finding: &str, asked: Vec<Asked>, typed: &Typed) -> Answer {
    let (id, state, found) = find(desk, machine, finding)?;
    let p = desk.page();
    let names = names::names(desk, state);
    let when = [
        ("name", unnamed::finder(desk, found).into()),
        (
            "when",
            p.words.moment(found.at, desk.now, &desk.zone).into(),
        ),
    ];
    let closed = found.released.is_some();
    let here = format!("{}/m/{id}", p.home());
    let point = found.point().map(|point| state.point_today(point));
    let again = |point| comes_back::at(desk, &p, state, point, &here);
    page(&FindingPage {
        again: point.as_ref().and_then(again).into_iter().collect(),
        before_mending: before_mending(desk, &p, state, found),
        asks_cause: repeat_of(state, found).is_some_and(|repeat| repeat.asks_cause()),
        machine: state
            .book()
            .map(|b| b.book.machine.name.clone())
            .unwrap_or_default(),
        what: p.words.found(found, &names),
        when: p.words.say("found-by", &when),
        now: now_lines(desk, &p, state, found),
        cautions: cautions(&p, state),
        also: also(desk, &p, state, found),
        history: history(desk, &p, found, &names, &|at| {
            p.words.moment(at, desk.now, &desk.zone)
        }),
        asked,
        closed,
        tag: (!closed).then(|| {
            format!(
                "{}/m/{id}/papers/stand-down-tag.pdf?size=a4&finding={}",
                p.home(),
                crate::session::encode(&found.id.to_string())
            )
        }),
        sheet: format!(
            "{}/m/{id}/papers/finding-sheet.pdf?size=a4&finding={}",
            p.home(),
            crate::session::encode(&found.id.to_string())
        ),
        photos: photos::row(photos::of_finding(desk, &p, found, &names)?)?,
        add_photo: (may(desk.role, Deed::Note) && desk.person.is_some()).then(|| {
            let of = crate::session::encode(&found.id.to_string());
            format!("{}/m/{id}/photo?of={of}", p.home())
        }),
        action: address(desk, &id, &found.id),
        may_mend: !closed && may(desk.role, Deed::Repair) && desk.person.is_some(),
        may_release: !closed && may(desk.role, Deed::Release) && desk.person.is_some(),
        typed: typed.field("what").to_owned(),
        typed_release: typed.field("mended").to_owned(),
        typed_cause: typed.field("cause").to_owned(),
        typed_not_found: typed.field("cause-not-found").to_owned(),
        here,
        p,
    })
}

/// What whoever mends it should know first: the cure that did not hold, and that the other side is asked.
fn before_mending(desk: &Desk, p: &Page, state: &MachineState, found: &Finding) -> Vec<String> {
    let names = names::names(desk, state);
    let mut lines = Vec::new();
    if let Some((times, cure)) = repeat_of(state, found).as_ref().and_then(Repeat::same_cure) {
        let key = if times > 1 {
            "mend-same-again"
        } else {
            "mend-same-once"
        };
        let args = [("what", cure.what.as_str().into()), ("n", times.into())];
        lines.push(p.words.say(key, &args));
    }
    if let Some(point) = found.point().map(|point| state.point_today(point)) {
        lines.extend(comes_back::other_sides(desk, p, state, &point, &names));
    }
    lines
}

/// What was done about it, a line each.
pub(crate) fn history(
    desk: &Desk,
    p: &Page,
    found: &Finding,
    names: &dyn words::Names,
    when: &dyn Fn(Timestamp) -> String,
) -> Vec<String> {
    let named = |entry: &yard::id::EntryId| desk.view.entries.iter().find(|e| e.id == *entry);
    let done = found.mended.iter().chain(&found.released);
    let line = |e: &entry::Entry| {
        let args = [
            ("line", p.words.entry(&e.body, names).into()),
            ("name", unnamed::writer(desk, e).into()),
            ("when", when(e.at).into()),
        ];
        p.words.say("finding-history", &args)
    };
    done.filter_map(named).map(line).collect()
}

/// What comes before mending; a machine whose book is gone has everything.
fn cautions(p: &Page, state: &MachineState) -> Vec<String> {
    let all = ["caution-engine-off", "caution-held", "caution-pressure"];
    state.book().map_or_else(
        || all.iter().map(|key| p.t(key)).collect(),
        |known| p.words.cautions(&all, &known.book),
    )
}

/// What to do about it now, as the verdict words it.
fn now_lines(desk: &Desk, p: &Page, state: &MachineState, found: &Finding) -> Vec<String> {
    let names = names::names(desk, state);
    let judgement = desk.judgement(state);
    let own = judgement
        .reasons
        .iter()
        .filter(|r| r.finding.as_ref() == Some(&found.id));
    own.map(|reason| p.words.reason(reason, &names).next)
        .collect()
}

/// Earlier findings of the same thing: whoever closes this one closes them all, so they are shown.
fn also(desk: &Desk, p: &Page, state: &MachineState, found: &Finding) -> Vec<String> {
    let names = names::names(desk, state);
    let all = all_of(desk, state, found);
    let others = all
        .iter()
        .filter(|id| **id != found.id)
        .filter_map(|id| state.finding(id));
    let line = |f: &Finding| {
        let when = p.words.moment(f.at, desk.now, &desk.zone);
        let args = [
            ("line", p.words.found(f, &names).into()),
            ("name", unnamed::finder(desk, f).into()),
            ("when", when.into()),
        ];
        p.words.say("finding-history", &args)
    };
    others.map(line).collect()
}
