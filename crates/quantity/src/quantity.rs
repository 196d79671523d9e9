//! A quantity as a person wrote it: the text, the exact value, the unit, and the ± if one was given.

use crate::show::plain_text;
use crate::{Dimension, Exact, Unit};

/// A written quantity. `==` compares what was written; use [`Quantity::same_value`] to compare across units.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Quantity {
    text: String,
    value: Exact,
    unit: Unit,
    plus_minus: Option<Exact>,
}

impl Quantity {
    /// A quantity from its parts, kept by the reader. `text` must read back as the other parts.
    pub(crate) fn written(
        text: String,
        value: Exact,
        unit: Unit,
        plus_minus: Option<Exact>,
    ) -> Self {
        Self {
            text,
            value,
            unit,
            plus_minus,
        }
    }

    /// A quantity that nobody wrote, with a plain text that reads back as exactly this value and unit.
    ///
    /// `plus_minus` is in the same unit as `value`, taken without its sign. A number of more digits than the reader takes (40, or
    /// 12 on a side of a fraction line where no decimal is exact), which no written one has, gets a text that does not read back.
    #[must_use]
    pub fn from_exact(value: Exact, unit: Unit, plus_minus: Option<Exact>) -> Self {
        let plus_minus = plus_minus.map(|size| size.abs());
        let text = plain_text(&value, unit, plus_minus.as_ref());
        Self {
            text,
            value,
            unit,
            plus_minus,
        }
    }

    /// The text as written, trimmed; for a bare number in a box with a unit beside it, with that unit added.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The value in [`Quantity::unit`].
    #[must_use]
    pub fn value(&self) -> &Exact {
        &self.value
    }

    /// The unit written; the smaller one of a compound (`6 ft 2 in` is in inches, `1 h 30 min` in minutes).
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// The half width written after ±, in [`Quantity::unit`]; never negative.
    #[must_use]
    pub fn plus_minus(&self) -> Option<&Exact> {
        self.plus_minus.as_ref()
    }

    /// What is measured.
    #[must_use]
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// The value in the SI unit of its dimension, exact (angles: see [`Unit::factor`]).
    #[must_use]
    pub fn si(&self) -> Exact {
        self.unit.to_si(&self.value)
    }

    /// The value in the SI unit of its dimension, as the nearest float.
    #[must_use]
    pub fn si_f64(&self) -> f64 {
        self.si().to_f64()
    }

    /// The ± in the SI unit of its dimension.
    #[must_use]
    pub fn plus_minus_si(&self) -> Option<Exact> {
        self.plus_minus
            .as_ref()
            .map(|size| size * self.unit.factor())
    }

    /// The value in another unit, exact; `None` when that measures something else.
    #[must_use]
    pub fn in_unit(&self, unit: Unit) -> Option<Exact> {
        self.unit.convert(&self.value, unit)
    }

    /// The ± in another unit: `None` when none was written or the unit measures something else.
    #[must_use]
    pub fn plus_minus_in(&self, unit: Unit) -> Option<Exact> {
        self.unit
            .convert_difference(self.plus_minus.as_ref()?, unit)
    }

    /// Whether both say the same value, whatever the units; the ± is not looked at.
    #[must_use]
    pub fn same_value(&self, other: &Self) -> bool {
        self.dimension() == other.dimension() && self.si() == other.si()
    }
}
