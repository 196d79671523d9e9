//! When each point comes round next, by the hours and by the calendar.

use super::{hours_figure, meter_at};
use crate::{
    book::{Point, Rhythm},
    handover::Situation,
    id::PointId,
    state::Done,
    walkround::{EventDue, Time, Today, due_after_event, span},
};
use jiff::{Span, civil::Date};
use quantity::Exact;
use reckon::{Figure, FigureInput, Origin, upkeep::due_hours};

/// One point's next time by one of its rhythms.
#[derive(Clone, Debug, PartialEq)]
pub struct DueLine {
    /// Point.
    pub point: PointId,
    /// Life hours at which it is due.
    pub at_hours: Option<Exact>,
    /// What the meter of today shows then: for the strip beside the meter.
    pub meter_shows: Option<Exact>,
    /// Date on which it is due, in the yard.
    pub on: Option<Date>,
    /// Figure behind the hours; none where the hours of today are not known.
    pub figure: Option<Figure>,
}

/// For every point and every rhythm that can be told ahead: when it is due next, in the book's order.
///
/// A point never done is due today. Rhythms that hang on a start, a person or on standing are not told ahead, and neither
/// are hours nobody knows.
pub fn next_due(situation: &Situation<'_>) -> Vec<DueLine> {
    let Some(today) = Today::of(situation) else {
        return Vec::new();
    };
    // Two rhythms may fall on the same day or reading: that is said once.
    let lines = |point: &Point| {
        let mut lines: Vec<DueLine> = Vec::new();
        for next in point
            .rhythms
            .iter()
            .filter_map(|rhythm| line(&today, point, rhythm))
        {
            let same = |told: &DueLine| (&told.at_hours, told.on) == (&next.at_hours, next.on);
            if !lines.iter().any(same) {
                lines.push(next);
            }
        }
        lines
    };
    today.book.points.iter().flat_map(lines).collect()
}

/// The soonest lines first: what has a date before what has hours only, each in its order.
pub fn soonest(mut lines: Vec<DueLine>, most: usize) -> Vec<DueLine> {
    lines.sort_by(|a, b| {
        let key = |line: &DueLine| (line.on.is_none(), line.on, line.at_hours.clone());
        key(a).cmp(&key(b))
    });
    // A point of several rhythms is said once.
    let mut seen = std::collections::BTreeSet::new();
    lines.retain(|line| seen.insert(line.point.clone()));
    lines.truncate(most);
    lines
}

fn line(today: &Today<'_>, point: &Point, rhythm: &Rhythm) -> Option<DueLine> {
    let Some(done) = today.machine().done.get(&point.id) else {
        return matches!(rhythm, Rhythm::Hours(_) | Rhythm::Days(_) | Rhythm::Season)
            .then(|| on(point, today.date));
    };
    match rhythm {
        Rhythm::EveryStart | Rhythm::AfterUse | Rhythm::FirstTime | Rhythm::Standing(_) => None,
        Rhythm::Hours(every) => after(today, point, done, span(every)?),
        Rhythm::Days(every) => {
            let its_day = today
                .weekly
                .get(&point.id)
                .and_then(|slot| slot.due_on(today.day_of(done.at)));
            its_day
                .map(|date| on(point, date))
                .or_else(|| after(today, point, done, Time::Days(i64::from(*every))))
        }
        Rhythm::Season => Some(on(point, season_after(today, today.day_of(done.at))?)),
        Rhythm::After { event, .. } => {
            let happened = today.machine().events.get(event)?;
            match due_after_event(today, rhythm, happened, done)? {
                EventDue::At { from, every } => after(today, point, from, every),
                EventDue::Unknown => None,
            }
        }
    }
}

/// So long after something was done.
fn after(today: &Today<'_>, point: &Point, done: &Done, every: Time) -> Option<DueLine> {
    match every {
        Time::Days(days) => {
            let date = today
                .day_of(done.at)
                .checked_add(Span::new().try_days(days).ok()?)
                .ok()?;
            Some(on(point, date))
        }
        Time::Hours(every) => {
            let due = &done.life_hours.as_ref()?.hours + &every;
            let figure = figure(today, point, done, &every);
            let meter_shows = meter_at(today.machine(), &due);
            Some(DueLine {
                point: point.id.clone(),
                at_hours: Some(due),
                meter_shows,
                on: None,
                figure,
            })
        }
    }
}

fn on(point: &Point, date: Date) -> DueLine {
    DueLine {
        point: point.id.clone(),
        at_hours: None,
        meter_shows: None,
        on: Some(date),
        figure: None,
    }
}

fn figure(today: &Today<'_>, point: &Point, done: &Done, every: &Exact) -> Option<Figure> {
    let machine = today.machine();
    let now = hours_figure(machine)?;
    let revision = u32::try_from(machine.books.len()).unwrap_or(u32::MAX);
    let inputs = vec![
        FigureInput::new(
            "last",
            done.life_hours.as_ref()?.hours.to_f64(),
            Origin::Entry(done.entry.to_string()),
        ),
        FigureInput::new(
            "interval",
            every.to_f64(),
            Origin::BookLine {
                revision,
                line: point.line,
            },
        ),
        FigureInput::from_figure("now", &now, "life")?,
    ];
    Figure::reckon(&due_hours::LEAF, inputs).ok()
}

/// The first day of the first season to begin after a date.
fn season_after(today: &Today<'_>, date: Date) -> Option<Date> {
    let years = [date.year(), date.year().saturating_add(1)];
    let seasons = &today.situation.habits.seasons;
    let days = years.iter().flat_map(|year| {
        seasons
            .iter()
            .filter_map(|(month, day)| Date::new(*year, *month, *day).ok())
    });
    days.filter(|day| *day > date).min()
}
