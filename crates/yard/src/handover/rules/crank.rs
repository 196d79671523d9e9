//! It cranks where it must not, or not where it must.
//!
//! What: any combination that must not crank and did stands the machine down; one that must
//! crank and did not is a fault, no danger.
//!
//! Why: men were killed by machines that started in gear.
//!
//! Source: a maker's check: the starter must not turn in gear, nor with the take-off shaft on.
//!
//! Example: case `crank`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::{CrankCase, PointKind},
    entry::Answer,
};

pub(super) const RULE: Rule = Rule {
    id: "crank",
    looks_at: LooksAt::Findings,
    source: Source::MakersCheck,
    example: "crank",
    check,
};

fn check(_: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, weigh)
}

fn weigh(seen: &Seen) -> Option<Weight> {
    let Answer::Crank { cranked, .. } = seen.answer()? else {
        return None;
    };
    let Some(PointKind::Crank(cases)) = seen.point.map(|point| &point.kind) else {
        return None;
    };
    let wrong = |may: bool| -> Option<String> {
        let tried = cases.iter().zip(cranked);
        let with: Vec<&str> = tried
            .filter(|(case, did)| is_wrong(case, **did, may))
            .map(|(case, _)| case.with.as_str())
            .collect();
        (!with.is_empty()).then(|| with.join("; "))
    };
    if let Some(with) = wrong(false) {
        return Some(Weight::down(weight::LIFE, What::CrankedIn { with }));
    }
    let with = wrong(true)?;
    Some(Weight::by_book(
        seen.point,
        Verdict::Care,
        weight::MACHINE,
        What::DidNotCrankIn { with },
    ))
}

/// Whether the case is one that may (or may not) crank and did the opposite.
fn is_wrong(case: &CrankCase, did: Option<bool>, may: bool) -> bool {
    case.may_crank == may && did == Some(!may)
}
