//! A measured value against its limit: by the limit's method, under its condition, with its ±.

use super::weigh::Told;
use crate::{book::MeasureLimit, entry::Reading, handover::What};
use quantity::limit::{self, Call, End, Limit, LimitTrouble, Measured, Side};

/// Weighs readings. Nothing is compared that was taken by another method, by fewer or more readings than the method wants,
/// under another condition, or in a unit of another kind; what is too close to the limit is not known.
pub(super) fn told(
    limit: &MeasureLimit,
    readings: &[Reading],
    by_method: Option<bool>,
    condition_held: Option<bool>,
) -> Told {
    if by_method != Some(true)
        || readings.is_empty()
        || readings.len() != limit.readings.len().max(1)
    {
        return Told::Unknown(What::OtherMethod);
    }
    if limit.condition.is_some() && condition_held != Some(true) {
        return Told::Unknown(What::ConditionNotHeld);
    }
    let ends = match Limit::written(limit.min.as_ref(), limit.max.as_ref()) {
        Ok(ends) => ends,
        // Written down only, to be looked back on.
        Err(LimitTrouble::NoEnd) => return Told::Well,
        Err(LimitTrouble::OutOfOrder | LimitTrouble::TwoDimensions { .. }) => {
            return Told::Unknown(What::NotComparable);
        }
    };
    let measured = readings
        .iter()
        .map(|reading| measured(limit, reading))
        .collect::<Option<Vec<_>>>();
    let judged = measured.and_then(|measured| limit::judge(&ends, &measured, limit.take).ok());
    judged.map_or(Told::Unknown(What::NotComparable), |judged| {
        called(limit, readings, judged.call)
    })
}

fn called(limit: &MeasureLimit, readings: &[Reading], call: Call) -> Told {
    let read = || readings.iter().map(as_written).collect();
    match call {
        Call::Inside => Told::Well,
        Call::Outside(side) => {
            let limit = limit_as_written(limit, side);
            Told::Amiss(What::Outside {
                read: read(),
                side,
                limit,
            })
        }
        Call::TooClose(side) => {
            let limit = limit_as_written(limit, side);
            Told::Unknown(What::TooClose {
                read: read(),
                side,
                limit,
            })
        }
    }
}

/// What a reading says: its value with its own ±, or else the one usual for the method; an interval where gauges gave one.
/// None where its parts are in units that do not go together.
pub fn measured(limit: &MeasureLimit, reading: &Reading) -> Option<Measured> {
    match (reading, &limit.usual_plus_minus) {
        (Reading::Value(value), Some(usual)) => Measured::by_method(value, usual).ok(),
        (Reading::Value(value), None) => Some(Measured::read(value)),
        (Reading::Between { over, under }, _) => {
            let unit = over.as_ref().or(under.as_ref())?.unit();
            let end = |gauge: &quantity::Quantity| {
                Some(End {
                    value: gauge.in_unit(unit)?,
                    strict: true,
                })
            };
            let ends = [over, under].map(|gauge| gauge.as_ref().map(end));
            // An end in another kind of unit is no end left open: it makes the whole incomparable.
            if ends.contains(&Some(None)) {
                return None;
            }
            let [over, under] = ends.map(Option::flatten);
            // Over more than it is under is no finding at all.
            if let (Some(low), Some(high)) = (&over, &under)
                && low.value >= high.value
            {
                return None;
            }
            Some(Measured::between(over, under, unit))
        }
    }
}

/// A reading as the person wrote it; gauges as `over .. under`.
fn as_written(reading: &Reading) -> String {
    let text = |gauge: &Option<quantity::Quantity>| {
        gauge
            .as_ref()
            .map_or_else(String::new, |gauge| gauge.text().to_owned())
    };
    match reading {
        Reading::Value(value) => value.text().to_owned(),
        Reading::Between { over, under } => format!("{} .. {}", text(over), text(under)),
    }
}

/// The end of the limit that the reading is or may be beyond, as the book has it; both joined by `..` where it may be either.
fn limit_as_written(limit: &MeasureLimit, side: Side) -> String {
    let text =
        |end: &Option<quantity::Quantity>| end.as_ref().map_or("", |end| end.text()).to_owned();
    match side {
        Side::Under => text(&limit.min),
        Side::Over => text(&limit.max),
        Side::Either => format!("{} .. {}", text(&limit.min), text(&limit.max)),
    }
}
