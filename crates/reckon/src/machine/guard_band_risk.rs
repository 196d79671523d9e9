//! What risk is left at the edge of a guard band.

use crate::leaf::leaf;
use crate::normal::normal_tail;

leaf! {
    "machine.guard_band_risk" computes guard_band_risk;
    inputs {
        guard_band: number ["any"] 0.0, 1e9;
        standard_uncertainty: number ["any"] 1e-12, 1e9;
    }
    outputs |share| { false_accept ["1"] = share }
    source { "ILAC-G8, Guidelines on decision rules and statements of conformity", 2019, "p. 8, guard band w = TL - AL", Read }
}

/// The probability that a value read just at the acceptance limit lies beyond the true limit.
///
/// - `guard_band` w: distance from the limit to where acceptance ends, inwards.
/// - `standard_uncertainty` u: of the measurement, in the same unit.
///
/// Formula: 1 - P(w / u), P the share of the standard normal distribution below. It is the worst case: a reading
/// further inside has less.
///
/// Range: w from nothing (simple acceptance, one in two) up; u above nothing.
///
/// Source: guard band after ILAC-G8:09/2019, read in a copy; the share follows from JCGM 106:2012, from memory.
pub fn guard_band_risk(guard_band: f64, standard_uncertainty: f64) -> f64 {
    normal_tail(guard_band / standard_uncertainty)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_two_bands() {
        assert!((guard_band_risk(2.0, 1.0) - 0.023).abs() < 0.0005);
        assert!((guard_band_risk(1.65, 1.0) - 0.049).abs() < 0.0006);
        assert_eq!(guard_band_risk(0.0, 1.0), 0.5);
    }
}
