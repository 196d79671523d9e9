//! The structure is cracked or bent.
//!
//! What: a cracked arm, frame or weld stands the machine down, all the more with rust in the
//! crack; a bend without a crack is run with care, unless the book says more.
//!
//! Why: a crack grows with every load, and it opens under the highest one. Rust in it says that
//! it was missed before: look at the other side too.
//!
//! Source: operator's check tables (weld breaks, fractures: none); an owner's account of a
//! bracket that broke along a rusted crack.
//!
//! Example: case `crack`.

use super::{LooksAt, Rule, Source};
use crate::entry::{Answer, StructureState};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};

pub(super) const RULE: Rule = Rule {
    id: "crack",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "crack",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Structure(state) = seen.answer()? else {
        return None;
    };
    let what = What::Structure(*state);
    match state {
        StructureState::Sound => None,
        StructureState::Bent => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        StructureState::Cracked | StructureState::RustInCrack => {
            Some(Weight::down(weight::LIFE, what))
        }
    }
}
