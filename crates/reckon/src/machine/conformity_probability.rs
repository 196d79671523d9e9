//! How likely it is that what was measured lies within its limits.

use crate::leaf::leaf;
use crate::normal::{normal_cumulative, normal_tail};
use crate::refusal::Refusal;

leaf! {
    "machine.conformity_probability" tries conformity_probability;
    inputs {
        measured: number ["any"] -1e9, 1e9;
        standard_uncertainty: number ["any"] 1e-12, 1e9;
        low: optional ["any"] -1e9, 1e9;
        high: optional ["any"] -1e9, 1e9;
    }
    outputs |share| { probability ["1"] = share }
    source { "JCGM 106:2012, The role of measurement uncertainty in conformity assessment", 2012, "7.2 to 7.4", Memory }
}

/// The probability that the true value lies within the limits.
///
/// - `measured` y, `standard_uncertainty` u, `low` and `high` limit: all in one and the same unit.
///
/// Formula: P((high - y) / u) - P((low - y) / u), P the share of the standard normal distribution below; a limit
/// that is not given falls away. Normal, with nothing known beforehand.
///
/// Range: u above nothing.
///
/// # Errors
/// `NotKnown` where neither limit is given; "limits-crossed" where the low one lies above the high one.
///
/// Source: JCGM 106:2012, 7.2 to 7.4, from memory.
pub fn conformity_probability(
    measured: f64,
    standard_uncertainty: f64,
    low: Option<f64>,
    high: Option<f64>,
) -> Result<f64, Refusal> {
    let z = |limit: f64| (limit - measured) / standard_uncertainty;
    match (low, high) {
        (None, None) => Err(Refusal::NotKnown { input: "high" }),
        (Some(low), Some(high)) if low > high => Err(Refusal::Contradiction {
            what: "limits-crossed",
        }),
        (Some(low), None) => Ok(normal_tail(z(low))),
        (None, Some(high)) => Ok(normal_cumulative(z(high))),
        (Some(low), Some(high)) => {
            Ok((normal_cumulative(z(high)) - normal_cumulative(z(low))).max(0.0))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // JCGM 106:2012, 7.3.3 and 7.4, from memory.
    #[test]
    fn examples_of_the_guide() {
        let close =
            |got: Result<f64, Refusal>, printed: f64| (got.unwrap() - printed).abs() < 0.005;
        assert!(close(
            conformity_probability(-5.47, 0.05, None, Some(-5.40)),
            0.92
        ));
        assert!(close(
            conformity_probability(509.7, 8.6, Some(490.0), None),
            0.99
        ));
        assert!(close(
            conformity_probability(13.6, 1.8, Some(12.5), Some(16.3)),
            0.66
        ));
    }

    #[test]
    fn without_a_limit_nothing_conforms() {
        assert!(conformity_probability(1.0, 1.0, None, None).is_err());
        assert!(conformity_probability(1.0, 1.0, Some(2.0), Some(1.0)).is_err());
    }
}
