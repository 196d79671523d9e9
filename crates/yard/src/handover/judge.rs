//! The verdict itself: asks every rule, drops what is said twice, puts the worst first, and says what it holds for.

use super::{
    Context, Holds, Judgement, Reason, Situation, Verdict, What,
    documents::{needed, written_for},
    hanging::hanging,
    rules::{RULES, Rule},
    signing::{end_of_day, sign_off},
};
use crate::{
    book::DocumentWanted,
    id::{EntryId, FaultRef},
    people::Role,
    state::Round,
    walkround::day_of,
};
use jiff::{SignedDuration, Timestamp, civil::Date};
use quantity::Exact;

/// May this person run this machine now, and why.
pub fn judge(situation: &Situation) -> Judgement {
    judge_by(situation, RULES)
}

/// The same by some of the rules only: for showing that each is needed.
pub fn judge_by(situation: &Situation, rules: &[Rule]) -> Judgement {
    let context = Context::of(situation);
    let found: Vec<Reason> = rules
        .iter()
        .flat_map(|rule| (rule.check)(situation, &context))
        .collect();
    let reasons = once_each(worst_first(gone_is_enough(found), &context));
    let verdict = reasons
        .iter()
        .map(|reason| reason.weighs)
        .max()
        .unwrap_or(Verdict::Fit);
    Judgement {
        verdict,
        holds: holds(situation, &context, verdict, &reasons),
        at: situation.now,
        book: context.revision,
        reasons,
    }
}

/// Of a machine that left the yard nothing else is asked: nobody here can walk it round.
fn gone_is_enough(mut found: Vec<Reason>) -> Vec<Reason> {
    let gone = |reason: &Reason| matches!(reason.what, What::LeftYard { .. });
    if found.iter().any(gone) {
        found.retain(gone);
    }
    found
}

/// When the round ends to hold, counted from its beginning: what was looked at first is as old as that. None where it is not
/// closed.
pub(super) fn holds_until(situation: &Situation, round: &Round) -> Option<Timestamp> {
    let hours = SignedDuration::from_hours(i64::from(situation.habits.round_holds_hours));
    round
        .closed
        .map(|_| round.begun.saturating_add(hours).unwrap_or(Timestamp::MAX))
}

/// Worst first, then by rank, then along the lap, then by names, so that the order never depends on chance.
fn worst_first(mut reasons: Vec<Reason>, context: &Context) -> Vec<Reason> {
    let number = |reason: &Reason| {
        let of_lap = reason
            .point
            .as_ref()
            .and_then(|point| context.numbers.get(point));
        of_lap.copied().unwrap_or(u32::MAX)
    };
    reasons.sort_by_cached_key(|reason| {
        let name = (
            reason.point.clone(),
            reason.rule,
            reason.finding.clone(),
            reason.what.code(),
        );
        (
            std::cmp::Reverse(reason.weighs),
            reason.rank,
            number(reason),
            name,
        )
    });
    reasons
}

/// Each thing once: where several rules say the same of the same finding or point, the worst stays.
fn once_each(reasons: Vec<Reason>) -> Vec<Reason> {
    let same = |one: &Reason, other: &Reason| {
        (&one.finding, &one.point) == (&other.finding, &other.point) && one.what == other.what
    };
    let mut told: Vec<Reason> = Vec::with_capacity(reasons.len());
    for reason in reasons {
        if !told.iter().any(|earlier| same(earlier, &reason)) {
            told.push(reason);
        }
    }
    told
}

fn holds(situation: &Situation, context: &Context, verdict: Verdict, reasons: &[Reason]) -> Holds {
    let round = context.closed_round();
    let of_round = round.and_then(|round| holds_until(situation, round));
    let last_day = sign_off(situation)
        .filter(|_| context.role == Role::Operator)
        .and_then(|given| given.until);
    let of_sign_off = last_day.and_then(|day| end_of_day(situation, day));
    let of_attachments = attachments_until(situation);
    let of_documents = needed_until(situation, context).and_then(|day| end_of_day(situation, day));
    Holds {
        person: situation.person,
        round: round.map(|round| round.id),
        until: of_round
            .into_iter()
            .chain(of_sign_off.filter(|_| round.is_some()))
            .chain(of_documents.filter(|_| round.is_some()))
            .chain(of_attachments.filter(|_| round.is_some()))
            .min(),
        until_hours: until_hours(context, reasons),
        permit: permit(situation, context, verdict),
    }
}

/// When the first verdict ends that an attachment on it has of its own.
fn attachments_until(situation: &Situation) -> Option<Timestamp> {
    let judged = hanging(situation).filter_map(|(_, attachment)| attachment);
    judged.filter_map(|judged| judged.holds.until).min()
}

/// The last day on which every document that the machine needs still holds, as far as one ends at all.
fn needed_until(situation: &Situation, context: &Context) -> Option<Date> {
    let today = day_of(situation.now, situation.zone);
    needed(context)
        .filter_map(|wanted| held_through(situation, wanted, today))
        .filter(|last| *last < Date::MAX)
        .min()
}

/// The last day on which one need is met without a day between, whichever paper meets it; none where it is not met today. A
/// paper without a last day holds for good.
fn held_through(situation: &Situation, wanted: &DocumentWanted, today: Date) -> Option<Date> {
    let kept = written_for(situation, wanted).filter(|kept| kept.ended.is_none());
    let mut spans: Vec<(Date, Date)> = kept
        .map(|kept| {
            let (from, until) = (kept.document.from, kept.document.until);
            (from.unwrap_or(Date::MIN), until.unwrap_or(Date::MAX))
        })
        .collect();
    spans.sort();
    let mut held = None;
    for (from, until) in spans {
        let next: Date = held.map_or(today, |last: Date| last.tomorrow().unwrap_or(Date::MAX));
        if from <= next && until >= today {
            held = held.max(Some(until));
        }
    }
    held
}

/// The life hours at which the first refused fitting stands the machine down.
fn until_hours(context: &Context, reasons: &[Reason]) -> Option<Exact> {
    let now = &context.life.as_ref()?.hours;
    let left = reasons.iter().filter_map(|reason| match &reason.what {
        What::Refused {
            left: Some(left), ..
        } => Some(left),
        _ => None,
    });
    left.min().map(|left| now + left)
}

/// The newest permit in force for this person, where the machine is stood down. A permit knows only what was known when it
/// was given: what was found later, and stands the machine down, ends it.
fn permit(situation: &Situation, context: &Context, verdict: Verdict) -> Option<EntryId> {
    let machine = situation.machine;
    let found_later = |permit: &EntryId, given: Timestamp| {
        let unseen = machine.unseen_by_permit.get(permit);
        let found = context
            .open
            .iter()
            .filter_map(|seen| machine.findings.get(&seen.finding));
        found
            .filter(|finding| {
                finding.at > given || unseen.is_some_and(|all| all.contains(&finding.id))
            })
            .any(|finding| stands_down(situation, context, &finding.id))
    };
    let mut newest_first = machine.permits.iter().rev();
    let in_force = newest_first.find(|(entry, given, permit)| {
        permit.who == situation.person
            && *given <= situation.now
            && situation.now <= permit.until
            && !found_later(entry, *given)
    });
    in_force
        .filter(|_| verdict == Verdict::StandDown)
        .map(|(entry, ..)| *entry)
}

/// Whether this finding alone stands the machine down.
fn stands_down(situation: &Situation, context: &Context, finding: &FaultRef) -> bool {
    let mut reasons = RULES
        .iter()
        .flat_map(|rule| (rule.check)(situation, context));
    reasons.any(|reason| {
        reason.weighs == Verdict::StandDown && reason.finding.as_ref() == Some(finding)
    })
}
