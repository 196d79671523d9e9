//! What a ram pushes and pulls with at a pressure.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.ram_force" tries ram_force;
    inputs {
        count: whole ["1"] 1.0, 4.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
        pressure: number ["bar"] 0.0, 1000.0;
        back_pressure: number ["bar"] 0.0, 1000.0;
    }
    outputs |r| { push ["kN"] = r.push, pull ["kN"] = r.pull }
    source { "A. Esposito, Fluid Power with Applications", 0, "ex. 6-1, p. 219: force is pressure times area", Read }
}

/// What a ram pushes and pulls with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamForce {
    /// Pushing its pins apart, kN.
    pub push: f64,
    /// Pulling them together, kN.
    pub pull: f64,
}

/// The force of the rams of one joint at this pressure.
///
/// - `count`: equal rams side by side. `bore`, `rod` \[mm\]: diameters.
/// - `pressure` \[bar\]: on the side that is fed. `back_pressure` \[bar\]: on the side that lets oil go.
///
/// Formula: push = p A - p_back (A - a), pull = p (A - a) - p_back A with A = pi/4 bore^2, a = pi/4 rod^2, times the count.
///
/// Range: no friction. At a stop the steel carries what no oil does.
///
/// # Errors
/// "rod-fills-bore" where the rod is as thick as the bore.
///
/// Source: Esposito, ex. 6-1, read.
pub fn ram_force(
    count: u32,
    bore: f64,
    rod: f64,
    pressure: f64,
    back_pressure: f64,
) -> Result<RamForce, Refusal> {
    if rod >= bore {
        return Err(Refusal::Contradiction {
            what: "rod-fills-bore",
        });
    }
    let full = f64::from(count) * PI / 4.0 * bore * bore;
    let ring = full - f64::from(count) * PI / 4.0 * rod * rod;
    // A bar on a square millimetre is a tenth of a newton.
    Ok(RamForce {
        push: (pressure * full - back_pressure * ring) / 10_000.0,
        pull: (pressure * ring - back_pressure * full) / 10_000.0,
    })
}
