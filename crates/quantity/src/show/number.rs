//! Numbers as text: decimals, inch fractions, feet and inches, a value with its ±. All rounding is half to even.

use num_traits::Zero;

use crate::{Exact, Unit};

/// A value to a number of decimal places, half to even: `3.55` to one place is `3.6`, `2.5` to none is `2`.
#[must_use]
pub fn format_exact(value: &Exact, places: u32) -> String {
    let shift = i32::try_from(places).unwrap_or(i32::MAX);
    let scaled = (value.abs() * Exact::power_of_ten(shift)).round_half_even();
    let digits = format!(
        "{:0>width$}",
        scaled.numerator().to_string(),
        width = places as usize + 1
    );
    let (whole, rest) = digits.split_at(digits.len() - places as usize);
    let sign = if value.is_negative() && !scaled.is_zero() {
        "-"
    } else {
        ""
    };
    let point = if rest.is_empty() { "" } else { "." };
    format!("{sign}{whole}{point}{rest}")
}

/// The nearest multiple of `step`, half to even; the value itself for a step of zero.
#[must_use]
pub fn round_to_step(value: &Exact, step: &Exact) -> Exact {
    value
        .checked_div(step)
        .map_or_else(|| value.clone(), |steps| steps.round_half_even() * step)
}

/// Inches to the nearest `1/denominator`, in lowest terms: `1 3/4 in`. A denominator of zero counts as one.
#[must_use]
pub fn format_fraction_inches(inches: &Exact, denominator: u32) -> String {
    format!("{} in", mixed_number(&to_fraction(inches, denominator)))
}

/// Inches as feet and inches to the nearest `1/denominator`: `6 ft 2 1/2 in`, `12 ft`, `7 1/4 in`.
#[must_use]
pub fn format_feet_inches(inches: &Exact, denominator: u32) -> String {
    let rounded = to_fraction(inches, denominator);
    let sign = if rounded.is_negative() { "-" } else { "" };
    let twelve = Exact::from(12);
    let feet = rounded
        .abs()
        .checked_div(&twelve)
        .map_or_else(Exact::zero, |feet| feet.floor());
    let rest = rounded.abs() - &feet * twelve;
    match (feet.is_zero(), rest.is_zero()) {
        (true, _) => format!("{sign}{} in", mixed_number(&rest)),
        (false, true) => format!("{sign}{feet} ft"),
        (false, false) => format!("{sign}{feet} ft {} in", mixed_number(&rest)),
    }
}

fn to_fraction(inches: &Exact, denominator: u32) -> Exact {
    let step = Exact::from_ratio(1, i64::from(denominator.max(1))).unwrap_or_else(Exact::one);
    round_to_step(inches, &step)
}

/// A rational as `1 3/4`, exactly.
pub(super) fn mixed_number(value: &Exact) -> String {
    let sign = if value.is_negative() { "-" } else { "" };
    let size = value.abs();
    let whole = size.floor();
    let rest = &size - &whole;
    match (whole.is_zero(), rest.is_zero()) {
        (_, true) => format!("{sign}{whole}"),
        (true, false) => format!("{sign}{rest}"),
        (false, false) => format!("{sign}{whole} {rest}"),
    }
}

/// A quantity nobody wrote, as a text that reads back to exactly the same.
///
/// Inches as binary fractions and feet as fractions where they are not whole; else a decimal where a short one is exact, else
/// a fraction, or a long decimal where the fraction would have more digits than are read.
pub(crate) fn plain_text(value: &Exact, unit: Unit, plus_minus: Option<&Exact>) -> String {
    let one = with_unit(&exact_number(value, unit), unit);
    match plus_minus {
        Some(half) => format!("{one} ± {}", with_unit(&exact_number(half, unit), unit)),
        None => one,
    }
}

/// A number with its unit's symbol; a space between, but for the degree.
pub(super) fn with_unit(number: &str, unit: Unit) -> String {
    match unit {
        Unit::One => number.to_owned(),
        Unit::Degree => format!("{number}°"),
        _ => format!("{number} {}", unit.symbol()),
    }
}

/// Digits after the point that a reader still takes in.
const MOST_PLACES: u32 = 12;
/// Digits on a side of a fraction line that are read back.
const MOST_FRACTION_DIGITS: usize = 12;
/// The finest binary fraction of an inch on a rule.
const FINEST_RULE: u32 = 64;

fn exact_number(value: &Exact, unit: Unit) -> String {
    let on_a_rule = (num_bigint::BigInt::from(FINEST_RULE) % value.denominator()).is_zero();
    match value.exact_places() {
        Some(places)
            if places <= MOST_PLACES
                && unit != Unit::Foot
                && !(unit == Unit::Inch && on_a_rule) =>
        {
            format_exact(value, places)
        }
        places => {
            let mixed = mixed_number(value);
            let pieces = mixed.split(|c: char| !c.is_ascii_digit());
            // A long decimal reads back where a fraction of so many digits does not.
            places
                .filter(|_| {
                    pieces
                        .map(str::len)
                        .any(|digits| digits > MOST_FRACTION_DIGITS)
                })
                .map_or(mixed, |places| format_exact(value, places))
        }
    }
}

/// A value and its ± to the same place, the ± to one or two significant digits.
///
/// Two digits where the first three digits of the ± are 100 to 354, one from there on (Particle Data Group, Review of Particle
/// Physics, introduction, "rounding", from memory). Zero ± leaves the value to six significant digits.
pub(crate) fn rounded_pair(value: &Exact, half: &Exact) -> (String, String) {
    let step =
        plus_minus_step(half).unwrap_or_else(|| value.decade().map_or(0, |decade| decade - 5));
    (to_place(value, step), to_place(half, step))
}

/// The place, as a power of ten, that a ± is rounded to; `None` for zero.
fn plus_minus_step(half: &Exact) -> Option<i32> {
    let decade = half.decade()?;
    let leading = half * Exact::power_of_ten(2 - decade);
    Some(if leading < Exact::from(355) {
        decade - 1
    } else {
        decade
    })
}

/// A value to a power of ten.
pub(super) fn to_place(value: &Exact, place: i32) -> String {
    if place >= 0 {
        format_exact(&round_to_step(value, &Exact::power_of_ten(place)), 0)
    } else {
        format_exact(value, place.unsigned_abs())
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn exact(text: &str) -> Exact {
        Exact::parse(text).unwrap()
    }

    /// Binary floats print 3.55 to one place as 3.5, since the float lies below; the exact value ties and goes to the even 3.6.
    #[test]
    fn decimals_round_half_to_even() {
        let table = [
            ("3.55", 1, "3.6"),
            ("3.45", 1, "3.4"),
            ("2.5", 0, "2"),
            ("-0.04", 1, "0.0"),
            ("-1.25", 1, "-1.2"),
            ("7", 2, "7.00"),
        ];
        for (value, places, text) in table {
            assert_eq!(format_exact(&exact(value), places), text);
        }
    }

    #[test]
    fn inches_come_as_on_a_rule() {
        assert_eq!(format_fraction_inches(&exact("1.75"), 16), "1 3/4 in");
        assert_eq!(format_fraction_inches(&exact("-0.5"), 16), "-1/2 in");
        assert_eq!(format_fraction_inches(&exact("0.99"), 16), "1 in");
        assert_eq!(format_feet_inches(&exact("74.5"), 16), "6 ft 2 1/2 in");
        assert_eq!(format_feet_inches(&exact("143.99"), 16), "12 ft");
        assert_eq!(format_feet_inches(&exact("-63.5"), 16), "-5 ft 3 1/2 in");
        assert_eq!(format_feet_inches(&exact("0"), 16), "0 in");
    }

    /// Examples of the Particle Data Group's rounding rule (Review of Particle Physics, introduction; from memory).
    #[test]
    fn a_value_is_printed_to_the_place_of_its_plus_minus() {
        let pair = |value, half| rounded_pair(&exact(value), &exact(half));
        assert_eq!(pair("0.827", "0.119"), ("0.83".into(), "0.12".into()));
        assert_eq!(pair("0.827", "0.367"), ("0.8".into(), "0.4".into()));
        assert_eq!(pair("14827", "967"), ("14800".into(), "1000".into()));
        assert_eq!(pair("1234.5678", "0"), ("1234.57".into(), "0.00".into()));
    }
}
