//! A fitting takes grease, and the joint does not seem to get it.
//!
//! What: a plain fitting that took grease three times or more over thirty days and was never
//! once seen to show it at the joint, or one whose play has grown while it took grease unseen,
//! is run with care; more where the book says so. Grease seen at the joint ends it.
//!
//! Why: what goes in at the fitting can stay in a hole that leads nowhere.
//!
//! Source: an owner's account of a dry, ruined pivot behind a fitting that took fresh grease:
//! its pin had no cross hole. Thirty days and three times are common practice, no source.
//!
//! Example: case `not-reaching`.

use super::{LooksAt, Rule, Source};
use crate::book::Point;
use crate::handover::{Context, Reason, Situation, Verdict, Weight, What, weight};
use crate::upkeep::{NotReaching, not_reaching};

pub(super) const RULE: Rule = Rule {
    id: "not-reaching",
    looks_at: LooksAt::Round,
    source: Source::CommonPractice,
    example: "not-reaching",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    let points = context.book.map_or(&[][..], |book| &book.points);
    let reason = |point: &Point| {
        let found = not_reaching(situation, point)?;
        Some(weigh(point, found).at(RULE.id, point.id.clone()))
    };
    points.iter().filter_map(reason).collect()
}

fn weigh(point: &Point, found: NotReaching) -> Weight {
    let unknown = matches!(found, NotReaching::NeverSeen { .. });
    let what = What::NotReaching(found);
    let weight = Weight::by_book(Some(point), Verdict::Care, weight::MACHINE, what);
    Weight {
        weighs: weight.weighs.max(Verdict::Care),
        unknown,
        ..weight
    }
}
