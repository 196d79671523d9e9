//! Several readings and one limit: their mean, the worst of them, or each by itself.

use super::{Call, End, Limit, Measured, NotComparable, decide};
use crate::{Exact, Unit};

/// What of several readings is held against the limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Take {
    /// Their mean. Its half width is the largest of theirs, not smaller by averaging: readings with one tape, one eye and one
    /// pose are wrong together.
    Mean,
    /// The one that stands worst.
    Worst,
    /// Each; the limit is kept only when every one keeps it.
    Each,
}

/// The decision on several readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// The decision; for [`Take::Worst`] and [`Take::Each`] the most severe of all.
    pub call: Call,
    /// What was held against the limit: the mean, or the worst reading.
    pub taken: Measured,
    /// Which reading is `taken`; `None` for a mean.
    pub which: Option<usize>,
    /// The decision on each reading by itself, in their order. For [`Take::Mean`] these do not count, but show.
    pub each: Vec<Call>,
}

/// Why readings cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unjudged {
    /// There are none.
    NoReadings,
    /// One measures something else than the limit.
    NotComparable(NotComparable),
}

impl From<NotComparable> for Unjudged {
    fn from(trouble: NotComparable) -> Self {
        Self::NotComparable(trouble)
    }
}

/// Decides several readings as the limit's rule says.
///
/// # Errors
/// No readings, or one that measures something else.
pub fn judge(limit: &Limit, readings: &[Measured], take: Take) -> Result<Judged, Unjudged> {
    let each = readings
        .iter()
        .map(|reading| decide(limit, reading))
        .collect::<Result<Vec<_>, _>>()?;
    if take == Take::Mean {
        let taken = mean(readings, limit.unit())?;
        return Ok(Judged {
            call: decide(limit, &taken)?,
            taken,
            which: None,
            each,
        });
    }
    let rooms = readings
        .iter()
        .map(|reading| room(limit, reading))
        .collect::<Result<Vec<_>, _>>()?;
    // Most severe first; of equally severe ones the one with the least room; then the earliest.
    let order = |at: &usize| {
        (
            std::cmp::Reverse(severity(each[*at])),
            rooms[*at].clone(),
            *at,
        )
    };
    let which = (0..readings.len())
        .min_by_key(order)
        .ok_or(Unjudged::NoReadings)?;
    Ok(Judged {
        call: each[which],
        taken: readings[which].clone(),
        which: Some(which),
        each,
    })
}

fn severity(call: Call) -> u8 {
    match call {
        Call::Inside => 0,
        Call::TooClose(_) => 1,
        Call::Outside(_) => 2,
    }
}

/// The mean of middles, with the largest half width; open to a side when one of the readings is.
fn mean(readings: &[Measured], unit: Unit) -> Result<Measured, Unjudged> {
    let count = Exact::from(i64::try_from(readings.len()).unwrap_or(i64::MAX));
    let average = |values: Vec<Exact>| {
        values
            .into_iter()
            .sum::<Exact>()
            .checked_div(&count)
            .ok_or(Unjudged::NoReadings)
    };
    let ends = readings
        .iter()
        .map(|reading| reading.ends_in(unit))
        .collect::<Result<Vec<_>, _>>()?;
    let closed: Option<Vec<(Exact, Exact)>> = ends
        .iter()
        .map(|(low, high)| Measured::between(low.clone(), high.clone(), unit).middle_and_half())
        .collect();
    if let Some(pairs) = closed {
        let half = pairs
            .iter()
            .map(|(_, half)| half.clone())
            .max()
            .ok_or(Unjudged::NoReadings)?;
        let middle = average(pairs.into_iter().map(|(middle, _)| middle).collect())?;
        return Ok(Measured::value(&middle, &half, unit));
    }
    let side = |ends: Vec<Option<End>>| -> Result<Option<End>, Unjudged> {
        let Some(ends) = ends.into_iter().collect::<Option<Vec<_>>>() else {
            return Ok(None);
        };
        let strict = ends.iter().any(|end| end.strict);
        let value = average(ends.into_iter().map(|end| end.value).collect())?;
        Ok(Some(End { value, strict }))
    };
    let (lows, highs) = ends.into_iter().unzip();
    Ok(Measured::between(side(lows)?, side(highs)?, unit))
}

/// Room left from the nearer end of the reading to the nearer limit, in the unit of the limit; negative beyond it. `None`
/// (which sorts first) when the reading is open towards a limit.
fn room(limit: &Limit, reading: &Measured) -> Result<Option<Exact>, NotComparable> {
    let (low, high) = reading.ends_in(limit.unit())?;
    let below = limit.min().map(|least| low.map(|end| end.value - least));
    let above = limit.max().map(|most| high.map(|end| most - end.value));
    Ok([below, above].into_iter().flatten().min().flatten())
}
