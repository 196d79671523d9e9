//! Whether a point is due, and why: its rhythms, whichever comes first; done late restarts from when it was done.

use super::{
    plan::Because,
    today::{Today, days_between},
    twin,
    weigh::{Weighed, weigh},
};
use crate::{
    book::{GreaseWhen, Point, PointKind, Rhythm},
    entry::RoundPurpose,
    handover::Situation,
    id::ItemId,
    state::Done,
    upkeep::not_reaching,
};
use jiff::civil::Date;
use quantity::{Exact, Quantity, Unit};

/// A person new to a machine does everything that comes round within so many days: weekly and monthly points too (the
/// army's tables of operator's checks).
const FIRST_TIME_WITHIN: u32 = 31;

/// Why a point is due before a start, now and for this person; none where it is not, or there is no book.
pub fn due(situation: &Situation<'_>, point: &Point) -> Option<Because> {
    due_for(situation, point, RoundPurpose::Start)
}

/// Why a point is due in a round of this purpose.
pub fn due_for(situation: &Situation<'_>, point: &Point, purpose: RoundPurpose) -> Option<Because> {
    because(&Today::of(situation)?, point, purpose)
}

/// The same, with today worked out.
pub(super) fn because(today: &Today<'_>, point: &Point, purpose: RoundPurpose) -> Option<Because> {
    match purpose {
        RoundPurpose::Start | RoundPurpose::Relief => before_start(today, point),
        RoundPurpose::After => after_use(today, point),
    }
}

fn before_start(today: &Today<'_>, point: &Point) -> Option<Because> {
    if today.open.contains(&point.id) {
        return Some(Because::OpenFinding);
    }
    if still_unknown(today, point) {
        return Some(Because::StillUnknown);
    }
    if let Some(ask) = twin::ask(today, point) {
        return Some(Because::OtherSide { of: ask.of });
    }
    let Some(done) = today.machine().done.get(&point.id) else {
        return never_done(point);
    };
    let every_start = point.rhythms.contains(&Rhythm::EveryStart) && !greased_after(today, point);
    if every_start {
        let person = today.situation.person;
        let other = today
            .machine()
            .last_run
            .is_some_and(|(last, _)| last != person);
        return Some(if other {
            Because::OtherOperator
        } else {
            Because::EveryStart
        });
    }
    if first_time(today, point) {
        return Some(Because::FirstTime);
    }
    if not_reaching(today.situation, point).is_some() {
        return Some(Because::NotReaching);
    }
    by_rhythms(today, point, done).or_else(|| unseen_at_joint(today, point))
}

fn after_use(today: &Today<'_>, point: &Point) -> Option<Because> {
    let after = point.rhythms.contains(&Rhythm::AfterUse);
    if after || (greased_after(today, point) && point.rhythms.contains(&Rhythm::EveryStart)) {
        return Some(Because::AfterUse);
    }
    let done = today
        .machine()
        .done
        .get(&point.id)
        .filter(|_| greased_after(today, point))?;
    by_rhythms(today, point, done)
}

/// Whether this is a fitting of a machine that is greased after work: before work it then waits, unless overdue.
fn greased_after(today: &Today<'_>, point: &Point) -> bool {
    matches!(point.kind, PointKind::Fitting(_))
        && today.book.greasing.when == Some(GreaseWhen::After)
}

/// The last answer says nothing, or does not fit.
fn still_unknown(today: &Today<'_>, point: &Point) -> bool {
    let machine = today.machine();
    let unknown = |given: &crate::state::Given| {
        matches!(weigh(point, &given.answered.answer), Weighed::Unknown(_))
    };
    machine.misfits.contains_key(&point.id) || machine.answers.get(&point.id).is_some_and(unknown)
}

/// A point never done is due, but for those that wait for an event or for the end of work.
fn never_done(point: &Point) -> Option<Because> {
    let waits = point
        .rhythms
        .iter()
        .all(|rhythm| matches!(rhythm, Rhythm::AfterUse | Rhythm::After { .. }));
    (!waits).then_some(Because::NeverDone)
}

/// Whether this person has never run this machine, nor answered this point, and a new person does it.
fn first_time(today: &Today<'_>, point: &Point) -> bool {
    let (machine, person) = (today.machine(), today.situation.person);
    let knows = machine.ran_by.contains_key(&person)
        || machine
            .answers
            .get(&point.id)
            .is_some_and(|given| given.by == person);
    let wanted = |rhythm: &Rhythm| match rhythm {
        Rhythm::FirstTime => true,
        Rhythm::Days(every) => *every <= FIRST_TIME_WITHIN,
        _ => false,
    };
    !knows && point.rhythms.iter().any(wanted)
}

/// The first rhythm that has come round. That the hours cannot be told comes last: another rhythm says more.
fn by_rhythms(today: &Today<'_>, point: &Point, done: &Done) -> Option<Because> {
    let mut come = point
        .rhythms
        .iter()
        .filter_map(|rhythm| by_rhythm(today, point, rhythm, done))
        .collect::<Vec<_>>();
    come.sort_by_key(|because| *because == Because::HoursInQuestion);
    come.into_iter().next()
}

fn by_rhythm(today: &Today<'_>, point: &Point, rhythm: &Rhythm, done: &Done) -> Option<Because> {
    match rhythm {
        Rhythm::EveryStart | Rhythm::AfterUse | Rhythm::FirstTime => None,
        Rhythm::Hours(every) => match span(every)? {
            Time::Hours(every) => by_hours(today, done, every),
            Time::Days(every) => {
                by_days(today, point, done, u32::try_from(every).unwrap_or(u32::MAX))
            }
        },
        Rhythm::Days(every) => by_days(today, point, done, *every),
        Rhythm::Season => (today.day_of(done.at) < season_begun(today)?).then_some(Because::Season),
        Rhythm::Standing(days) => by_standing(today, done, *days),
        Rhythm::After { event, .. } => by_event(today, rhythm, event, done),
    }
}

fn by_hours(today: &Today<'_>, done: &Done, every: Exact) -> Option<Because> {
    match today.hours_since(done) {
        None if today.book.is_without_meter() => untold(today, done, &every),
        None => Some(Because::HoursInQuestion),
        Some(since) => (since >= every).then_some(Because::Hours { since, every }),
    }
}

/// Hours that nobody told, on a machine without a meter: no day has more than 24 of them, and a machine that was not used ran
/// none.
fn untold(today: &Today<'_>, done: &Done, every: &Exact) -> Option<Because> {
    let used = today.machine().last_run;
    if used.is_none_or(|(_, last)| last <= done.at) {
        return None;
    }
    let hours_a_day = Exact::from(24_i64);
    let every = every.checked_div(&hours_a_day)?.floor().to_i64()?.max(1);
    let (since, every) = (today.days_since(done.at), u32::try_from(every).ok()?);
    (since >= i64::from(every)).then_some(Because::Days { since, every })
}

fn by_days(today: &Today<'_>, point: &Point, done: &Done, every: u32) -> Option<Because> {
    let since = today.days_since(done.at);
    if since >= i64::from(every) {
        return Some(Because::Days { since, every });
    }
    let its_day = today
        .weekly
        .get(&point.id)
        .and_then(|slot| slot.due_on(today.day_of(done.at)));
    its_day
        .is_some_and(|date| date <= today.date)
        .then_some(Because::ItsDay)
}

/// Standing counts from the last use, or from when the point was last done if that was later.
fn by_standing(today: &Today<'_>, done: &Done, days: u32) -> Option<Because> {
    let since_use = today
        .machine()
        .last_run
        .map(|(_, last)| today.days_since(last));
    let since_done = today.days_since(done.at);
    let stood = since_use.unwrap_or(since_done);
    (stood.min(since_done) >= i64::from(days)).then_some(Because::Standing { days: stood })
}

fn by_event(today: &Today<'_>, rhythm: &Rhythm, event: &ItemId, done: &Done) -> Option<Because> {
    let happened = today.machine().events.get(event)?;
    let because = Because::After {
        event: event.clone(),
    };
    match due_after_event(today, rhythm, happened, done)? {
        EventDue::Unknown => Some(Because::HoursInQuestion),
        EventDue::At {
            from,
            every: Time::Hours(every),
        } => match today.hours_since(from) {
            None if today.book.is_without_meter() => untold(today, from, &every),
            None => Some(Because::HoursInQuestion),
            Some(since) => (since >= every).then_some(because),
        },
        EventDue::At {
            from,
            every: Time::Days(every),
        } => (today.days_since(from.at) >= every).then_some(because),
    }
}

/// A remote line's grease not seen at the joint for a week, or never.
fn unseen_at_joint(today: &Today<'_>, point: &Point) -> Option<Because> {
    let every = match &point.kind {
        PointKind::Fitting(rule) if rule.remote => rule.seen_every(),
        _ => return None,
    };
    let Some(seen) = today.machine().seen_at_joint.get(&point.id) else {
        return Some(Because::StillUnknown);
    };
    let since = today.days_since(seen.at);
    (since >= i64::from(every)).then_some(Because::Days { since, every })
}

/// The first day of the season we are in, by the yard's list.
fn season_begun(today: &Today<'_>) -> Option<Date> {
    let years = [today.date.year().saturating_sub(1), today.date.year()];
    let seasons = &today.situation.habits.seasons;
    let days = years.iter().flat_map(|year| {
        seasons
            .iter()
            .filter_map(|(month, day)| Date::new(*year, *month, *day).ok())
    });
    days.filter(|day| *day <= today.date).max()
}

/// A span of a rhythm: running hours where it is written in hours or less, else days of the calendar.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Time {
    Hours(Exact),
    Days(i64),
}

/// Reads a rhythm's span; none where it is no time at all. Part days count as whole ones short: the check comes early.
pub(crate) fn span(written: &Quantity) -> Option<Time> {
    match written.unit() {
        Unit::Day | Unit::Week | Unit::Month | Unit::Year => {
            written.in_unit(Unit::Day)?.floor().to_i64().map(Time::Days)
        }
        _ => written.in_unit(Unit::Hour).map(Time::Hours),
    }
}

/// When a check restarted by an event is due next.
pub(crate) enum EventDue<'a> {
    /// So long after this.
    At { from: &'a Done, every: Time },
    /// The hours at the event or at the last check are not known.
    Unknown,
}

/// The rule of an event-restarted rhythm: `every` for `during` after the event, then every `then`, each from when it was
/// last really done. None where nothing follows.
pub(crate) fn due_after_event<'a>(
    today: &Today<'_>,
    rhythm: &Rhythm,
    event: &'a Done,
    done: &'a Done,
) -> Option<EventDue<'a>> {
    let Rhythm::After {
        every,
        during,
        then,
        ..
    } = rhythm
    else {
        return None;
    };
    let from = if (done.at, done.entry) >= (event.at, event.entry) {
        done
    } else {
        event
    };
    let at_first = match span(during)? {
        Time::Days(days) => days_between(today.day_of(event.at), today.day_of(from.at)) < days,
        Time::Hours(hours) => match (&from.life_hours, &event.life_hours) {
            (Some(from), Some(event)) => &from.hours - &event.hours < hours,
            // Nobody told: the closer checks go on.
            _ if today.book.is_without_meter() => true,
            _ => return Some(EventDue::Unknown),
        },
    };
    let every = span(if at_first { every } else { then.as_ref()? })?;
    Some(EventDue::At { from, every })
}
