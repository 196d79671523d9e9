//! The force a ram needs to hold loads on a lever.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.lever_force" tries lever_force;
    inputs {
        loads: list ["kN"] -1e6, 1e6;
        arms: list ["mm"] -1e6, 1e6;
        ram_arm: number ["mm"] 0.01, 1e6;
    }
    outputs |kilonewtons| { force ["kN"] = kilonewtons }
    source { "A. Esposito, Fluid Power with Applications", 0, "ex. 6-5, p. 227: moments about the pivot", Read }
}

/// The force of a ram that holds these loads on a lever, in kilonewtons.
///
/// - `loads` \[kN\], each with its distance `arms` \[mm\] from the pivot, square to the load; the other way round negative.
/// - `ram_arm` \[mm\]: distance of the pivot from the ram's line.
///
/// Formula: sum of load x arm / ram's arm.
///
/// Range: in the one pose; arms change with it. What the lever alone promises, the machine may not hold.
///
/// # Errors
/// `WrongCount` where loads and arms differ in number.
///
/// Source: Esposito, ex. 6-5, read.
pub fn lever_force(loads: &[f64], arms: &[f64], ram_arm: f64) -> Result<f64, Refusal> {
    if arms.len() != loads.len() {
        return Err(Refusal::WrongCount {
            input: "arms",
            count: arms.len(),
        });
    }
    let moments = loads.iter().zip(arms);
    Ok(moments.map(|(load, arm)| load * arm).sum::<f64>() / ram_arm)
}
