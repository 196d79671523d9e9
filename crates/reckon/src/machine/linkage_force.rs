//! The force at the bucket's lip from the bucket ram through lever and link, by arms measured with a tape.

use crate::leaf::leaf;

leaf! {
    "machine.linkage_force" computes linkage_force;
    inputs {
        ram_force: number ["kN"] 0.0, 1e6;
        ram_arm: number ["mm"] 0.01, 1e5;
        link_arm_on_lever: number ["mm"] 0.01, 1e5;
        link_arm_on_bucket: number ["mm"] 0.01, 1e5;
        radius: number ["mm"] 0.01, 1e5;
    }
    outputs |kilonewtons| { force ["kN"] = kilonewtons }
    source { "A sheet on bucket forces after SAE and DIN", 0, "L = F c e / (d r), read", Read }
}

/// The force at the lip, in kilonewtons.
///
/// - `ram_force` F \[kN\]; `ram_arm` c, `link_arm_on_lever` d \[mm\]: from the lever's pin to the lines of ram and link;
///   `link_arm_on_bucket` e \[mm\]: from the bucket's pin to the link's line; `radius` r \[mm\]: bucket's pin to lip or tooth.
///
/// Formula: F c e / (d r). For a ram that acts on its link alone take d = e.
///
/// Range: one pose, no weight, machine held down: an upper bound.
///
/// Source: a sheet on bucket forces, read.
pub fn linkage_force(
    ram_force: f64,
    ram_arm: f64,
    link_arm_on_lever: f64,
    link_arm_on_bucket: f64,
    radius: f64,
) -> f64 {
    ram_force * ram_arm / link_arm_on_lever * link_arm_on_bucket / radius
}
