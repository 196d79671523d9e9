//! How large a pad must be for the ground to bear its load.

use crate::leaf::leaf;

leaf! {
    "machine.pad_area_needed" computes pad_area_needed;
    inputs {
        load: number ["kN"] 0.0, 100000.0;
        ground_bears: number ["kPa"] 1.0, 100000.0;
    }
    outputs |area| { area ["m²"] = area }
    source { "Load over pressure", 0, "", Definition }
}

/// The area a pad must have, in square metres.
///
/// - `load` \[kN\]: what this support carries at worst. `ground_bears` \[kPa\]: see [`super::ground_bears`].
///
/// Formula: load / pressure.
///
/// Range: a stiff pad that lies full on the ground.
///
/// Source: definition.
pub fn pad_area_needed(load: f64, ground_bears: f64) -> f64 {
    load / ground_bears
}
