//! Rounds to talk about: signs of a round not walked, for the steward alone. Nothing rests on them.

use crate::{
    desk::{Answer, Desk, page},
    names,
    page::Page,
    pages::lines::{LinesPage, Section},
};
use jiff::{SignedDuration, Timestamp};
use yard::{
    id::MachineId,
    people::{Deed, may},
    state::{MachineState, Round},
    walkround::{Shown, Sign, show_me, shown, signs},
};

/// How far back is looked, days.
const BACK: i64 = 30;

/// Shows them, the latest round first.
pub(crate) fn show(desk: &Desk) -> Answer {
    desk.may(Deed::SeeSigns)?;
    let p = desk.page();
    let mut told = told(desk);
    told.sort_by_key(|one| std::cmp::Reverse((one.at, one.round.id)));
    let sections: Vec<Section> = told.iter().map(|one| section(desk, &p, one)).collect();
    let mut intro = vec![p.t("signs-intro"), p.t("signs-nothing-refused")];
    if sections.is_empty() {
        intro.push(p.t("signs-none"));
    }
    page(&LinesPage {
        title: p.t("signs-title"),
        intro,
        sections,
        button: Some((p.home(), p.t("trail-yard"))),
        p,
    })
}

/// How many rounds show a sign; none for anybody but the steward.
pub(crate) fn count(desk: &Desk) -> usize {
    if may(desk.role, Deed::SeeSigns) && desk.person.is_some() {
        told(desk).len()
    } else {
        0
    }
}

/// The signs of one machine's rounds, in lines, for the steward on the round's page; nothing for anybody else.
pub(crate) fn of_machine(desk: &Desk, p: &Page, machine: &MachineId) -> Vec<String> {
    if !may(desk.role, Deed::SeeSigns) {
        return Vec::new();
    }
    let of_machine = told(desk).into_iter().filter(|one| one.machine == machine);
    let lines = of_machine.flat_map(|one| {
        let section = section(desk, p, &one);
        std::iter::once(one_round(desk, p, &one)).chain(section.lines)
    });
    lines.collect()
}

struct TellsOf<'a> {
    machine: &'a MachineId,
    state: &'a MachineState,
    round: &'a Round,
    at: Timestamp,
    signs: Vec<Sign>,
}

fn told(desk: &Desk) -> Vec<TellsOf<'_>> {
    let since = desk.now - SignedDuration::from_hours(24 * BACK);
    let rounds = desk.view.machines.iter().flat_map(|(machine, state)| {
        let rounds = state.rounds.values();
        rounds.map(move |round| (machine, state, round))
    });
    let told = rounds.filter_map(|(machine, state, round)| {
        let (at, ..) = round.closed?;
        if at < since {
            return None;
        }
        let signs = signs(state, round, &desk.zone);
        (!signs.is_empty()).then_some(TellsOf {
            machine,
            state,
            round,
            at,
            signs,
        })
    });
    told.collect()
}

fn one_round(desk: &Desk, p: &Page, one: &TellsOf<'_>) -> String {
    let walker = one.round.walker().map(|who| desk.view.name(who));
    p.t2(
        "sign-round",
        "name",
        walker.unwrap_or_default(),
        "when",
        p.words.moment(one.at, desk.now, &desk.zone),
    )
}

fn section(desk: &Desk, p: &Page, one: &TellsOf<'_>) -> Section {
    let names = names::names(desk, one.state);
    let machine = one.state.book().map(|book| book.book.machine.name.clone());
    let mut lines: Vec<String> = one
        .signs
        .iter()
        .map(|sign| p.words.sign(sign, &names))
        .collect();
    lines.extend(photo(p, one, &names));
    Section {
        title: format!(
            "{}: {}",
            machine.unwrap_or_default(),
            one_round(desk, p, one)
        ),
        link: format!("{}/m/{}/journal", p.home(), one.machine),
        lines,
        ..Section::default()
    }
}

/// What became of the photo, where there is none.
fn photo(p: &Page, one: &TellsOf<'_>, names: &dyn words::Names) -> Option<String> {
    let book = &one.state.revision(one.round.book)?.book;
    let point = show_me(book, one.round.id, one.round.purpose)?;
    let name = p.words.point(&point.id, names);
    match shown(one.state, one.round, &point.id) {
        Shown::Photo => None,
        Shown::Declined(why) => Some(p.t2("sign-no-photo", "point", name, "why", why)),
        Shown::NotYet => Some(p.t1("sign-photo-not-yet", "point", &name)),
    }
}
