//! The attachments that hang on a machine, each judged by itself: it has a book and a history of its own.

use super::{
    Judgement, NoOthers, Situation, judge_by,
    rules::{LooksAt, RULES, Rule},
};
use crate::id::MachineId;

/// Each attachment that is on, with its own verdict; none where the yard does not know it. Who may run it and how it was
/// handed over are asked of the machine that carries it.
pub(super) fn hanging<'a>(
    situation: &Situation<'a>,
) -> impl Iterator<Item = (&'a MachineId, Option<Judgement>)> {
    let situation = *situation;
    let own: Vec<Rule> = RULES
        .iter()
        .filter(|rule| !matches!(rule.looks_at, LooksAt::Person | LooksAt::Handover))
        .copied()
        .collect();
    situation.machine.fitted.keys().map(move |id| {
        let judged = situation.others.machine(id).map(|attachment| {
            let alone = Situation {
                machine: attachment,
                others: &NoOthers,
                ..situation
            };
            judge_by(&alone, &own)
        });
        (id, judged)
    })
}
