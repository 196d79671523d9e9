//! The pull in a track or belt from its weight and its sag.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.sag_tension" tries sag_tension;
    inputs {
        weight_per_length: number ["N/m"] 0.0, 1e6;
        span: number ["m"] 0.01, 1000.0;
        sag: number ["m"] 0.0001, 125.0;
    }
    outputs |newtons| { tension ["N"] = newtons }
    source { "Statics of a hanging chain, flat parabola", 0, "T = w L^2 / (8 s)", Definition }
}

/// The level pull in a chain that hangs between two points of the same height, in newtons.
///
/// - `weight_per_length` w \[N/m\], `span` L \[m\] between the points, `sag` s \[m\] in the middle, downwards.
///
/// Formula: T = w L^2 / (8 s), the parabola for the flat catenary.
///
/// Range: sag up to an eighth of the span; there the true catenary pulls about 2 % more.
///
/// # Errors
/// `OutOfRange` where the sag is more than an eighth of the span.
///
/// Source: statics, definition (moment about the middle of one half: T s = w L/2 x L/4).
pub fn sag_tension(weight_per_length: f64, span: f64, sag: f64) -> Result<f64, Refusal> {
    if sag > span / 8.0 {
        return Err(Refusal::OutOfRange {
            input: "sag",
            value: sag,
            low: 0.0,
            high: span / 8.0,
        });
    }
    Ok(weight_per_length * span * span / (8.0 * sag))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn agrees_with_the_catenary_within_the_stated_two_percent() {
        // The catenary solved here by halving: s = a (cosh(L / 2a) - 1), T = w a.
        let (span, sag) = (8.0, 1.0);
        let (mut low, mut high) = (1.0_f64, 1e4_f64);
        for _ in 0..200 {
            let a = (low + high) / 2.0;
            if a * (libm::cosh(span / (2.0 * a)) - 1.0) > sag {
                low = a
            } else {
                high = a
            }
        }
        let parabola = sag_tension(1.0, span, sag).unwrap();
        assert!(low > parabola && low < 1.025 * parabola, "{low} {parabola}");
    }

    #[test]
    fn a_deep_sag_is_refused() {
        assert!(sag_tension(100.0, 1.0, 0.2).is_err());
    }
}
