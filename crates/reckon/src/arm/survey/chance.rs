//! How likely a sum of squares as large as this is, if only the tape's own errors are in it.

use crate::normal::normal_tail;

/// Half the width of a 95 % interval, in standard uncertainties.
///
/// The normal one, and not Student's: the tape's uncertainty is given beforehand and not estimated from the few residuals.
/// 97.5 % point of the standard normal distribution (Abramowitz and Stegun 1964, table 26.1, from memory).
pub const Z95: f64 = 1.959_963_985;

/// A test beyond this does not come from the tape's own errors: one time in a thousand (two-sided).
///
/// Source: Baarda, A testing procedure for use in geodetic networks, 1968: level 0.001, from memory.
pub const CRITICAL: f64 = 3.290_526_731;

/// As unlikely as a single test beyond [`CRITICAL`].
pub(super) const UNLIKELY: f64 = 0.001;

/// The share of a chi-square distribution of so many degrees of freedom above `value`; 1 where there are none.
///
/// Formula: Q(1/2, x) = erfc(sqrt x), Q(1, x) = exp(-x), Q(a + 1, x) = Q(a, x) + x^a e^-x / Gamma(a + 1), x half the
/// value: Abramowitz and Stegun 1964, 26.4.4 and 26.4.5, from memory.
pub fn chi_square_tail(value: f64, degrees: usize) -> f64 {
    if degrees == 0 || value.is_nan() || value <= 0.0 {
        return 1.0;
    }
    let half = 0.5 * value;
    let (mut share, mut a) = if degrees % 2 == 1 {
        (2.0 * normal_tail(value.sqrt()), 0.5)
    } else {
        (libm::exp(-half), 1.0)
    };
    while a + 0.5 < 0.5 * degrees as f64 {
        share += libm::exp(a * libm::log(half) - half - libm::lgamma(a + 1.0));
        a += 1.0;
    }
    share.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Percentage points of the usual table (Abramowitz and Stegun 1964, table 26.8, from memory).
    #[test]
    fn points_of_the_table() {
        for (degrees, share, point) in [
            (1, 0.05, 3.841_46),
            (2, 0.05, 5.991_46),
            (5, 0.05, 11.070_5),
            (10, 0.05, 18.307_0),
            (1, 0.001, 10.828),
            (9, 0.001, 27.877),
            (20, 0.001, 45.315),
        ] {
            let found = chi_square_tail(point, degrees);
            assert!((found / share - 1.0).abs() < 5e-4, "{degrees}: {found}");
        }
        assert_eq!(chi_square_tail(5.0, 0), 1.0);
        assert_eq!(chi_square_tail(-1.0, 3), 1.0);
    }
}
