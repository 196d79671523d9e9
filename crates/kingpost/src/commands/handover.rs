//! Handover: may it run, and by which rules.

use crate::{Exit, desk::Desk, kit::Kit, said::Said, trouble::Trouble};
use clap::Subcommand;
use serde_json::{Value, json};
use words::Told;
use yard::{
    entry::MovePermit,
    handover::{Judgement, RULES, Reason, judge},
    state::MachineState,
};

#[derive(Subcommand)]
pub(crate) enum Job {
    Verdict {
        machine: String,
        #[arg(long, value_name = "PERSON")]
        by: String,
    },
    Rules,
}

pub(crate) fn run(kit: &Kit, job: Job) -> Result<Said, Trouble> {
    match job {
        Job::Verdict { machine, by } => verdict(kit, &machine, &by),
        Job::Rules => Ok(rules(kit)),
    }
}

/// The verdict is the exit code: 0 fit, 10 care, 20 stand down.
fn verdict(kit: &Kit, machine: &str, by: &str) -> Result<Said, Trouble> {
    let desk = Desk::look(kit)?;
    let machine = desk.machine(machine)?;
    let by = desk.person(by)?;
    let judged = judge(&desk.situation(&machine.state, by));
    let names = desk.names(Some(&machine.state));
    let holds = kit
        .words
        .holds(&judged, permit(&machine.state, &judged), &names);
    let reasons: Vec<(&Reason, Told)> = judged
        .reasons
        .iter()
        .map(|reason| (reason, kit.words.reason(reason, &names)))
        .collect();
    let mut text = format!(
        "{}\n{}\n",
        kit.words.verdict(&judged),
        kit.words.verdict_means(&judged)
    );
    for (reason, told) in &reasons {
        text += &format!(
            "\n{} · {}\n  {}\n",
            kit.words.name(reason.weighs),
            told.what,
            told.next
        );
    }
    text += &format!(
        "\n{holds}\n{}\n",
        kit.t1("verdict-made", "at", desk.moment(judged.at))
    );
    let json = json!({
        "machine": machine.id.as_str(), "person": by.to_string(), "verdict": judged.verdict.code(), "only_unknown": judged.only_unknown(),
        "said": kit.words.verdict(&judged), "reasons": reasons.iter().map(|(reason, told)| reason_json(reason, told)).collect::<Vec<_>>(),
        "holds": holds_json(&judged, &holds), "at": judged.at.to_string(), "book": judged.book.map(|book| book.to_string()),
    });
    Ok(Said::new(text, json).ending(Exit::from(judged.verdict)))
}

fn permit<'a>(machine: &'a MachineState, judged: &Judgement) -> Option<&'a MovePermit> {
    let named = judged.holds.permit?;
    machine
        .permits
        .iter()
        .find(|(entry, ..)| *entry == named)
        .map(|(_, _, permit)| permit)
}

fn reason_json(reason: &Reason, told: &Told) -> Value {
    json!({
        "rule": reason.rule, "code": reason.what.code(), "weighs": reason.weighs.code(), "unknown": reason.unknown,
        "point": reason.point.as_ref().map(|point| point.as_str()), "finding": reason.finding.as_ref().map(ToString::to_string),
        "figure": reason.figure.as_ref().map(super::reckon::figure_json), "what": told.what, "next": told.next,
    })
}

fn holds_json(judged: &Judgement, said: &str) -> Value {
    let holds = &judged.holds;
    json!({
        "person": holds.person.to_string(), "round": holds.round.map(|round| round.to_string()), "until": holds.until.map(|until| until.to_string()),
        "until_hours": holds.until_hours.as_ref().map(ToString::to_string), "permit": holds.permit.map(|permit| permit.to_string()), "said": said,
    })
}

fn rules(kit: &Kit) -> Said {
    let (mut text, mut all) = (String::new(), Vec::new());
    for rule in RULES {
        let (title, looks_at, source) = (
            kit.words.rule_title(rule),
            kit.words.rule_looks_at(rule),
            kit.words.rule_source(rule),
        );
        let what = kit.t(&format!("rule-{}", rule.id));
        let why = kit.t(&format!("rule-{}.why", rule.id));
        text += &format!(
            "{} · {title}\n  {what}\n  {why}\n  {looks_at} · {source}\n  {}\n",
            rule.id,
            kit.words.rule_example(rule)
        );
        all.push(json!({
            "id": rule.id, "title": title, "what": what, "why": why, "looks_at": looks_at, "source": source,
            "source_kind": rule.source.code(), "example": rule.example,
        }));
    }
    Said::new(text, json!({ "rules": all }))
}
