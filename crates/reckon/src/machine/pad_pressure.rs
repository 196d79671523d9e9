//! The pressure of a pad, a foot or a track on the ground.

use crate::leaf::leaf;

leaf! {
    "machine.pad_pressure" computes pad_pressure;
    inputs {
        load: number ["kN"] 0.0, 100000.0;
        area: number ["m²"] 0.0001, 1000.0;
    }
    outputs |kilopascals| { pressure ["kPa"] = kilopascals }
    source { "Load over area", 0, "", Definition }
}

/// The pressure under a pad, in kilopascals.
///
/// - `load` \[kN\]: what this support carries. `area` \[m²\]: of the pad on the ground.
///
/// Formula: load / area.
///
/// Range: a stiff pad that lies full on the ground. Of a mat often less than half really carries.
///
/// Source: definition.
pub fn pad_pressure(load: f64, area: f64) -> f64 {
    load / area
}
