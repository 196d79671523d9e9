//! The pressure that a load on a ram shuts in.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.ram_pressure" tries ram_pressure;
    inputs {
        count: whole ["1"] 1.0, 4.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
        thrust: number ["kN"] -100000.0, 100000.0;
    }
    outputs |r| { pressure ["bar"] = r.pressure, on_rod_side ["1"] = r.on_rod_side, packing_gone ["bar"] = r.packing_gone }
    source { "J. Sullivan, Fluid Power: Theory and Applications", 0, "ex. 8.6, p. 186: force over the ring's area", Read }
}

/// What a load shuts in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamPressure {
    /// On the side that is squeezed, the other side at nothing, bar.
    pub pressure: f64,
    /// True where it is the side with the rod.
    pub on_rod_side: bool,
    /// On both sides, where the load presses, both ports are shut and oil passes the packing, bar; nothing where it pulls.
    pub packing_gone: f64,
}

/// The pressure that this thrust needs, the other side at nothing.
///
/// - `count`: equal rams side by side. `bore`, `rod` \[mm\]: diameters.
/// - `thrust` \[kN\]: positive pushes the pins apart.
///
/// Formula: thrust / A where it pushes, - thrust / (A - a) where it pulls. Where a pressed ram is shut on both ports and its
/// packing lets oil by, both sides come to thrust / a: the rod alone carries, and the ram hardly sinks. A = pi/4 bore^2,
/// a = pi/4 rod^2, times the count.
///
/// Range: a gauge may show more, for both sides may be shut in with pressures that cancel.
///
/// # Errors
/// "rod-fills-bore" where the rod is as thick as the bore or there is none.
///
/// Source: Sullivan, ex. 8.6, read; both ports shut: statics, definition.
pub fn ram_pressure(count: u32, bore: f64, rod: f64, thrust: f64) -> Result<RamPressure, Refusal> {
    if rod >= bore || rod <= 0.0 {
        return Err(Refusal::Contradiction {
            what: "rod-fills-bore",
        });
    }
    let full = f64::from(count) * PI / 4.0 * bore * bore;
    let behind = f64::from(count) * PI / 4.0 * rod * rod;
    // A kilonewton on a square millimetre is ten thousand bar.
    let tenth = 10_000.0 * thrust;
    Ok(RamPressure {
        pressure: if thrust < 0.0 {
            tenth / (behind - full)
        } else {
            tenth / full
        },
        on_rod_side: thrust < 0.0,
        packing_gone: tenth.max(0.0) / behind,
    })
}
