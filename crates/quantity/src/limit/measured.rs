//! What a measurement says: a value ± U, or only that it lies between two ends.

use super::NotComparable;
use crate::{Exact, Quantity, Uncertain, Unit};

/// An end of an interval.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct End {
    /// Where it is.
    pub value: Exact,
    /// Whether the end itself is excluded (`<` rather than `≤`).
    pub strict: bool,
}

impl End {
    /// Whether everything up to this upper end is below `least`.
    pub(super) fn is_all_below(&self, least: &Exact) -> bool {
        self.value < *least || (self.strict && self.value == *least)
    }

    /// Whether everything from this lower end on is above `most`.
    pub(super) fn is_all_above(&self, most: &Exact) -> bool {
        self.value > *most || (self.strict && self.value == *most)
    }
}

/// All that a measured value may be: from `low` to `high`, an end left out being open to that side.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Measured {
    low: Option<End>,
    high: Option<End>,
    unit: Unit,
}

impl Measured {
    /// A reading with the ± it was written with; without one it counts as exact, so give the method's own where it is known
    /// ([`Measured::by_method`]).
    #[must_use]
    pub fn read(reading: &Quantity) -> Self {
        let half = reading.plus_minus().cloned().unwrap_or_else(Exact::zero);
        Self::value(reading.value(), &half, reading.unit())
    }

    /// A reading with the ± it was written with, else with that of the method (a quantity that is a half width).
    ///
    /// # Errors
    /// When the method's ± measures something else than the reading.
    pub fn by_method(reading: &Quantity, method: &Quantity) -> Result<Self, NotComparable> {
        if reading.plus_minus().is_some() {
            return Ok(Self::read(reading));
        }
        let other = NotComparable {
            found: method.dimension(),
            wanted: reading.dimension(),
        };
        let half = method
            .unit()
            .convert_difference(method.value(), reading.unit())
            .ok_or(other)?;
        Ok(Self::value(reading.value(), &half, reading.unit()))
    }

    /// A value ± a half width, both in `unit`; the sign of the half width is not looked at.
    #[must_use]
    pub fn value(value: &Exact, half: &Exact, unit: Unit) -> Self {
        let half = half.abs();
        let end = |value| {
            Some(End {
                value,
                strict: false,
            })
        };
        Self {
            low: end(value - &half),
            high: end(value + &half),
            unit,
        }
    }

    /// A computed value with its 95 % half width, both in `unit`.
    #[must_use]
    pub fn computed(computed: Uncertain, unit: Unit) -> Self {
        let exact = |value| Exact::from_f64_exact(value).expect("an uncertain value is finite");
        Self::value(
            &exact(computed.value()),
            &exact(computed.plus_minus()),
            unit,
        )
    }

    /// A go/no-go finding: between two ends, either of which may be left out. Ends out of order are put in order.
    #[must_use]
    pub fn between(low: Option<End>, high: Option<End>, unit: Unit) -> Self {
        match (low, high) {
            (Some(low), Some(high)) if low.value > high.value => Self {
                low: Some(high),
                high: Some(low),
                unit,
            },
            (low, high) => Self { low, high, unit },
        }
    }

    /// The lower end.
    #[must_use]
    pub fn low(&self) -> Option<&End> {
        self.low.as_ref()
    }

    /// The upper end.
    #[must_use]
    pub fn high(&self) -> Option<&End> {
        self.high.as_ref()
    }

    /// The unit of both ends.
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// Middle and half width; `None` when open to a side.
    #[must_use]
    pub fn middle_and_half(&self) -> Option<(Exact, Exact)> {
        let (low, high) = (&self.low.as_ref()?.value, &self.high.as_ref()?.value);
        let half = Exact::from_ratio(1, 2)?;
        Some(((low + high) * &half, (high - low) * half))
    }

    /// Both ends in another unit.
    pub(super) fn ends_in(&self, unit: Unit) -> Result<(Option<End>, Option<End>), NotComparable> {
        let other = NotComparable {
            found: self.unit.dimension(),
            wanted: unit.dimension(),
        };
        let convert = |end: &End| {
            let value = self.unit.convert(&end.value, unit).ok_or(other)?;
            Ok(End {
                value,
                strict: end.strict,
            })
        };
        Ok((
            self.low.as_ref().map(convert).transpose()?,
            self.high.as_ref().map(convert).transpose()?,
        ))
    }
}
