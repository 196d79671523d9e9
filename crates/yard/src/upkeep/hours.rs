//! Life hours of a machine: through every change of its meter, with the ± of what nobody counted.

use crate::state::{LifeHours, MachineState, Segment};
use jiff::Timestamp;
use quantity::{Exact, Unit};
use reckon::{Figure, FigureInput, Origin, upkeep::life_hours as leaf};

/// Life hours now, exact; none where nobody has read the meter, or the last readings are in question.
///
/// The sum over the meter's segments of last − first reading and whole turns, and of the hours nobody counted. The ±s add up
/// as they stand, so that what rests on them errs on the careful side; the [`hours_figure`] adds them as squares.
pub fn life_hours(machine: &MachineState) -> Option<LifeHours> {
    if machine.hours.in_question() || machine.hours.segments.is_empty() {
        return None;
    }
    let zero = LifeHours {
        hours: Exact::zero(),
        plus_minus: Exact::zero(),
    };
    Some(machine.hours.segments.iter().fold(zero, |sum, segment| {
        let (unmetered, half) = unmetered(segment);
        LifeHours {
            hours: sum.hours + run(segment) + unmetered,
            plus_minus: sum.plus_minus + half,
        }
    }))
}

/// Life hours at an earlier moment, by the last reading until then; none where there is none or the hours are in question.
pub fn life_hours_at(machine: &MachineState, at: Timestamp) -> Option<LifeHours> {
    if machine.hours.in_question() {
        return None;
    }
    let until_then = machine.hours.readings.iter().filter(|read| read.at <= at);
    until_then
        .max_by_key(|read| read.at)
        .map(|read| read.life.clone())
}

/// Life hours as a figure that can be opened, its inputs naming the entries that bore them; none where [`life_hours`] gives
/// none.
pub fn hours_figure(machine: &MachineState) -> Option<Figure> {
    life_hours(machine)?;
    let segments = &machine.hours.segments;
    let (first, last) = (segments.first()?, segments.last()?);
    let (starts, ends): (Vec<f64>, Vec<f64>) = segments.iter().flat_map(stretches).unzip();
    // The ± here is that of the spans nobody counted; how finely a meter shows is not known for old meters.
    let steps = vec![0.0; starts.len()];
    let (unmetered, halves): (Vec<f64>, Vec<f64>) = segments
        .iter()
        .map(unmetered)
        .map(|(hours, half)| (hours.to_f64(), half.to_f64()))
        .unzip();
    let estimated = segments
        .iter()
        .rev()
        .find(|segment| segment.unmetered_before.is_some());
    let estimated = estimated.map_or(Origin::Default, |segment| {
        Origin::Entry(segment.begun_by.to_string())
    });
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
    Some(shows + &(life - &now.hours))
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
