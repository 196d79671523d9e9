//! The normal distribution: areas under its curve.

use core::f64::consts::SQRT_2;

/// The share of a standard normal distribution below `z`; exact to about 15 digits, also far out on the low side.
///
/// Formula: erfc(-z / sqrt 2) / 2 (Abramowitz and Stegun 1964, 7.1.22 and 26.2.29, from memory).
pub fn normal_cumulative(z: f64) -> f64 {
    0.5 * libm::erfc(-z / SQRT_2)
}

/// The share above `z`: small shares keep their digits, unlike one minus the share below.
pub fn normal_tail(z: f64) -> f64 {
    normal_cumulative(-z)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Abramowitz and Stegun 1964, table 26.1, from memory.
    #[test]
    fn values_of_the_handbook_table() {
        for (z, share) in [
            (0.0, 0.5),
            (1.0, 0.841_344_746),
            (1.96, 0.975_002_105),
            (-1.0, 0.158_655_254),
        ] {
            assert!((normal_cumulative(z) - share).abs() < 5e-10, "{z}");
        }
        assert!((normal_tail(2.0) - 0.022_750_132).abs() < 5e-10);
    }

    #[test]
    fn far_out_it_is_small_but_not_nothing() {
        // 1 - P(6) = 9.8659e-10, table 26.2 of the same, from memory.
        assert!((normal_tail(6.0) / 9.865_9e-10 - 1.0).abs() < 1e-4);
    }
}
