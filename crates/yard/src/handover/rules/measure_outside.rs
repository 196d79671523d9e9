//! A measure is outside its limit.
//!
//! What: a measure outside its limit stands the machine down where it bears on safety, else it
//! is run with care, unless the book says otherwise.
//!
//! Why: the limit was written down by somebody who knew what comes after it.
//!
//! Source: operator's check tables; the book names the source of each limit.
//!
//! Example: case `measure-outside`.

use super::{LooksAt, Rule, Source};
use crate::book::About;
use crate::handover::{
    Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, is_must_work, outside,
    weight,
};
use quantity::Side;

pub(super) const RULE: Rule = Rule {
    id: "measure-outside",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "measure-outside",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    if is_must_work(seen.about()) {
        return None;
    }
    let what = outside(seen)?;
    if seen.about() == Some(About::OilPressure)
        && matches!(
            what,
            What::Outside {
                side: Side::Under,
                ..
            }
        )
    {
        return None;
    }
    let safety = seen.about().is_none_or(About::bears_on_safety);
    let usual = if safety {
        Verdict::StandDown
    } else {
        Verdict::Care
    };
    Some(Weight::by_book(seen.point, usual, weight::MACHINE, what))
}
