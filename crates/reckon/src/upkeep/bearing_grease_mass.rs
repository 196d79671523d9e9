//! How much grease a rolling bearing takes when it is greased again.

use crate::leaf::leaf;

leaf! {
    "upkeep.bearing_grease_mass" computes bearing_grease_mass;
    inputs {
        outer_diameter: number ["mm"] 5.0, 2000.0;
        width: number ["mm"] 1.0, 1000.0;
    }
    outputs |grams| { mass ["g"] = grams }
    source { "Relubrication quantity of rolling bearings, two lubrication journals", 2020, "G = 0.005 D B", Read }
}

/// Grease for one relubrication of a rolling bearing, in grams.
///
/// - `outer_diameter` D \[mm\], `width` B \[mm\] of the bearing.
///
/// Formula: G = 0.005 D B, in grams with millimetres (0.114 D B ounces with inches is the same within 1 %).
///
/// Range: rolling bearings only. A plain pin joint is pumped until fresh grease begins to show; a slewing ring has
/// its own rule.
///
/// Source: two lubrication journals, read. One web page prints 0.0005: a misprint.
pub fn bearing_grease_mass(outer_diameter: f64, width: f64) -> f64 {
    0.005 * outer_diameter * width
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thirty_grams() {
        assert!((bearing_grease_mass(150.0, 40.0) - 30.0).abs() < 1e-9);
    }
}
