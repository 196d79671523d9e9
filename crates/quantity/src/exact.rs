//! Exact rational numbers: what was written is what is kept, with no binary rounding in between.

use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};

/// Digits a written number may have. Enough for anything measured; few enough that hostile text stays cheap.
const MOST_DIGITS: usize = 40;
/// Largest power of ten a written number may carry, either way.
const MOST_EXPONENT: i32 = 12;

/// An exact rational number, always in lowest terms with a positive denominator.
///
/// Equality, order and hash are those of the number itself: `0.50` and `1/2` are the same. There is no division operator,
/// because a zero divisor must not panic: see [`Exact::checked_div`].
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Exact(BigRational);

impl Exact {
    /// Zero.
    #[must_use]
    pub fn zero() -> Self {
        Self(BigRational::zero())
    }

    /// One.
    #[must_use]
    pub fn one() -> Self {
        Self(BigRational::one())
    }

    /// `numerator / denominator`; `None` for a zero denominator.
    #[must_use]
    pub fn from_ratio(numerator: i64, denominator: i64) -> Option<Self> {
        (denominator != 0).then(|| Self(BigRational::new(numerator.into(), denominator.into())))
    }

    /// Reads `12`, `-0.75`, `.5`, `2e3`, or `243/4` (the form [`Display`](fmt::Display) writes). No spaces, no commas.
    ///
    /// `None` for anything else, for a zero denominator, for more than 40 digits in one part, or for a power of ten beyond ±12.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        match text.split_once('/') {
            Some((above, below)) => decimal(above)?.checked_div(&unsigned_decimal(below)?),
            None => decimal(text),
        }
    }

    /// The exact value of a finite float (every finite float is a rational); `None` for infinities and not-a-number.
    #[must_use]
    pub fn from_f64_exact(value: f64) -> Option<Self> {
        BigRational::from_float(value).map(Self)
    }

    /// The nearest float. Values from written numbers are always finite.
    #[must_use]
    pub fn to_f64(&self) -> f64 {
        self.0.to_f64().unwrap_or(f64::NAN)
    }

    /// The quotient; `None` when `divisor` is zero.
    #[must_use]
    pub fn checked_div(&self, divisor: &Self) -> Option<Self> {
        (!divisor.is_zero()).then(|| Self(&self.0 / &divisor.0))
    }

    /// The value without its sign.
    #[must_use]
    pub fn abs(&self) -> Self {
        Self(self.0.abs())
    }

    /// Whether this is zero.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        self.0.is_zero()
    }

    /// Whether this is below zero.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        self.0.is_negative()
    }

    /// Whether this is a whole number.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.0.is_integer()
    }

    /// The whole number as `i64`; `None` when it is not whole or too large.
    #[must_use]
    pub fn to_i64(&self) -> Option<i64> {
        self.is_whole().then(|| self.0.numer().to_i64()).flatten()
    }

    /// The largest whole number not above this one.
    #[must_use]
    pub fn floor(&self) -> Self {
        Self(self.0.floor())
    }

    /// The nearest whole number; a tie goes to the even one (IEC 60559 "roundTiesToEven").
    #[must_use]
    pub fn round_half_even(&self) -> Self {
        let floor = self.0.floor();
        let twice_rest = (&self.0 - &floor) * BigInt::from(2);
        let odd = floor.numer().bit(0);
        let up = twice_rest > BigRational::one() || (twice_rest.is_one() && odd);
        Self(if up { floor + BigInt::one() } else { floor })
    }

    /// Ten to the power `exponent`.
    #[must_use]
    pub(crate) fn power_of_ten(exponent: i32) -> Self {
        let power = BigInt::from(10).pow(exponent.unsigned_abs());
        Self(if exponent < 0 {
            BigRational::new(BigInt::one(), power)
        } else {
            power.into()
        })
    }

    /// The exponent of the largest power of ten not above the magnitude; `None` for zero.
    pub(crate) fn decade(&self) -> Option<i32> {
        if self.is_zero() {
            return None;
        }
        let size = self.abs();
        let digits = |n: &BigInt| i32::try_from(n.to_string().len()).unwrap_or(i32::MAX);
        let guess = digits(size.0.numer()) - digits(size.0.denom());
        Some(if size < Self::power_of_ten(guess) {
            guess - 1
        } else {
            guess
        })
    }

    /// The number of decimal places that write this value exactly; `None` when no finite number does.
    pub(crate) fn exact_places(&self) -> Option<u32> {
        let mut rest = self.0.denom().clone();
        let mut count = |prime: u32| {
            let mut times = 0;
            while (&rest % prime).is_zero() {
                rest /= prime;
                times += 1;
            }
            times
        };
        let places = count(2).max(count(5));
        rest.is_one().then_some(places)
    }

    /// The part above the fraction line, in lowest terms.
    pub(crate) fn numerator(&self) -> &BigInt {
        self.0.numer()
    }

    /// The part below the fraction line, in lowest terms; positive.
    pub(crate) fn denominator(&self) -> &BigInt {
        self.0.denom()
    }
}

/// Reads a decimal with an optional sign in front.
fn decimal(text: &str) -> Option<Exact> {
    match text.strip_prefix('-') {
        Some(size) => Some(-unsigned_decimal(size)?),
        None => unsigned_decimal(text),
    }
}

/// Reads digits with an optional point and an optional power of ten.
fn unsigned_decimal(text: &str) -> Option<Exact> {
    let (number, exponent) = match text.split_once(['e', 'E']) {
        Some((number, exponent)) => (number, small_exponent(exponent)?),
        None => (text, 0),
    };
    let (whole, places) = number.split_once('.').unwrap_or((number, ""));
    let digits = [whole, places].concat();
    let plain = digits.bytes().all(|b| b.is_ascii_digit());
    let point_at_end = number.ends_with('.');
    if digits.is_empty() || digits.len() > MOST_DIGITS || !plain || point_at_end {
        return None;
    }
    let shift = exponent - i32::try_from(places.len()).ok()?;
    let whole: BigInt = digits.parse().ok()?;
    Some(Exact(whole.into()) * Exact::power_of_ten(shift))
}

/// Reads a power of ten within ±12.
fn small_exponent(text: &str) -> Option<i32> {
    let size = text.strip_prefix(['-', '+']).unwrap_or(text);
    let plain = !size.is_empty() && size.len() <= 3 && size.bytes().all(|b| b.is_ascii_digit());
    let value: i32 = if plain {
        text.parse().ok()?
    } else {
        return None;
    };
    (value.abs() <= MOST_EXPONENT).then_some(value)
}

impl From<i64> for Exact {
    fn from(value: i64) -> Self {
        Self(BigInt::from(value).into())
    }
}

/// Writes a whole number as such, any other as `numerator/denominator` in lowest terms. [`Exact::parse`] reads it back.
impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Exact({self})")
    }
}

impl Neg for Exact {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Neg for &Exact {
    type Output = Exact;
    fn neg(self) -> Exact {
        Exact(-&self.0)
    }
}

/// One arithmetic operation for every mix of value and reference.
macro_rules! operation {
    ($trait:ident, $method:ident) => {
        impl $trait<&Exact> for &Exact {
            type Output = Exact;
            fn $method(self, other: &Exact) -> Exact {
                Exact((&self.0).$method(&other.0))
            }
        }
        impl $trait<Exact> for Exact {
            type Output = Exact;
            fn $method(self, other: Exact) -> Exact {
                Exact(self.0.$method(other.0))
            }
        }
        impl $trait<&Exact> for Exact {
            type Output = Exact;
            fn $method(self, other: &Exact) -> Exact {
                Exact(self.0.$method(&other.0))
            }
        }
        impl $trait<Exact> for &Exact {
            type Output = Exact;
            fn $method(self, other: Exact) -> Exact {
                Exact((&self.0).$method(other.0))
            }
        }
    };
}
operation!(Add, add);
operation!(Sub, sub);
operation!(Mul, mul);

impl std::iter::Sum for Exact {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::zero(), |total, item| total + item)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn exact(text: &str) -> Exact {
        Exact::parse(text).unwrap()
    }

    #[test]
    fn reads_decimals_and_ratios_as_the_same_number() {
        assert_eq!(exact("0.50"), exact("1/2"));
        assert_eq!(exact("2e3"), Exact::from(2000));
        assert_eq!(exact("-.75"), Exact::from_ratio(-3, 4).unwrap());
        assert_eq!(exact("25.4").to_string(), "127/5");
    }

    #[test]
    fn refuses_what_is_not_a_small_plain_number() {
        let long = "1".repeat(41);
        for text in [
            "", ".", "5.", "-", "1/0", "1,5", "1e13", "557E90", "1e", "0x10", "1 2", "--1", "1/-2",
            "1.2.3", &long,
        ] {
            assert_eq!(Exact::parse(text), None, "{text}");
        }
    }

    /// Decimal tenths add up exactly, unlike binary floats (0.1 + 0.2 is 0.30000000000000004 there).
    #[test]
    fn tenths_add_up() {
        assert_eq!(exact("0.2") + exact("0.2") + exact("0.2"), exact("0.6"));
    }

    #[test]
    fn ties_go_to_the_even_neighbour() {
        let rounded = |text| exact(text).round_half_even().to_i64().unwrap();
        assert_eq!(
            ["0.5", "1.5", "2.5", "-0.5", "-1.5", "2.51"].map(rounded),
            [0, 2, 2, 0, -2, 3]
        );
    }

    #[test]
    fn decades_are_found_on_both_sides_of_a_power_of_ten() {
        let decade = |text| exact(text).decade().unwrap();
        assert_eq!(
            ["1", "9.99", "10", "0.1", "0.099", "1/3", "999/1000"].map(decade),
            [0, 0, 1, -1, -2, -1, -1]
        );
        assert_eq!(Exact::zero().decade(), None);
    }

    #[test]
    fn places_of_finite_decimals_only() {
        assert_eq!(exact("3/8").exact_places(), Some(3));
        assert_eq!(exact("7").exact_places(), Some(0));
        assert_eq!(exact("1/3").exact_places(), None);
    }

    #[test]
    fn floats_are_taken_as_they_are() {
        assert_eq!(
            Exact::from_f64_exact(0.1).unwrap().to_f64().to_bits(),
            0.1f64.to_bits()
        );
        assert_ne!(Exact::from_f64_exact(0.1).unwrap(), exact("0.1"));
        assert_eq!(Exact::from_f64_exact(f64::NAN), None);
    }
}
