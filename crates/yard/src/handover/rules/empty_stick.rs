//! There is nothing on the stick.
//!
//! What: nothing on the stick or in the glass stands the machine down, for every fluid it
//! cannot run without.
//!
//! Why: nobody knows how much is left, if any: it went somewhere.
//!
//! Source: common practice, no source.
//!
//! Example: case `empty-stick`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Weight, What, each_open, weight};
use crate::{
    book::About,
    entry::{Answer, LevelReads},
    walkround::Weighed,
};

pub(super) const RULE: Rule = Rule {
    id: "empty-stick",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "empty-stick",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    // Nothing on the stick in another pose than the mark's is not known, and another rule's affair.
    let known = !matches!(seen.weighed, Some(Weighed::Unknown(_)));
    let empty = known
        && matches!(
            seen.answer()?,
            Answer::Level {
                reads: LevelReads::Nothing,
                ..
            }
        );
    let vital = !matches!(
        seen.about(),
        Some(About::Fuel | About::Electric | About::Signals | About::Tidiness)
    );
    (empty && vital).then(|| Weight::down(weight::MACHINE, What::Level(LevelReads::Nothing)))
}
