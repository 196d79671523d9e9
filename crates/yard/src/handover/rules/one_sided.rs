//! An adjuster is topped on one side only.
//!
//! What: a point adjusted four times or more in four weeks, while the same point on the other
//! side was not adjusted at all, is run with care; more where the book says so. A repair or a
//! part fitted there ends it.
//!
//! Why: an adjuster that has to be topped each week leaks, or its chain is worn. Topping it is
//! no upkeep done.
//!
//! Source: keepers' accounts of tracks that came off; four weeks are common practice, no source.
//!
//! Example: case `one-sided`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Situation, Verdict, Weight, What, weight};
use crate::upkeep::{OneSided, one_sided};

pub(super) const RULE: Rule = Rule {
    id: "one-sided",
    looks_at: LooksAt::Journal,
    source: Source::CommonPractice,
    example: "one-sided",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let points = context.book.map_or(&[][..], |book| &book.points);
    let reason = |sided: OneSided| {
        let point = points.iter().find(|point| point.id == sided.point);
        let what = What::OneSided {
            twin: sided.twin,
            times: u32::try_from(sided.times).unwrap_or(u32::MAX),
        };
        let weight = Weight::by_book(point, Verdict::Care, weight::MACHINE, what);
        let weight = Weight {
            weighs: weight.weighs.max(Verdict::Care),
            ..weight
        };
        weight.at(RULE.id, sided.point)
    };
    one_sided(situation).into_iter().map(reason).collect()
}
