//! A run: started with the shift's short checks in view, something amiss during it, ended.

use super::{
    further, in_sight,
    short::{Field, ShortForm},
};
use crate::pages::yard::machine::stop_words;
use crate::{
    accept,
    desk::{Answer, Desk, go},
    pages::walkround::{
        form::{self, Typed},
        question::Asked,
    },
};
use axum::http::StatusCode;
use yard::{
    book::Book,
    entry::{self, Body, RunPart},
    handover::{Judgement, Verdict},
    people::Deed,
    state::MachineState,
};

/// Shows the start of a run: refused while the machine is stood down.
pub(crate) fn show(desk: &Desk, machine: &str) -> Answer {
    render(desk, machine, &Typed::default(), Vec::new())
}

/// Shows the end of a run: what to do before stopping, what was amiss.
pub(crate) fn show_end(desk: &Desk, machine: &str) -> Answer {
    render_end(desk, machine, &Typed::default(), Vec::new())
}

/// Keeps the start of a run. Whoever has a learner in sight gives their word by their PIN, here and now: the one way into the
/// journal for it. Call it with the turn at the PINs taken, as for signing in.
pub(crate) fn keep(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    keep_part(desk, machine, typed, RunPart::Start)
}

/// Keeps the end of a run.
pub(crate) fn keep_end(desk: &Desk, machine: &str, typed: &Typed) -> Answer {
    keep_part(desk, machine, typed, RunPart::End)
}

fn keep_part(desk: &Desk, machine: &str, typed: &Typed, part: RunPart) -> Answer {
    desk.may(Deed::Run)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let hours = form::hours(&p, typed.field("hours"), &desk.reading()).unwrap_or_else(|told| {
        asked.push(told);
        None
    });
    let more = further::read(desk, book, typed, &mut asked);
    if !asked.is_empty() && part == RunPart::End {
        return render_end(desk, machine, typed, asked);
    }
    let mut in_sight_of = None;
    if part == RunPart::Start {
        let judgement = desk.judgement(state);
        if !asked.is_empty() {
            return render(desk, machine, typed, asked);
        }
        if judgement.verdict == Verdict::StandDown {
            return render(desk, machine, typed, Vec::new());
        }
        in_sight_of = match in_sight::word(desk, &id, &judgement, typed)? {
            Ok(who) => who,
            Err(refused) => return no_word(desk, machine, typed, refused),
        };
    }
    further::keep(desk, &id, more)?;
    let run = entry::Run {
        part,
        hours,
        work: typed.some("work"),
        amiss: typed.some("amiss").into_iter().collect(),
        in_sight_of,
    };
    accept::keep(desk, Some(&id), Body::Run(run))?;
    go(&format!("/y/{}/m/{id}", desk.app.tag()))
}

/// The form again, with what is asked of whoever should have the learner in sight.
fn no_word(desk: &Desk, machine: &str, typed: &Typed, refused: in_sight::NoWord) -> Answer {
    let mut response = render(desk, machine, typed, vec![refused.asked])?;
    if refused.stopped {
        *response.status_mut() = StatusCode::TOO_MANY_REQUESTS;
    }
    Ok(response)
}

fn render(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Run)?;
    let (id, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "run", "run-title", "run-start")?;
    let p = form.p.clone();
    form.stop = stop_words(&p, book);
    let judgement = desk.judgement(state);
    if judgement.verdict == Verdict::StandDown {
        return no_start(desk, form, state, &judgement);
    }
    form.cautions = p.words.cautions(&["caution-seat", "caution-zone"], book);
    form.lines = start_lines(&p, book);
    form.asked = asked;
    form.fields = vec![Field::text(&p, "run-work", "work", typed.field("work"))];
    form.fields.extend(first_meter(&p, book, typed));
    // How long it ran is told when it has run.
    let further = further::fields(&p, state, book, typed);
    let meters = further.into_iter().filter(|field| field.name != "ran");
    form.fields.extend(meters);
    let chosen = typed.field("sight");
    if in_sight::is_needed(&judgement) || !chosen.is_empty() {
        let leaders = in_sight::leaders(desk, &id, chosen);
        form.fields.extend([
            Field::choice(&p, "run-sight", "sight", leaders),
            Field::secret(&p, "run-pin", "pin"),
        ]);
    }
    form.show()
}

/// The page without its form: the machine is not started, because.
fn no_start(
    desk: &Desk,
    mut form: ShortForm,
    state: &MachineState,
    judgement: &Judgement,
) -> Answer {
    let names = crate::names::names(desk, state);
    let down = judgement
        .reasons
        .iter()
        .filter(|reason| reason.weighs == Verdict::StandDown);
    form.asked = down
        .map(|reason| form.p.words.reason(reason, &names))
        .map(|told| Asked {
            what: told.what,
            hint: told.next,
        })
        .collect();
    let verdict = form.p.words.verdict(judgement);
    form.title = format!("{}: {verdict}", form.title);
    form.button = String::new();
    form.show()
}

fn render_end(desk: &Desk, machine: &str, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::Run)?;
    let (_, state, book) = desk.machine_and_book(machine)?;
    let mut form = ShortForm::new(desk, machine, "run/end", "run-end-title", "do-end-run")?;
    let p = form.p.clone();
    form.stop = stop_words(&p, book);
    form.lines = end_lines(&p, book);
    form.asked = asked;
    form.fields = vec![Field::long(&p, "run-amiss", "amiss", typed.field("amiss"))];
    form.fields.extend(first_meter(&p, book, typed));
    form.fields.extend(further::fields(&p, state, book, typed));
    form.show()
}

/// What the first meter shows; no field where the book says that there is none.
fn first_meter(p: &crate::page::Page, book: &Book, typed: &Typed) -> Option<Field> {
    let field = || Field::text(p, "hours-now", "hours", typed.field("hours"));
    (!book.is_without_meter()).then(field)
}

/// What to know before starting: the danger zone, the order, what stands otherwise to dig, the shift's short lists.
pub(crate) fn start_lines(p: &crate::page::Page, book: &Book) -> Vec<String> {
    let mut lines = vec![crate::pages::yard::machine::zone_words(p, book)];
    if !book.start.is_empty() {
        lines.push(format!(
            "{}: {}.",
            p.t("start-order"),
            book.start.join(" · ")
        ));
    }
    lines.extend(to_dig_lines(p, book));
    lines.extend(shift_lines(p, book));
    lines
}

/// What to do before stopping, and what to stop and tell for.
pub(crate) fn end_lines(p: &crate::page::Page, book: &Book) -> Vec<String> {
    let lists = [
        ("shift-cool-down", &book.shift.cool_down),
        ("shift-stop-and-tell", &book.shift.stop_and_tell),
    ];
    in_lines(p, &lists)
}

/// What stands otherwise to dig than at rest: a lock pin is in at rest and stowed to dig.
fn to_dig_lines(p: &crate::page::Page, book: &Book) -> Vec<String> {
    let other = book
        .rest
        .iter()
        .filter_map(|step| Some((&step.what, step.to_dig.as_ref()?)));
    other
        .map(|(what, dig)| p.t2("run-to-dig", "what", what, "how", dig))
        .collect()
}

/// The short lists of the shift, in the book's words.
fn shift_lines(p: &crate::page::Page, book: &Book) -> Vec<String> {
    let lists = [
        ("shift-warm-up", &book.shift.warm_up),
        ("shift-first-metres", &book.shift.first_metres),
        ("shift-gauges", &book.shift.gauges),
        ("shift-stop-and-tell", &book.shift.stop_and_tell),
        ("shift-cool-down", &book.shift.cool_down),
    ];
    in_lines(p, &lists)
}

fn in_lines(p: &crate::page::Page, lists: &[(&str, &Vec<String>)]) -> Vec<String> {
    let filled = lists.iter().filter(|(_, list)| !list.is_empty());
    filled
        .map(|(key, list)| format!("{}: {}.", p.t(key), list.join(" · ")))
        .collect()
}
