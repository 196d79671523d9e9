//! An attachment on the machine stands down.
//!
//! What: an attachment has a book, points and a history of its own. While it is on a machine, what
//! stands it down stands down the machine that carries it. One that nobody knows does too.
//! Who may run it and how it was handed over are asked of the machine that carries it.
//!
//! Why: a bucket with a missing pin clip falls off whatever machine it hangs on.
//!
//! Source: the yard's own rule.
//!
//! Example: case `attachment`.

use super::{LooksAt, RULES, Rule, Source};
use crate::handover::{
    Context, NoOthers, Reason, Situation, Verdict, Weight, What, judge_by, weight,
};
use crate::id::MachineId;

pub(super) const RULE: Rule = Rule {
    id: "attachment",
    looks_at: LooksAt::Findings,
    source: Source::YardsOwn,
    example: "attachment",
    check,
};

fn check(situation: &Situation, _: &Context) -> Vec<Reason> {
    let fitted = situation.machine.fitted.keys();
    fitted.filter_map(|id| as_it_stands(situation, id)).collect()
}

fn as_it_stands(situation: &Situation, id: &MachineId) -> Option<Reason> {
    let Some(attachment) = situation.others.machine(id) else {
        let what = What::AttachmentNotKnown {
            attachment: id.clone(),
        };
        return Some(Weight::unknown_down(what).plain(RULE.id));
    };
    let own: Vec<Rule> = RULES
        .iter()
        .filter(|rule| !matches!(rule.looks_at, LooksAt::Person | LooksAt::Handover))
        .copied()
        .collect();
    let judged = judge_by(
        &Situation {
            machine: attachment,
            others: &NoOthers,
            ..*situation
        },
        &own,
    );
    let book = attachment.book().map(|adopted| &adopted.book.machine.name);
    let name = book.cloned().unwrap_or_else(|| id.to_string());
    let attachment = id.clone();
    let weight = match judged.verdict {
        Verdict::Fit => return None,
        Verdict::Care => Weight::care(weight::MACHINE, What::AttachmentWithCare { attachment, name }),
        Verdict::StandDown => Weight {
            unknown: judged.only_unknown(),
            ..Weight::down(
                judged
                    .reasons
                    .first()
                    .map_or(weight::LIFE, |worst| worst.rank),
                What::AttachmentStandsDown { attachment, name },
            )
        },
    };
    Some(weight.plain(RULE.id))
}
