//! The yard's habits: what the steward settles once for all machines.

use crate::{
    desk::{Answer, Desk, go},
    pages::{
        upkeep::short::{Field, ShortForm},
        walkround::{
            form::{self, Typed},
            question::{Asked, Choice, capital},
        },
    },
};
use yard::{handover::YardHabits, people::Deed};

/// Shows the habits.
pub(crate) fn show(desk: &Desk) -> Answer {
    let habits = &desk.view.habits;
    let text = |value: Option<String>| value.unwrap_or_default();
    let typed = Typed::of(vec![
        pair("holds", habits.round_holds_hours.to_string()),
        pair(
            "refused",
            text(habits.refused_runs_hours.map(|h| h.to_string())),
        ),
        pair("relief", yes_no(habits.relief_allowed).to_owned()),
        pair("comma", yes_no(habits.decimal_comma).to_owned()),
        pair("gun", text(habits.gun_grams.map(|g| g.to_string()))),
    ]);
    render(desk, &typed, Vec::new())
}

/// Keeps them. They are settings of the yard, outside the journal.
pub(crate) fn keep(desk: &Desk, typed: &Typed) -> Answer {
    desk.may(Deed::KeepYard)?;
    let p = desk.page();
    let mut asked = Vec::new();
    let holds = typed
        .field("holds")
        .parse()
        .ok()
        .filter(|h| (1..=72).contains(h));
    if holds.is_none() {
        asked.push(form::asked(&p, "ask-habits-holds"));
    }
    let refused = optional(typed.field("refused"), |h: &u32| (1..=100).contains(h));
    if refused.is_err() {
        asked.push(form::asked(&p, "ask-habits-refused"));
    }
    let gun = optional(typed.field("gun"), |g: &f64| (0.1..=10.0).contains(g));
    if gun.is_err() {
        asked.push(form::asked(&p, "ask-habits-gun"));
    }
    let (Some(round_holds_hours), Ok(refused_runs_hours), Ok(gun_grams)) = (holds, refused, gun)
    else {
        return render(desk, typed, asked);
    };
    let habits = YardHabits {
        round_holds_hours,
        refused_runs_hours,
        relief_allowed: typed.field("relief") == "yes",
        decimal_comma: typed.field("comma") == "yes",
        gun_grams,
        seasons: desk.view.habits.seasons.clone(),
    };
    desk.app.yard.keep_habits(&habits)?;
    desk.app.forget_view();
    go(&format!("/y/{}", desk.app.tag()))
}

/// Empty is "not settled"; anything else must read and be fitting.
fn optional<T: std::str::FromStr>(text: &str, fits: impl Fn(&T) -> bool) -> Result<Option<T>, ()> {
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().ok().filter(fits).map(Some).ok_or(())
}

fn pair(name: &str, value: String) -> (String, String) {
    (name.to_owned(), value)
}

fn yes_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

fn render(desk: &Desk, typed: &Typed, asked: Vec<Asked>) -> Answer {
    desk.may(Deed::KeepYard)?;
    let p = desk.page();
    let choice = |key: &'static str, name: &'static str| {
        let options = ["yes", "no"].map(|code| Choice {
            code: code.to_owned(),
            word: capital(&p.t(code)),
            chosen: typed.field(name) == code,
        });
        Field::choice(&p, key, name, options.into())
    };
    let fields = vec![
        Field::text(&p, "habits-holds", "holds", typed.field("holds")),
        Field::text(&p, "habits-refused", "refused", typed.field("refused")),
        choice("habits-relief", "relief"),
        choice("habits-comma", "comma"),
        Field::text(&p, "habits-gun", "gun", typed.field("gun")),
    ];
    let form = ShortForm {
        title: p.t("habits-title"),
        machine: desk.app.yard.name().to_owned(),
        here: p.home(),
        stop: None,
        cautions: Vec::new(),
        lines: vec![p.t("habits-intro")],
        asked,
        action: format!("{}/habits", p.home()),
        fields,
        button: p.t("do-keep"),
        p,
    };
    form.show()
}
