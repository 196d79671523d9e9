//! The power that goes into heat while oil runs over a relief valve.

use crate::leaf::leaf;

leaf! {
    "machine.relief_heat" computes relief_heat;
    inputs {
        pressure: number ["bar"] 0.0, 2000.0;
        flow: number ["L/min"] 0.0, 100000.0;
    }
    outputs |kilowatts| { power ["kW"] = kilowatts }
    source { "A. Esposito, Fluid Power with Applications", 0, "ex. 8-2, p. 299: pressure times flow", Read }
}

/// The power lost over a relief valve, in kilowatts.
///
/// - `pressure` \[bar\], `flow` \[L/min\]: of what runs over it.
///
/// Formula: p Q / 600.
///
/// Range: all of it turns to heat: holding a ram on its stop does nothing else.
///
/// Source: Esposito, ex. 8-2, read.
pub fn relief_heat(pressure: f64, flow: f64) -> f64 {
    pressure * flow / 600.0
}
