//! An attachment on the machine stands down.
//!
//! What: an attachment has a book, points and a history of its own. While it is on a machine, what
//! stands it down stands down the machine that carries it. One that nobody knows does too.
//! Who may run it and how it was handed over are asked of the machine that carries it. Its round
//! begins after it was put on: how it hung elsewhere says nothing of how it hangs here.
//!
//! Why: a bucket with a missing pin clip falls off whatever machine it hangs on.
//!
//! Source: the yard's own rule.
//!
//! Example: case `attachment`.

use super::{LooksAt, Rule, Source};
use crate::handover::{
    Context, Judgement, Reason, Situation, Verdict, Weight, What, hanging::hanging, weight,
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
    let all = hanging(situation);
    all.filter_map(|(id, judged)| as_it_stands(situation, id, judged))
        .collect()
}

fn as_it_stands(
    situation: &Situation,
    id: &MachineId,
    judged: Option<Judgement>,
) -> Option<Reason> {
    let attachment = id.clone();
    let Some(judged) = judged else {
        let what = What::AttachmentNotKnown { attachment };
        return Some(Weight::unknown_down(what).plain(RULE.id));
    };
    let book = situation.others.machine(id).and_then(|state| state.book());
    let name = book.map_or_else(|| id.to_string(), |own| own.book.machine.name.clone());
    let weight = match judged.verdict {
        Verdict::Fit => return None,
        Verdict::Care => Weight::care(
            weight::MACHINE,
            What::AttachmentWithCare { attachment, name },
        ),
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
