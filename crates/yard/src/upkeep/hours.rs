//! Life hours of a machine: through every change of its meter, with the ± of what nobody counted.

use super::meters::{told_figure, with_scale};
use crate::state::{HourHistory, LifeHours, MachineState, Segment};
use jiff::Timestamp;
use quantity::{Exact, Unit};
use reckon::{Figure, FigureInput, Origin, upkeep::life_hours as leaf};

/// Life hours now, exact; none where nobody knows any, or the last readings are in question.
///
/// The sum over the meter's segments of last − first reading and whole turns, and of the hours nobody counted, also those
/// told or estimated since the last reading. The ±s add up as they stand, so that what rests on them errs on the careful
/// side; the [`hours_figure`] adds them as squares, and so do the [`shown_hours`].
pub fn life_hours(machine: &MachineState) -> Option<LifeHours> {
    of_history(&machine.hours)
}

/// Life hours now as they are shown: with the ± of [`hours_figure`], which anybody can open and recompute.
pub fn shown_hours(machine: &MachineState) -> Option<LifeHours> {
    let life = life_hours(machine)?;
    Some(with_its_half_width(life, hours_figure(machine).as_ref()))
}

/// Hours with the ± of their figure, to a thousandth of an hour.
pub(super) fn with_its_half_width(life: LifeHours, figure: Option<&Figure>) -> LifeHours {
    let half = figure
        .and_then(|figure| figure.outputs().first())
        .and_then(|output| output.half_width)
        .and_then(|half| Exact::parse(&format!("{half:.3}")));
    match half {
        Some(plus_minus) => LifeHours { plus_minus, ..life },
        None => life,
    }
}

/// The same of any meter.
pub(super) fn of_history(history: &HourHistory) -> Option<LifeHours> {
    if history.in_question() || (history.segments.is_empty() && history.uncounted.is_none()) {
        return None;
    }
    let since = history.uncounted.as_ref();
    let sum = since.map_or_else(LifeHours::none, |more| more.hours.clone());
    Some(history.segments.iter().fold(sum, |sum, segment| {
        let (hours, plus_minus) = unmetered(segment);
        let run = scaled(history.scale.as_ref(), run(segment));
        sum.and(&run).and(&LifeHours { hours, plus_minus })
    }))
}

/// Life hours at an earlier moment, by the last reading or telling until then; none where there is none or the hours are in
/// question.
pub fn life_hours_at(machine: &MachineState, at: Timestamp) -> Option<LifeHours> {
    let history = &machine.hours;
    if history.in_question() {
        return None;
    }
    let read = history.readings.iter().map(|read| (read.at, &read.life));
    let told = history.estimates.iter().map(|told| (told.at, &told.life));
    let until_then = read.chain(told).filter(|(then, _)| *then <= at);
    until_then
        .max_by_key(|(then, _)| *then)
        .map(|(_, life)| life.clone())
}

/// Life hours as a figure that can be opened, its inputs naming the entries that bore them; none where [`life_hours`] gives
/// none.
pub fn hours_figure(machine: &MachineState) -> Option<Figure> {
    let figure = of_segments(&machine.hours)?;
    match machine.hours.scale {
        Some(_) => with_scale(machine, &figure),
        None => Some(figure),
    }
}

/// What a meter counted in its life, as a figure.
pub(super) fn of_segments(history: &HourHistory) -> Option<Figure> {
    of_history(history)?;
    let segments = &history.segments;
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else {
        return told_figure(history);
    };
    let (starts, ends): (Vec<f64>, Vec<f64>) = segments.iter().flat_map(stretches).unzip();
    // The ± here is that of the spans nobody counted; how finely a meter shows is not known for old meters.
    let steps = vec![0.0; starts.len()];
    let told = history.uncounted.iter().flat_map(|more| &more.told);
    let (unmetered, halves): (Vec<f64>, Vec<f64>) = segments
        .iter()
        .map(unmetered)
        .chain(
            told.clone()
                .map(|(_, life)| (life.hours.clone(), life.plus_minus.clone())),
        )
        .map(|(hours, half)| (hours.to_f64(), half.to_f64()))
        .unzip();
    let carried = segments
        .iter()
        .filter(|segment| segment.unmetered_before.is_some());
    let estimated = told
        .map(|(entry, _)| *entry)
        .next_back()
        .or_else(|| carried.map(|segment| segment.begun_by).next_back());
    let estimated = estimated.map_or(Origin::Default, |entry| Origin::Entry(entry.to_string()));
    let inputs = vec![
        FigureInput::new("starts", starts, Origin::Entry(first.begun_by.to_string())),
        FigureInput::new("ends", ends, Origin::Entry(last.last_by.to_string())),
        FigureInput::new("steps", steps, Origin::Default),
        FigureInput::new("unmetered", unmetered, estimated.clone()),
        FigureInput::new("unmetered_half_widths", halves, estimated),
    ];
    Figure::reckon(&leaf::LEAF, inputs).ok()
}

/// What the meter of today shows at so many life hours; none where the hours are not known.
pub fn meter_at(machine: &MachineState, life: &Exact) -> Option<Exact> {
    let now = life_hours(machine)?;
    let shows = &machine.hours.segments.last()?.last;
    // A meter that does not count shows the same then as now.
    if machine.hours.broken.is_some() {
        return None;
    }
    let more = life - &now.hours;
    let on_it = match &machine.hours.scale {
        Some(scale) => more.checked_div(&scale.hours)?,
        None => more,
    };
    Some(shows + &on_it)
}

/// What so much on a meter is in hours run, by its scale.
pub(crate) fn scaled(scale: Option<&LifeHours>, run: Exact) -> LifeHours {
    match scale {
        None => LifeHours {
            hours: run,
            plus_minus: Exact::zero(),
        },
        Some(scale) => LifeHours {
            plus_minus: &scale.plus_minus * &run,
            hours: &scale.hours * &run,
        },
    }
}

fn run(segment: &Segment) -> Exact {
    &segment.last - &segment.first + &segment.rolled
}

fn unmetered(segment: &Segment) -> (Exact, Exact) {
    let written = segment.unmetered_before.as_ref();
    let hours = written
        .and_then(|hours| hours.in_unit(Unit::Hour))
        .unwrap_or_else(Exact::zero);
    let half = written
        .and_then(|hours| hours.plus_minus_in(Unit::Hour))
        .unwrap_or_else(Exact::zero);
    (hours, half)
}

/// A segment as stretches that rise: a meter that rolled over ran up to its turns, and again from zero.
fn stretches(segment: &Segment) -> Vec<(f64, f64)> {
    let (first, last) = (segment.first.to_f64(), segment.last.to_f64());
    if segment.rolled.is_zero() {
        vec![(first, last)]
    } else {
        vec![(first, segment.rolled.to_f64()), (0.0, last)]
    }
}
