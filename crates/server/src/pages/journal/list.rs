//! The journal: every entry, newest first, with what it says and its corrections.

use crate::{
    accept::{deed_of, is_peoples},
    desk::{Answer, Desk, page},
    names,
    page::Page,
    pages::photos,
    refusal::Refusal,
};
use askama::Template;
use std::collections::BTreeMap;
use words::Arg;
use yard::{
    entry::{Body, Correction, Entry},
    id::{EntryId, MachineId, PersonId},
    people::may,
    state::MachineState,
};

#[derive(Template)]
#[template(path = "journal/journal.html")]
struct JournalPage {
    p: Page,
    title: String,
    machine: Option<(String, String)>,
    total: usize,
    conflicts: Vec<String>,
    entries: Vec<Line>,
    older: Option<String>,
}

struct Line {
    seq: u64,
    when: String,
    who: String,
    machine: String,
    line: String,
    details: Vec<String>,
    voided: bool,
    flags: Vec<String>,
    photos: String,
    correct: Option<String>,
}

/// Entries on one page.
const ON_A_PAGE: usize = 60;

/// Shows the journal of the yard, or of one machine; `before`: only entries accepted before this one.
pub(crate) fn show(desk: &Desk, machine: Option<&str>, before: Option<u64>) -> Answer {
    let p = desk.page();
    let only = machine.map(|id| desk.machine(id)).transpose()?;
    let wanted = |e: &&Entry| {
        only.as_ref()
            .is_none_or(|(id, _)| e.machine.as_ref() == Some(id))
            && before.is_none_or(|before| e.seq < before)
    };
    let corrections = corrections(&desk.view.entries);
    let shown: Vec<&Entry> = desk
        .view
        .entries
        .iter()
        .rev()
        .filter(wanted)
        .take(ON_A_PAGE)
        .collect();
    let address = only.as_ref().map_or_else(
        || format!("{}/journal", p.home()),
        |(id, _)| format!("{}/m/{id}/journal", p.home()),
    );
    let older = (shown.len() == ON_A_PAGE)
        .then(|| format!("{address}?before={}", shown.last().map_or(0, |e| e.seq)));
    let total = desk
        .view
        .entries
        .iter()
        .filter(|e| {
            only.as_ref()
                .is_none_or(|(id, _)| e.machine.as_ref() == Some(id))
        })
        .count();
    let empty = MachineState::default();
    let state_of = |id: &Option<MachineId>| {
        id.as_ref()
            .and_then(|id| desk.view.machines.get(id))
            .unwrap_or(&empty)
    };
    let lines = shown
        .iter()
        .map(|e| line(desk, &p, e, state_of(&e.machine), &corrections))
        .collect::<Result<_, _>>()?;
    let name = |(id, state): &(MachineId, &MachineState)| {
        (
            format!("{}/m/{id}", p.home()),
            state
                .book()
                .map(|b| b.book.machine.name.clone())
                .unwrap_or_default(),
        )
    };
    let conflicts = desk.app.yard.conflicts()?.len();
    page(&JournalPage {
        title: p.t("journal-title"),
        machine: only.as_ref().map(name),
        total,
        conflicts: if conflicts > 0 {
            vec![p.tn("journal-conflicts", "n", conflicts)]
        } else {
            Vec::new()
        },
        entries: lines,
        older,
        p,
    })
}

fn corrections(entries: &[Entry]) -> BTreeMap<EntryId, Vec<(&Entry, &Correction)>> {
    let mut all: BTreeMap<EntryId, Vec<(&Entry, &Correction)>> = BTreeMap::new();
    for entry in entries {
        if let Body::Correction(correction) = &entry.body {
            all.entry(correction.of)
                .or_default()
                .push((entry, correction));
        }
    }
    all
}

fn line(
    desk: &Desk,
    p: &Page,
    e: &Entry,
    state: &MachineState,
    corrections: &BTreeMap<EntryId, Vec<(&Entry, &Correction)>>,
) -> Result<Line, Refusal> {
    let names = names::names(desk, state);
    let own = corrections
        .get(&e.id)
        .map(Vec::as_slice)
        .unwrap_or_default();
    let mut flags = Vec::new();
    for (by, correction) in own {
        let said = correction
            .instead
            .as_ref()
            .map(|body| p.words.entry(body, &names));
        let key = if said.is_some() {
            "journal-replaced"
        } else {
            "journal-voided"
        };
        let args = [
            ("name", crate::unnamed::writer(desk, by).into()),
            ("why", correction.why.as_str().into()),
            ("line", said.unwrap_or_default().into()),
        ];
        flags.push(p.words.say(key, &args));
    }
    if state.rivals.contains_key(&e.id) {
        flags.push(p.t("journal-rivals"));
    }
    if let Some(typist) = e.device.0.strip_prefix("paper, typed by ") {
        let name = typist.parse().map(|id| desk.view.name(PersonId(id)));
        let name = name.unwrap_or_else(|_| typist.to_owned());
        flags.push(p.t1("journal-typed-by", "name", &name));
    }
    let found = state
        .findings
        .values()
        .filter(|f| f.id.entry == e.id && f.id.point.is_some());
    flags.extend(found.map(|f| p.words.found(f, &names)));
    if e.clock_corrected {
        flags.push(p.words.say(
            "journal-clock",
            &[("at", Arg::from(p.words.moment(e.at, desk.now, &desk.zone)))],
        ));
    }
    let may_correct = desk.person.is_some_and(|by| {
        let probe = Body::Correction(Correction {
            of: e.id,
            instead: None,
            why: String::new(),
        });
        is_peoples(&e.body, desk.view.as_ref())
            && may(desk.role, deed_of(&probe, by, desk.view.as_ref()))
    });
    // Whoever voids a photo's entry does not want it seen.
    let voided = own
        .iter()
        .any(|(_, correction)| correction.instead.is_none());
    let photos = if voided {
        Vec::new()
    } else {
        photos::of_entry(desk, p, e, &names)?
    };
    Ok(Line {
        seq: e.seq,
        when: p.words.moment(e.ordered_at, desk.now, &desk.zone),
        who: match e.by {
            PersonId::PROGRAM => p.t("the-program"),
            _ => crate::unnamed::writer(desk, e),
        },
        machine: state
            .book()
            .map(|b| b.book.machine.name.clone())
            .unwrap_or_default(),
        line: p.words.entry_line(e, &names),
        details: p.words.entry_details(e, &names),
        voided: !own.is_empty(),
        flags,
        photos: photos::row(photos)?,
        correct: may_correct.then(|| format!("{}/correct/{}", p.home(), e.id)),
    })
}
