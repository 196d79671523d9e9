//! Counting wholes in a quotient that binary fractions make a hair too small.

/// So much of a whole is noise of the arithmetic: 2.1 / 0.7 is 2.9999999999999996.
const NOISE: f64 = 1e-9;

/// How many wholes there are in a quotient; what is a billionth short of a whole counts as one.
pub(crate) fn wholes_in(quotient: f64) -> f64 {
    (quotient + NOISE).floor()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hair_short_is_whole_and_a_thousandth_short_is_not() {
        assert_eq!(wholes_in(2.1 / 0.7), 3.0);
        assert_eq!(wholes_in(2.999), 2.0);
        assert_eq!(wholes_in(3.0), 3.0);
    }
}
