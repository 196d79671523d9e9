//! Whether a ram sinks by its packing or by its valve: the lever held against the drop tells.

use crate::leaf::leaf;

leaf! {
    "machine.packing_or_valve" computes packing_or_valve;
    inputs {
        neutral_drop: number ["mm"] 0.0, 10000.0;
        neutral_minutes: number ["min"] 0.1, 10000.0;
        held_drop: number ["mm"] 0.0, 10000.0;
        held_minutes: number ["min"] 0.1, 10000.0;
        reading: number ["mm"] 0.0, 1000.0;
    }
    outputs |r| {
        neutral_rate ["mm/min"] = r.neutral_rate,
        held_rate ["mm/min"] = r.held_rate; within r.half_width,
        packing ["1"] = r.packing,
        valve ["1"] = r.valve,
    }
    source { "A maker's test of drift: lever neutral, then held to raise, engine off", 0, "read; maker withheld", Read }
}

/// What the two drops tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackingOrValve {
    /// Drop for each minute with the lever in neutral, mm/min.
    pub neutral_rate: f64,
    /// With the lever held to raise and the engine off, mm/min.
    pub held_rate: f64,
    /// Half the width within which the difference of the two is known, mm/min.
    pub half_width: f64,
    /// It sinks faster with the lever held: oil passes the packing.
    pub packing: bool,
    /// It sinks as fast: oil passes the valve. Neither where it does not sink.
    pub valve: bool,
}

/// Packing or valve, from one drop with the lever in neutral and one with it held to raise, engine off, same pose and load.
///
/// - `neutral_drop`, `held_drop` \[mm\] in `neutral_minutes`, `held_minutes`; `reading` \[mm\]: ± of each drop.
///
/// Formula: rate = drop / time. Faster by more than both readings allow: packing. Else valve, where it sinks at all. With
/// the lever held to raise, what passes the packing has a way out.
///
/// Range: if it is not clear, load the bucket and wait longer.
///
/// Source: a maker's test of drift, read; the margin: JCGM 100:2008, 5.1.2, from memory.
pub fn packing_or_valve(
    neutral_drop: f64,
    neutral_minutes: f64,
    held_drop: f64,
    held_minutes: f64,
    reading: f64,
) -> PackingOrValve {
    let (neutral_rate, held_rate) = (neutral_drop / neutral_minutes, held_drop / held_minutes);
    let half_width = libm::hypot(reading / neutral_minutes, reading / held_minutes);
    let packing = held_rate - neutral_rate > half_width;
    PackingOrValve {
        neutral_rate,
        held_rate,
        half_width,
        packing,
        valve: neutral_drop > reading && !packing,
    }
}
