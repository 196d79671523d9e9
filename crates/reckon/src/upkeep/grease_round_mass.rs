//! How much grease one round takes.

use crate::leaf::leaf;

leaf! {
    "upkeep.grease_round_mass" computes grease_round_mass;
    inputs {
        fittings: whole ["1"] 0.0, 1000.0;
        strokes: number ["1"] 0.0, 200.0;
        grams_per_stroke: number ["g"] 0.05, 50.0;
    }
    outputs |grams| { mass ["g"] = grams }
    source { "Count times dose, by definition; a gun gives 1 to 3 g a stroke and must be weighed", 0, "", Definition }
}

/// Grease for one round, in grams.
///
/// - `fittings`: how many fittings are greased.
/// - `strokes`: strokes of the gun for each.
/// - `grams_per_stroke` \[g\]: what this gun gives, weighed.
///
/// Formula: mass = fittings x strokes x grams per stroke.
///
/// Range: a gun of 0.05 to 50 g a stroke.
///
/// Source: definition.
pub fn grease_round_mass(fittings: u32, strokes: f64, grams_per_stroke: f64) -> f64 {
    f64::from(fittings) * strokes * grams_per_stroke
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twenty_three_fittings() {
        assert!((grease_round_mass(23, 2.0, 1.28) - 58.88).abs() < 1e-9);
    }
}
