//! How much oil a ram takes, out and in.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.ram_oil" tries ram_oil;
    inputs {
        count: whole ["1"] 1.0, 8.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
        stroke: number ["mm"] 0.0, 20000.0;
    }
    outputs |r| { full_side ["L"] = r.full_side, rod_side ["L"] = r.rod_side, from_tank ["L"] = r.from_tank }
    source { "J. Sullivan, Fluid Power: Theory and Applications", 0, "ex. 4.1, p. 64", Read }
}

/// The oil of a stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamOil {
    /// Into the full side for a whole stroke out, L.
    pub full_side: f64,
    /// Into the rod's side for a whole stroke in, L.
    pub rod_side: f64,
    /// What the tank is short of with the ram out: the rod's volume, L.
    pub from_tank: f64,
}

/// How much oil rams take for a whole stroke.
///
/// - `count`: equal rams. `bore`, `rod`, `stroke` \[mm\].
///
/// Formula: area x stroke; the difference is the rod's volume.
///
/// # Errors
/// "rod-fills-bore" where the rod is as thick as the bore.
///
/// Source: Sullivan, ex. 4.1, read.
pub fn ram_oil(count: u32, bore: f64, rod: f64, stroke: f64) -> Result<RamOil, Refusal> {
    if rod >= bore {
        return Err(Refusal::Contradiction {
            what: "rod-fills-bore",
        });
    }
    let volume = |diameter: f64| f64::from(count) * PI / 4.0 * diameter * diameter * stroke / 1e6;
    let (full_side, from_tank) = (volume(bore), volume(rod));
    Ok(RamOil {
        full_side,
        rod_side: full_side - from_tank,
        from_tank,
    })
}
