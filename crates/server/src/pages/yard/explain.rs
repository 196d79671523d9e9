//! Pages that explain: the rules of the verdict, the reckoner's leaves, how one figure was got.

use crate::{
    desk::{Answer, Desk, page},
    pages::lines::{LinesPage, Section},
    refusal::Refusal,
};
use axum::response::IntoResponse;
use reckon::{Figure, Origin};
use words::Arg;
use yard::{
    handover::RULES,
    state::MachineState,
    upkeep::{hours_figure, hours_shown, next_due},
};

/// All rules of the verdict, each with why, source and example.
pub(crate) fn rules(desk: &Desk) -> Answer {
    let p = desk.page();
    let sections = RULES.iter().map(|rule| {
        let rows = vec![
            (p.t("rule-source"), p.words.rule_source(rule)),
            (p.t("rule-example"), p.words.rule_example(rule)),
        ];
        Section {
            id: rule.id.to_owned(),
            title: p.words.rule_title(rule),
            lines: vec![p.t(&format!("rule-{}.why", rule.id))],
            rows,
            ..Section::default()
        }
    });
    let sections = sections.collect();
    page(&LinesPage {
        title: p.t("rules-title"),
        intro: vec![p.t("rules-intro")],
        sections,
        button: None,
        p,
    })
}

/// The catalogue of every formula.
pub(crate) fn reckoner(desk: &Desk) -> Answer {
    let p = desk.page();
    let sections = reckon::LEAVES.iter().map(|leaf| Section {
        title: p.words.leaf_name(leaf),
        link: format!("/reckoner/{}", leaf.id),
        lines: vec![p.words.leaf_purpose(leaf)],
        ..Section::default()
    });
    let sections = sections.collect();
    page(&LinesPage {
        title: p.t("reckoner-title"),
        intro: vec![p.t("reckoner-intro")],
        sections,
        button: None,
        p,
    })
}

/// One formula's page.
pub(crate) fn leaf(desk: &Desk, id: &str) -> Answer {
    let p = desk.page();
    let leaf = reckon::find(id).ok_or(Refusal::NotFound)?;
    let rows = p.words.leaf_rows(leaf);
    let section = Section {
        rows,
        ..Section::default()
    };
    page(&LinesPage {
        title: p.words.leaf_name(leaf),
        intro: vec![p.words.leaf_purpose(leaf)],
        sections: vec![section],
        button: Some(("/reckoner".to_owned(), p.t("reckoner-title"))),
        p,
    })
}

/// A figure for machines: leaf, inputs and outputs with all their digits.
pub(crate) fn figure_json(desk: &Desk, machine: &str, which: &str) -> Answer {
    let figure = find_figure(desk, machine, which)?;
    let numbers = |value: &reckon::Value| match value {
        reckon::Value::Number(number) => serde_json::json!(number),
        reckon::Value::List(numbers) => serde_json::json!(numbers),
    };
    let inputs = figure.inputs().iter().map(|input| {
        serde_json::json!({ "name": input.name(), "value": numbers(input.value()), "half_width": input.half_width() })
    });
    let outputs = figure.outputs().iter().map(|output| {
        serde_json::json!({ "name": output.name, "value": numbers(&output.value), "half_width": output.half_width })
    });
    let json = serde_json::json!({
        "leaf": figure.leaf().id,
        "inputs": inputs.collect::<Vec<_>>(),
        "outputs": outputs.collect::<Vec<_>>(),
    });
    let kind = [(axum::http::header::CONTENT_TYPE, "application/json")];
    Ok((kind, json.to_string()).into_response())
}

/// The journal's entries that a figure's inputs were taken from, each with who and when.
fn origins(desk: &Desk, figure: &Figure) -> Vec<String> {
    let p = desk.page();
    let ids: std::collections::BTreeSet<String> = figure
        .inputs()
        .iter()
        .filter_map(|input| match input.origin() {
            Origin::Entry(id) => Some(id.clone()),
            _ => None,
        })
        .collect();
    let blank = yard::state::MachineState::default();
    let entries = desk.view.entries.iter();
    let named = entries.filter(|e| ids.contains(&e.id.to_string()));
    let line = |e: &yard::entry::Entry| {
        let machine = e.machine.as_ref().and_then(|id| desk.view.machines.get(id));
        let names = crate::names::names(desk, machine.unwrap_or(&blank));
        let when = p.words.moment(e.at, desk.now, &desk.zone);
        let args = [
            ("line", Arg::from(p.words.entry_line(e, &names))),
            ("name", crate::unnamed::writer(desk, e).into()),
            ("when", when.into()),
        ];
        p.words.say("finding-history", &args)
    };
    named.map(line).collect()
}

/// How a figure was got: its inputs, each with its origin, the formula, the source, the ±.
pub(crate) fn figure(desk: &Desk, machine: &str, which: &str) -> Answer {
    let p = desk.page();
    let figure = find_figure(desk, machine, which)?;
    let rows = p.words.figure_rows(&figure);
    let leaf = figure.leaf();
    let section = Section {
        rows,
        ..Section::default()
    };
    let entries = Section {
        title: p.t("figure-entries"),
        lines: origins(desk, &figure),
        ..Section::default()
    };
    let mut sections = vec![section];
    sections.extend((!entries.lines.is_empty()).then_some(entries));
    let intro = vec![p.words.say(
        "figure-intro",
        &[("leaf", Arg::from(p.words.leaf_name(leaf)))],
    )];
    page(&LinesPage {
        title: p.t("how-got"),
        intro,
        sections,
        button: Some((format!("/reckoner/{}", leaf.id), p.words.leaf_name(leaf))),
        p,
    })
}

fn find_figure(desk: &Desk, machine: &str, which: &str) -> Result<Figure, Refusal> {
    let (_, state) = desk.machine(machine)?;
    let figure = match which.strip_prefix("reason-") {
        Some(at) => {
            let at: usize = at.parse().map_err(|_| Refusal::NotFound)?;
            let judgement = desk.judgement(state);
            judgement.reasons.get(at).and_then(|r| r.figure.clone())
        }
        None if which == "hours" => hours_figure(state),
        None if which.starts_with("meter-")
            || which.starts_with("by-service-")
            || which.starts_with("running-") =>
        {
            of_meter(state, which)
        }
        None => {
            // `due-N`: the Nth line of what comes next.
            let at = which.strip_prefix("due-").and_then(|at| at.parse().ok());
            let at: usize = at.ok_or(Refusal::NotFound)?;
            let lines = next_due(&desk.situation(state));
            lines.get(at).and_then(|line| line.figure.clone())
        }
    };
    figure.ok_or(Refusal::NotFound)
}

/// `meter-N`, `by-service-N`, `running-N`: hours of the Nth meter of the book, as it counts them, by the service meter, or
/// running hours from its revolutions.
fn of_meter(state: &MachineState, which: &str) -> Option<Figure> {
    let (word, at) = which.rsplit_once('-')?;
    let shown = hours_shown(state).into_iter().nth(at.parse().ok()?)?;
    match word {
        "meter" => shown.figure,
        "by-service" => shown.by_service,
        _ => shown.running,
    }
}
