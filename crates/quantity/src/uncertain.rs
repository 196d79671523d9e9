//! A computed number with its uncertainty, and how finely it may honestly be printed.

use crate::show::rounded_pair;
use crate::{Exact, Unit};

/// A computed value and the half width of its 95 % interval, in the same unit. Both finite, the half width not negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    value: f64,
    plus_minus: f64,
}

impl Uncertain {
    /// A value with its half width; `None` when either is not finite or the half width is negative.
    #[must_use]
    pub fn new(value: f64, plus_minus: f64) -> Option<Self> {
        let sound = value.is_finite() && plus_minus.is_finite() && plus_minus >= 0.0;
        // Adding zero turns −0 into 0, which would print a sign.
        sound.then_some(Self {
            value: value + 0.0,
            plus_minus: plus_minus + 0.0,
        })
    }

    /// A value known exactly, such as a count; `None` when it is not finite.
    #[must_use]
    pub fn certain(value: f64) -> Option<Self> {
        Self::new(value, 0.0)
    }

    /// The value.
    #[must_use]
    pub fn value(self) -> f64 {
        self.value
    }

    /// The half width of the 95 % interval.
    #[must_use]
    pub fn plus_minus(self) -> f64 {
        self.plus_minus
    }

    /// The lower end.
    #[must_use]
    pub fn low(self) -> f64 {
        self.value - self.plus_minus
    }

    /// The upper end.
    #[must_use]
    pub fn high(self) -> f64 {
        self.value + self.plus_minus
    }

    /// From the SI unit of `unit`'s dimension into `unit`, for display; `None` when the result is not finite.
    #[must_use]
    pub fn from_si(self, unit: Unit) -> Option<Self> {
        let value = unit.from_si(&Exact::from_f64_exact(self.value)?).to_f64();
        let half = Exact::from_f64_exact(self.plus_minus)?
            .checked_div(&unit.factor())?
            .to_f64();
        Self::new(value, half)
    }

    /// Value and ± as text to the same place: the ± to one or two significant digits (two where its first three digits are 100
    /// to 354), half to even. With no ±, the value to six significant digits and `0` to the same place.
    #[must_use]
    pub fn shown(self) -> (String, String) {
        match (
            Exact::from_f64_exact(self.value),
            Exact::from_f64_exact(self.plus_minus),
        ) {
            (Some(value), Some(half)) => rounded_pair(&value, &half),
            _ => (self.value.to_string(), self.plus_minus.to_string()),
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn digits_stop_where_knowledge_stops() {
        let shown = |value, half| Uncertain::new(value, half).unwrap().shown();
        assert_eq!(shown(28_512.7, 1_840.0), ("28500".into(), "1800".into()));
        assert_eq!(
            shown(0.041_234, 0.000_55),
            ("0.0412".into(), "0.0006".into())
        );
        assert_eq!(shown(-0.01, 4.0), ("0".into(), "4".into()));
    }

    #[test]
    fn nonsense_is_not_a_value() {
        assert_eq!(Uncertain::new(f64::NAN, 1.0), None);
        assert_eq!(Uncertain::new(1.0, -0.1), None);
        assert_eq!(Uncertain::new(1.0, f64::INFINITY), None);
    }

    #[test]
    fn degrees_for_the_screen() {
        let turned = Uncertain::new(std::f64::consts::FRAC_PI_2, 0.01)
            .unwrap()
            .from_si(Unit::Degree)
            .unwrap();
        assert_eq!(turned.shown(), ("90.0".into(), "0.6".into()));
        assert!((turned.value() - 90.0).abs() < 1e-12);
    }
}
