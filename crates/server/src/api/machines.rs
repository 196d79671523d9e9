//! The yard's machines and their verdicts.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::{Machine, MachineLine, ReasonLine, VerdictWord, Yard},
};
use crate::{desk::Desk, names};
use axum::{http::StatusCode, response::Response};
use yard::{
    handover::{Reason, Verdict},
    state::MachineState,
    upkeep::shown_hours,
};

/// The yard with every machine in short.
pub(super) fn yard(asked: &Asked) -> Result<Response, Refused> {
    let desk = asked.desk()?;
    let machines = desk.view.machines.iter().map(|(id, state)| MachineLine {
        id: id.to_string(),
        name: name(state),
        verdict: word(desk.judgement(state).verdict),
    });
    let yard = &asked.app.yard;
    say(
        StatusCode::OK,
        Yard {
            id: yard.id().0,
            name: yard.name().to_owned(),
            tag: asked.app.tag(),
            machines: machines.collect(),
        },
    )
}

/// One machine, with its verdict for the person who asks.
pub(super) fn machine(asked: &Asked) -> Result<Response, Refused> {
    let desk = asked.desk()?;
    let (id, state) = desk.machine(asked.part("machine"))?;
    let judgement = desk.judgement(state);
    let words = &asked.app.words;
    say(
        StatusCode::OK,
        Machine {
            id: id.to_string(),
            name: name(state),
            verdict: word(judgement.verdict),
            says: words.verdict(&judgement),
            reasons: judgement
                .reasons
                .iter()
                .map(|reason| line(&desk, state, reason))
                .collect(),
            computed: judgement.at.to_string(),
            holds: words.holds(&judgement, None, &names::names(&desk, state)),
            until: judgement.holds.until.map(|until| until.to_string()),
            book: judgement.book.map(|book| book.0),
            hours: words.life_hours(shown_hours(state).as_ref()),
        },
    )
}

fn name(state: &MachineState) -> Option<String> {
    state
        .book()
        .map(|adopted| adopted.book.machine.name.clone())
}

fn line(desk: &Desk, state: &MachineState, reason: &Reason) -> ReasonLine {
    let told = desk.app.words.reason(reason, &names::names(desk, state));
    ReasonLine {
        code: reason.what.code().to_owned(),
        rule: reason.rule.to_owned(),
        weighs: word(reason.weighs),
        unknown: reason.unknown,
        point: reason.point.as_ref().map(ToString::to_string),
        finding: reason.finding.as_ref().map(ToString::to_string),
        what: told.what,
        next: told.next,
    }
}

fn word(verdict: Verdict) -> VerdictWord {
    match verdict {
        Verdict::Fit => VerdictWord::Fit,
        Verdict::Care => VerdictWord::Care,
        Verdict::StandDown => VerdictWord::StandDown,
    }
}
