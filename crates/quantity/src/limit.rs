//! Decision at a limit: inside, outside, or too close to call, by guard band.
//!
//! A reading with its uncertainty U is inside only when the whole of value ± U is within the limits, outside only when the whole
//! of it is beyond one, else too close to call: simple acceptance narrowed by a guard band of U on either side (ISO 14253-1;
//! JCGM 106:2012, 8.3). Everything is compared exactly, in the unit the limit was written in.

mod measured;
mod readings;

pub use measured::{End, Measured};
pub use readings::{Judged, Take, Unjudged, judge};

use crate::{Dimension, Exact, Quantity, Unit};

/// What a value must keep to: not below `min`, not above `max`, both themselves allowed. At least one of them is set, and they
/// are in order.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Limit {
    min: Option<Exact>,
    max: Option<Exact>,
    unit: Unit,
}

/// Why two limits make none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitTrouble {
    /// Neither a least nor a most.
    NoEnd,
    /// The least is above the most.
    OutOfOrder,
    /// The two measure different things.
    TwoDimensions {
        /// Of the least.
        min: Dimension,
        /// Of the most.
        max: Dimension,
    },
}

impl Limit {
    /// Limits in one unit.
    ///
    /// # Errors
    /// Neither end given, or the least above the most.
    pub fn new(min: Option<Exact>, max: Option<Exact>, unit: Unit) -> Result<Self, LimitTrouble> {
        match (&min, &max) {
            (None, None) => Err(LimitTrouble::NoEnd),
            (Some(least), Some(most)) if least > most => Err(LimitTrouble::OutOfOrder),
            _ => Ok(Self { min, max, unit }),
        }
    }

    /// Limits as written; the least decides the unit, else the most. A ± on a limit plays no part.
    ///
    /// # Errors
    /// As [`Limit::new`], and where the two measure different things.
    pub fn written(min: Option<&Quantity>, max: Option<&Quantity>) -> Result<Self, LimitTrouble> {
        let unit = min.or(max).ok_or(LimitTrouble::NoEnd)?.unit();
        let in_unit = |end: &Quantity| {
            let other = LimitTrouble::TwoDimensions {
                min: unit.dimension(),
                max: end.dimension(),
            };
            end.in_unit(unit).ok_or(other)
        };
        Self::new(
            min.map(in_unit).transpose()?,
            max.map(in_unit).transpose()?,
            unit,
        )
    }

    /// The least allowed, in [`Limit::unit`].
    #[must_use]
    pub fn min(&self) -> Option<&Exact> {
        self.min.as_ref()
    }

    /// The most allowed, in [`Limit::unit`].
    #[must_use]
    pub fn max(&self) -> Option<&Exact> {
        self.max.as_ref()
    }

    /// The unit the limit was written in; it decides.
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }
}

/// Towards which limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Below the least.
    Under,
    /// Above the most.
    Over,
    /// Both at once: the uncertainty is wider than the limits are apart. Only ever with [`Call::TooClose`].
    Either,
}

/// The decision. In order of severity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Call {
    /// All that the value may be is within the limits.
    Inside,
    /// It may be either; measure again, better. The side is the limit it may be beyond.
    TooClose(Side),
    /// All that the value may be is beyond a limit.
    Outside(Side),
}

/// A reading of one dimension held against a limit of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotComparable {
    /// Of the reading.
    pub found: Dimension,
    /// Of the limit.
    pub wanted: Dimension,
}

/// Decides one reading. The reading is converted, exactly, into the unit of the limit.
///
/// # Errors
/// When they measure different things.
pub fn decide(limit: &Limit, measured: &Measured) -> Result<Call, NotComparable> {
    let (low, high) = measured.ends_in(limit.unit)?;
    let under =
        |end: &Option<End>, least: &Exact| end.as_ref().is_none_or(|end| end.value < *least);
    let over = |end: &Option<End>, most: &Exact| end.as_ref().is_none_or(|end| end.value > *most);
    let all_under = limit
        .min
        .as_ref()
        .is_some_and(|least| high.as_ref().is_some_and(|end| end.is_all_below(least)));
    let all_over = limit
        .max
        .as_ref()
        .is_some_and(|most| low.as_ref().is_some_and(|end| end.is_all_above(most)));
    let may_be_under = limit.min.as_ref().is_some_and(|least| under(&low, least));
    let may_be_over = limit.max.as_ref().is_some_and(|most| over(&high, most));
    Ok(match (all_under, all_over, may_be_under, may_be_over) {
        (true, ..) => Call::Outside(Side::Under),
        (_, true, ..) => Call::Outside(Side::Over),
        (.., true, true) => Call::TooClose(Side::Either),
        (.., true, false) => Call::TooClose(Side::Under),
        (.., false, true) => Call::TooClose(Side::Over),
        (.., false, false) => Call::Inside,
    })
}
