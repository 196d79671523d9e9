//! The rated load of a lifting machine: the lower of two limits, each with its factor.

use crate::leaf::leaf;

leaf! {
    "arm.rated_lift" computes rated_lift;
    inputs {
        hydraulic: number ["kN"] 0.0, 100000.0;
        tipping: number ["kN"] 0.0, 100000.0;
    }
    outputs |r| { rated ["kN"] = r.rated, by_tipping ["1"] = r.by_tipping }
    source { "ISO 10567: 75 % of the load that tips, 87 % of what the rams lift", 2007, "as two operator's manuals quote it", Read }
}

/// A rated load and what limits it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RatedLift {
    /// In the unit of the two limits.
    pub rated: f64,
    /// True where tipping limits it, false where the rams do.
    pub by_tipping: bool,
}

/// The rated load: the lower of 87 % of what the rams lift and 75 % of what tips the machine.
///
/// - `hydraulic`, `tipping` \[kN\]: loads at the bucket's pin; any other unit will do, the same for both.
///
/// Range: only for a machine whose book records a lifting point, load holding and the authority to lift.
///
/// Source: ISO 10567:2007, as two operator's manuals quote it, read.
pub fn rated_lift(hydraulic: f64, tipping: f64) -> RatedLift {
    let (by_rams, by_tipping) = (0.87 * hydraulic, 0.75 * tipping);
    RatedLift {
        rated: by_rams.min(by_tipping),
        by_tipping: by_tipping < by_rams,
    }
}
