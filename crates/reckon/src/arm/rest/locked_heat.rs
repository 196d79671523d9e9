//! How heat raises the pressure of oil that is shut in on both ports.

use super::parked::heat_pressure;
use crate::leaf::leaf;

leaf! {
    "arm.locked_heat" computes locked_heat;
    inputs {
        warming: number ["K"] -200.0, 200.0;
        expansion: number ["1/K"] 0.0, 0.01;
        stiffness: number ["MPa"] 1.0, 10000.0;
    }
    outputs |bars| { rise ["bar"] = bars }
    source { "M. G. Rabie, Fluid Power Engineering", 2009, "section 2.2.4, p. 37: expansion; stiffness from memory", Read }
}

/// The rise of pressure in oil that is shut in on both ports, in bar.
///
/// - `warming` \[K\]: of the oil. `expansion` \[1/K\]: mineral oil 0.0007. `stiffness` \[MPa\]: bulk modulus, about 1600.
///
/// Formula: expansion x stiffness x warming: about 11 bar for each kelvin.
///
/// Range: walls taken as stiff, no air. A ram that holds a load with its other side free does not do this: it lifts the load.
///
/// Source: Rabie 2009, section 2.2.4, expansion, read; stiffness from memory.
pub fn locked_heat(warming: f64, expansion: f64, stiffness: f64) -> f64 {
    heat_pressure(warming, expansion, stiffness) * 10.0
}
