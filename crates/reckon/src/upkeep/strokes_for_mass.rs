//! How many strokes of this gun give a wanted mass of grease.

use crate::leaf::leaf;

leaf! {
    "upkeep.strokes_for_mass" computes strokes_for_mass;
    inputs {
        mass: number ["g"] 0.0, 10000.0;
        grams_per_stroke: number ["g"] 0.05, 50.0;
    }
    outputs |r| { strokes ["1"] = r.strokes, whole_strokes ["1"] = r.whole_strokes }
    source { "Mass over dose, by definition; a gun gives 1 to 3 g a stroke and must be weighed", 0, "", Definition }
}

/// Strokes of a gun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strokes {
    /// Strokes, with their part.
    pub strokes: f64,
    /// Whole strokes: the nearest, but at least one where any grease is wanted.
    pub whole_strokes: f64,
}

/// Strokes that give a mass of grease.
///
/// - `mass` \[g\]: the grease wanted.
/// - `grams_per_stroke` \[g\]: what this gun gives, weighed.
///
/// Formula: strokes = mass / grams per stroke. The nearest whole stroke, because too much is a fault as well as too
/// little; halves go up.
///
/// Range: a gun of 0.05 to 50 g a stroke.
///
/// Source: definition.
pub fn strokes_for_mass(mass: f64, grams_per_stroke: f64) -> Strokes {
    let strokes = mass / grams_per_stroke;
    let least = if mass > 0.0 { 1.0 } else { 0.0 };
    Strokes {
        strokes,
        whole_strokes: strokes.round().max(least),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_pumps_of_either_gun() {
        assert_eq!(strokes_for_mass(5.12, 1.28).whole_strokes, 4.0);
        assert_eq!(strokes_for_mass(3.44, 0.86).whole_strokes, 4.0);
    }

    #[test]
    fn a_little_is_one_stroke_and_nothing_is_none() {
        assert_eq!(strokes_for_mass(0.1, 1.28).whole_strokes, 1.0);
        assert_eq!(strokes_for_mass(0.0, 1.28).whole_strokes, 0.0);
    }
}
