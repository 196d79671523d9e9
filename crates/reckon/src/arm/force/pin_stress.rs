//! What a load does to a pin: shear, and pressure in its bush.

use super::pins::{pin_bearing, pin_shear};
use crate::leaf::leaf;

leaf! {
    "arm.pin_stress" computes pin_stress;
    inputs {
        load: number ["kN"] 0.0, 100000.0;
        diameter: number ["mm"] 1.0, 500.0;
        length: number ["mm"] 1.0, 2000.0;
        both_sides: yes_no ["1"] 0.0, 1.0;
    }
    outputs |r| { shear ["MPa"] = r.shear, bearing ["MPa"] = r.bearing }
    source { "Force over the area that is cut, force over diameter times length", 0, "", Definition }
}

/// Stress in a pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinStress {
    /// Shear, MPa.
    pub shear: f64,
    /// Pressure between pin and bush, MPa.
    pub bearing: f64,
}

/// Shear in a pin and pressure in its bush.
///
/// - `load` \[kN\]; `diameter` \[mm\]; `length` \[mm\]: of the bush it bears in.
/// - `both_sides`: the pin is held on both sides of the bush, so that it is cut in two planes; else in one.
///
/// Formula: F / (planes x pi/4 d^2); F / (d l).
///
/// Range: a pin that fits. Bending of a loose or long one is not in it.
///
/// Source: definition.
pub fn pin_stress(load: f64, diameter: f64, length: f64, both_sides: bool) -> PinStress {
    let planes = if both_sides { 2.0 } else { 1.0 };
    // Newtons on square millimetres are megapascals.
    let newtons = load * 1000.0;
    PinStress {
        shear: pin_shear(newtons, diameter, planes),
        bearing: pin_bearing(newtons, diameter, length),
    }
}
