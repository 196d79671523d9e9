//! What an offset load, as of a bent rod or a worn pin, does to a column.

use core::f64::consts::FRAC_PI_2;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.bent_column" tries bent_column;
    inputs {
        load: number ["kN"] 0.0, 1e6;
        critical: number ["kN"] 0.001, 1e6;
        offset: number ["mm"] 0.0, 1000.0;
        outer_fibre: number ["mm"] 0.1, 2000.0;
        gyration: number ["mm"] 0.1, 2000.0;
        area: number ["mm²"] 0.01, 1e8;
    }
    outputs |r| { bends ["mm"] = r.bends, stress ["MPa"] = r.stress }
    source { "F. P. Beer and others, Mechanics of Materials, sample problem 10.2: secant formula", 0, "part b", Read }
}

/// A column under a load beside its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentColumn {
    /// How far its middle goes aside, mm.
    pub bends: f64,
    /// The highest stress, MPa.
    pub stress: f64,
}

/// How far a column bends and how high its stress goes under an offset load.
///
/// - `load` P, `critical` \[kN\]: the load, and the one at which it would buckle. `offset` e \[mm\] of the load from the middle.
/// - `outer_fibre` c \[mm\]: middle to outermost steel; `gyration` r \[mm\]; `area` \[mm²\].
///
/// Formula: with sec = 1 / cos(pi/2 sqrt(P / critical)): bends e (sec - 1); stress P / A (1 + e c / r^2 sec).
///
/// Range: loads under the critical one, steel that does not yield.
///
/// # Errors
/// "buckles" where the load is not under the critical one.
///
/// Source: Beer and others, sample problem 10.2, read.
pub fn bent_column(
    load: f64,
    critical: f64,
    offset: f64,
    outer_fibre: f64,
    gyration: f64,
    area: f64,
) -> Result<BentColumn, Refusal> {
    if load >= critical {
        return Err(Refusal::Contradiction { what: "buckles" });
    }
    let secant = 1.0 / libm::cos(FRAC_PI_2 * (load / critical).sqrt());
    let grows = offset * outer_fibre / (gyration * gyration) * secant;
    Ok(BentColumn {
        bends: offset * (secant - 1.0),
        stress: load * 1000.0 / area * (1.0 + grows),
    })
}
