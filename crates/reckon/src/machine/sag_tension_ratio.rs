//! How much tighter a track pulls when its sag changes.

use crate::leaf::leaf;

leaf! {
    "machine.sag_tension_ratio" computes sag_tension_ratio;
    inputs {
        sag_before: number ["mm"] 0.1, 10000.0;
        sag_after: number ["mm"] 0.1, 10000.0;
    }
    outputs |ratio| { ratio ["1"] = ratio }
    source { "Statics of a hanging chain, flat parabola", 0, "T is inverse to the sag", Definition }
}

/// The pull after over the pull before.
///
/// - `sag_before`, `sag_after` \[mm\]: sag of the same span measured the same way.
///
/// Formula: T = w L^2 / (8 s), so the ratio is sag before / sag after: half the sag, twice the pull.
///
/// Range: flat sags, up to an eighth of the span.
///
/// Source: statics, definition.
pub fn sag_tension_ratio(sag_before: f64, sag_after: f64) -> f64 {
    sag_before / sag_after
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_sag_twice_the_pull() {
        assert_eq!(sag_tension_ratio(25.4, 12.7), 2.0);
    }
}
