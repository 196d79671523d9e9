//! A fitting refused grease.
//!
//! What: the machine runs with care for the hours its fitting, else its book, else the yard
//! allows after a refusal, then it stands down; where nobody allows any, it stands down at
//! once. Mended it is only where grease goes in: until then the hours run on from the refusal.
//!
//! Why: a dry joint lasts some hours, not many; the pin and the bush cost a week.
//!
//! Source: farm press, on fittings that will not take grease: relieve the load, clean the
//! fitting, and set an end to running.
//!
//! Example: case `refused-grease`.

use super::{LooksAt, Rule, Source};
use crate::handover::{Context, Reason, Seen, Situation, Verdict, Weight, What, each_open, weight};
use crate::{
    book::PointKind,
    entry::{Answer, GreaseTook},
    upkeep,
};
use quantity::{Exact, Unit};
use reckon::{Figure, FigureInput, Origin, upkeep::due_hours};

pub(super) const RULE: Rule = Rule {
    id: "refused-grease",
    looks_at: LooksAt::Findings,
    source: Source::TradePress,
    example: "refused-grease",
    check,
};

fn check(situation: &Situation, context: &Context) -> Vec<Reason> {
    each_open(RULE.id, context, |seen| weigh(situation, context, seen))
}

fn weigh(situation: &Situation, context: &Context, seen: &Seen) -> Option<Weight> {
    let Answer::Fitting {
        took: GreaseTook::Refused,
        ..
    } = seen.answer()?
    else {
        return None;
    };
    let Some((allowed, origin)) = allowed(situation, context, seen) else {
        let what = What::Refused {
            left: None,
            allowed: None,
        };
        return Some(Weight::down(weight::MACHINE, what));
    };
    let known = left(context, seen, &allowed);
    let Some((left, give_or_take)) = known.or_else(|| at_least(situation, context, seen, &allowed))
    else {
        return Some(hours_unknown(context, allowed));
    };
    let figure = figure(situation, seen, &allowed, origin);
    let what = What::Refused {
        left: Some(left.clone()),
        allowed: Some(allowed),
    };
    // Where the hours' own uncertainty may have used up what is left, it is used up.
    let weight = if left <= give_or_take {
        Weight::down(weight::MACHINE, what)
    } else {
        Weight::by_book(seen.point, Verdict::Care, weight::MACHINE, what)
    };
    let weighs = weight.weighs.max(Verdict::Care);
    Some(Weight { weighs, ..weight }.with_figure(figure))
}

/// A meter that nobody read, or that is in question, stands the machine down: it is to be read. Where the book says that
/// there is none, nobody can read it, and the machine is run with care.
fn hours_unknown(context: &Context, allowed: Exact) -> Weight {
    let what = What::Refused {
        left: None,
        allowed: Some(allowed),
    };
    if context.book.is_some_and(|book| book.is_without_meter()) {
        return Weight {
            unknown: true,
            ..Weight::care(weight::UNKNOWN, what)
        };
    }
    Weight::unknown_down(what)
}

/// Hours left at least, on a machine without a meter of which nobody told how long it ran: none were run since where it was
/// not used, and never more than the clock's. None where that says nothing.
fn at_least(
    situation: &Situation,
    context: &Context,
    seen: &Seen,
    allowed: &Exact,
) -> Option<(Exact, Exact)> {
    if !context.book.is_some_and(|book| book.is_without_meter()) {
        return None;
    }
    let found = situation.machine.finding(&seen.finding)?.at;
    let used = situation
        .machine
        .last_run
        .is_some_and(|(_, last)| last > found);
    let passed = situation.now.duration_since(found).as_secs().max(0);
    let most = if used { passed } else { 0 };
    let left = allowed - &Exact::from_ratio(most, 3600)?;
    (!left.is_negative() && !left.is_zero()).then(|| (left, Exact::zero()))
}

/// Hours allowed after a refusal, and who says so: the fitting, else the book, else the yard.
fn allowed(situation: &Situation, context: &Context, seen: &Seen) -> Option<(Exact, Origin)> {
    let fitting = seen.point.and_then(|point| match &point.kind {
        PointKind::Fitting(rule) => Some((rule.refused_runs.as_ref()?, point.line)),
        _ => None,
    });
    let book = || {
        context
            .book
            .and_then(|book| Some((book.greasing.refused_runs.as_ref()?, book.greasing.line)))
    };
    let revision = u32::try_from(situation.machine.books.len()).unwrap_or(u32::MAX);
    let written = fitting.or_else(book).and_then(|(hours, line)| {
        Some((
            hours.in_unit(Unit::Hour)?,
            Origin::BookLine { revision, line },
        ))
    });
    let setting = |hours: u32| (Exact::from(i64::from(hours)), Origin::Setting);
    written.or_else(|| situation.habits.refused_runs_hours.map(setting))
}

/// Hours left, and the ± of the hours run since. None where the hours then or now are not known.
fn left(context: &Context, seen: &Seen, allowed: &Exact) -> Option<(Exact, Exact)> {
    let (now, then) = (context.life.as_ref()?, seen.hours?);
    let end = &then.hours + allowed;
    let give_or_take = (&now.plus_minus - &then.plus_minus).max(Exact::zero());
    Some((&end - &now.hours, give_or_take))
}

/// The same as a figure that can be opened; none where the hours of today have none.
fn figure(situation: &Situation, seen: &Seen, allowed: &Exact, origin: Origin) -> Option<Figure> {
    let hours = upkeep::hours_figure(situation.machine)?;
    let then = seen.hours?;
    let inputs = vec![
        FigureInput::new(
            "last",
            then.hours.to_f64(),
            Origin::Entry(seen.entry.to_string()),
        ),
        FigureInput::new("interval", allowed.to_f64(), origin),
        FigureInput::from_figure("now", &hours, "life")?,
    ];
    Figure::reckon(&due_hours::LEAF, inputs).ok()
}
