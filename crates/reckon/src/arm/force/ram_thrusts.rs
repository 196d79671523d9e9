//! What each ram carries, with a force at the tooth or with none.

use super::asked::hanging;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.ram_thrusts" tries ram_thrusts;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        force_out: number ["kN"] -10000.0, 10000.0;
        force_up: number ["kN"] -10000.0, 10000.0;
    }
    outputs |thrusts| { boom ["kN"] = thrusts[0], dipper ["kN"] = thrusts[1], bucket ["kN"] = thrusts[2] }
    source { "Principle of virtual work, all weights with the rams' own", 0, "", Definition }
}

/// The thrust in each ram, in kilonewtons; positive pushes its pins apart.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `force_out`, `force_up` \[kN\]: of the ground on the tooth, outwards and upwards.
///
/// Formula: thrust = (dV/d theta - F . dT/d theta) / lever for each joint.
///
/// Range: no friction, level ground.
///
/// # Errors
/// Where a length does not close; "dead-centre" where a ram has no lever.
///
/// Source: principle of virtual work, definition.
pub fn ram_thrusts(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    force_out: f64,
    force_up: f64,
) -> Result<[f64; 3], Refusal> {
    let (_, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let force = Vector::new(force_out * 1000.0, force_up * 1000.0);
    Ok(statics
        .with_tooth_force(force)
        .map(|thrust| thrust / 1000.0))
}
