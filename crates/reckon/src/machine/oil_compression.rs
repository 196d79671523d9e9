//! How much oil shrinks under pressure.

use crate::leaf::leaf;

leaf! {
    "machine.oil_compression" computes oil_compression;
    inputs {
        volume: number ["L"] 0.0, 100000.0;
        rise: number ["bar"] -2000.0, 2000.0;
        stiffness: number ["MPa"] 1.0, 10000.0;
    }
    outputs |r| { less ["L"] = r.less, share ["1"] = r.share }
    source { "A. Esposito, Fluid Power with Applications", 0, "ex. 2-11, p. 57: dV = - V dp / K", Read }
}

/// How much oil shrinks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilCompression {
    /// What it loses, L.
    pub less: f64,
    /// The same as a share of the whole.
    pub share: f64,
}

/// What a volume of oil loses when its pressure rises.
///
/// - `volume` \[L\]; `rise` \[bar\] of the pressure; `stiffness` \[MPa\]: bulk modulus, about 1600 to 1800 without air.
///
/// Formula: V dp / K.
///
/// Range: oil without free air; half a percent of air halves the stiffness at 50 bar.
///
/// Source: Esposito, ex. 2-11, read.
pub fn oil_compression(volume: f64, rise: f64, stiffness: f64) -> OilCompression {
    // Ten bar are a megapascal.
    let share = rise / 10.0 / stiffness;
    OilCompression {
        less: volume * share,
        share,
    }
}
