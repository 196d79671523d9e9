//! How fast a ram moves at a flow of oil.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.ram_speed" tries ram_speed;
    inputs {
        flow: number ["L/min"] 0.0, 100000.0;
        count: whole ["1"] 1.0, 4.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
    }
    outputs |r| { outwards ["m/s"] = r.outwards, inwards ["m/s"] = r.inwards }
    source { "A. Esposito, Fluid Power with Applications", 0, "ex. 6-1, p. 219: flow over area", Read }
}

/// The speed of a ram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamSpeed {
    /// Coming out, m/s.
    pub outwards: f64,
    /// Going in, m/s.
    pub inwards: f64,
}

/// How fast the rams of one joint move.
///
/// - `flow` \[L/min\]: all of it to these rams. `count`: equal rams side by side. `bore`, `rod` \[mm\].
///
/// Formula: flow / area: the piston's going out, the ring's going in.
///
/// Range: nothing leaks, nothing else is moved.
///
/// # Errors
/// "rod-fills-bore" where the rod is as thick as the bore.
///
/// Source: Esposito, ex. 6-1, read.
pub fn ram_speed(flow: f64, count: u32, bore: f64, rod: f64) -> Result<RamSpeed, Refusal> {
    if rod >= bore {
        return Err(Refusal::Contradiction {
            what: "rod-fills-bore",
        });
    }
    let disc = |diameter: f64| f64::from(count) * PI / 4.0 * diameter * diameter;
    // A litre a minute on a square millimetre is a thousand sixtieths of a metre a second.
    let speed = |area: f64| flow * 1000.0 / 60.0 / area;
    Ok(RamSpeed {
        outwards: speed(disc(bore)),
        inwards: speed(disc(bore) - disc(rod)),
    })
}
