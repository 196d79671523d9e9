//! Something leaks, other than fuel and brake fluid.
//!
//! What: falling drops (class III), or the class from which the book says the point is out,
//! stand the machine down; less is run with care and looked at oftener than the book says.
//!
//! Why: class I and II may run, with the tank's size in mind; class III empties it.
//!
//! Source: operator's check tables (leak classes I to III; single items out from class II on).
//!
//! Example: case `leak`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::{About, LeakClass, PointKind},
    entry::Answer,
};

pub(super) const RULE: Rule = Rule {
    id: "leak",
    looks_at: LooksAt::Findings,
    source: Source::ArmyTables,
    example: "leak",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Leak(Some(class)) = seen.answer()? else {
        return None;
    };
    let about = seen.about().unwrap_or(About::Other);
    if matches!(about, About::Fuel | About::BrakeFluid | About::Brakes) {
        return None;
    }
    let out_from = match seen.point.map(|point| &point.kind) {
        Some(PointKind::Leak { out_from, .. }) => (*out_from).min(LeakClass::III),
        _ => LeakClass::III,
    };
    let what = What::Leak(about, *class);
    if *class >= out_from {
        Some(Weight::down(weight::MACHINE, what))
    } else {
        Some(Weight::by_book(
            seen.point,
            Verdict::Care,
            weight::MACHINE,
            what,
        ))
    }
}
