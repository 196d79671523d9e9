//! A level is below or over its marks.
//!
//! What: engine oil or brake fluid below the mark stands the machine down until it is topped
//! up, by an entry that names it; other levels are run with care, unless the book says more.
//! Too full is a finding as well.
//!
//! Why: a can of oil costs little and a minute. An overfull tank spills when it is hot.
//!
//! Source: common practice, no source.
//!
//! Example: case `level`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::About,
    entry::{Answer, LevelReads},
    walkround::Weighed,
};

pub(super) const RULE: Rule = Rule {
    id: "level",
    looks_at: LooksAt::Findings,
    source: Source::CommonPractice,
    example: "level",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Level { reads, .. } = seen.answer()? else {
        return None;
    };
    // A level that cannot be compared with its mark is not known, and another rule's affair.
    if matches!(seen.weighed, Some(Weighed::Unknown(_))) {
        return None;
    }
    let what = What::Level(*reads);
    let first_top_up = matches!(
        seen.about(),
        Some(About::EngineOil | About::BrakeFluid | About::Brakes)
    );
    let minor = matches!(
        seen.about(),
        Some(About::Fuel | About::Electric | About::Signals | About::Tidiness)
    );
    match reads {
        LevelReads::Below if first_top_up => Some(Weight::down(weight::MACHINE, what)),
        LevelReads::Below | LevelReads::TooFull => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        LevelReads::Nothing if minor => Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        )),
        LevelReads::Nothing | LevelReads::AtMark => None,
    }
}
