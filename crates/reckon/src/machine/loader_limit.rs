//! The load a loader may carry in its bucket, from the load that tips it.

use crate::leaf::leaf;

leaf! {
    "machine.loader_limit" computes loader_limit;
    inputs {
        tipping: number ["kg"] 0.0, 1000000.0;
        on_tracks: yes_no ["1"] 0.0, 1.0;
    }
    outputs |kilograms| { load ["kg"] = kilograms }
    source { "SAE J818 MAY87: operating load", 1987, "as a performance handbook and a loader's manual quote it", Read }
}

/// The load a loader may carry, in kilograms.
///
/// - `tipping` \[kg\]: the load in the bucket that begins to lift the rear wheels or rollers, at the worst point of the lift and
///   fully turned. `on_tracks`: a loader on tracks.
///
/// Formula: half of it on wheels, 35 % on tracks.
///
/// Range: level firm ground.
///
/// Source: SAE J818 MAY87, as quoted, read.
pub fn loader_limit(tipping: f64, on_tracks: bool) -> f64 {
    tipping * if on_tracks { 0.35 } else { 0.5 }
}
