//! The word of whoever has a learner in sight: steward or deputy, by their own PIN, typed on the device of the run.

use crate::{
    desk::Desk,
    guard::{self, Checked},
    pages::{
        people::sign_in,
        walkround::{
            form::{self, Typed},
            question::{Asked, Choice},
        },
    },
    refusal::Refusal,
};
use yard::{
    handover::{Judgement, What},
    id::{MachineId, PersonId},
};

/// Why no word was taken.
pub(crate) struct NoWord {
    /// What is asked.
    pub(crate) asked: Asked,
    /// Too many wrong PINs: nothing was looked at.
    pub(crate) stopped: bool,
}

/// Whether whoever this verdict is for runs the machine only in sight of steward or deputy.
pub(crate) fn is_needed(judgement: &Judgement) -> bool {
    let mut reasons = judgement.reasons.iter();
    reasons.any(|reason| reason.what == What::InSightOnly)
}

/// Who may have somebody else in sight on this machine now.
pub(crate) fn leaders(desk: &Desk, machine: &MachineId, chosen: &str) -> Vec<Choice> {
    let people = desk.view.yard.people.keys();
    let able = people.filter(|who| Some(**who) != desk.person && leads(desk, machine, **who));
    able.map(|who| Choice {
        code: who.to_string(),
        word: desk.view.name(*who),
        chosen: who.to_string() == chosen,
    })
    .collect()
}

/// Whose word it is: none where none is needed or claimed. Their PIN is checked last, as for signing in, and a wrong one counts
/// against them and this device.
pub(crate) fn word(
    desk: &Desk,
    machine: &MachineId,
    judgement: &Judgement,
    typed: &Typed,
) -> Result<Result<Option<PersonId>, NoWord>, Refusal> {
    let p = desk.page();
    let asks = |asked| {
        let stopped = false;
        Ok(Err(NoWord { asked, stopped }))
    };
    let chosen = typed.field("sight");
    if chosen.is_empty() && !is_needed(judgement) {
        return Ok(Ok(None));
    }
    let Some(who) = chosen.parse().ok().map(PersonId) else {
        return asks(form::asked(&p, "ask-run-sight"));
    };
    if Some(who) == desk.person {
        return asks(form::asked(&p, "ask-sight-self"));
    }
    let about = |key: &str| Asked {
        what: p.t1(key, "person", &desk.view.name(who)),
        hint: p.t(&format!("{key}.next")),
    };
    if !leads(desk, machine, who) {
        return asks(about("ask-sight-role"));
    }
    if typed.field("pin").is_empty() {
        return asks(about("ask-sight-pin"));
    }
    Ok(match guard::check(desk, Some(who), typed.field("pin"))? {
        Checked::Right(who) => Ok(Some(who)),
        checked => Err(NoWord {
            asked: in_words(sign_in::say(desk, checked)),
            stopped: !matches!(checked, Checked::Wrong(_)),
        }),
    })
}

/// Whether they are steward, or deputy, for this very machine now.
fn leads(desk: &Desk, machine: &MachineId, who: PersonId) -> bool {
    desk.view.yard.role_on(who, machine, desk.now).leads()
}

/// The first line is what is wrong, the others what to do.
fn in_words(lines: Vec<String>) -> Asked {
    let mut lines = lines.into_iter();
    Asked {
        what: lines.next().unwrap_or_default(),
        hint: lines.collect::<Vec<_>>().join(" "),
    }
}
