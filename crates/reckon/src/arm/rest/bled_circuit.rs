//! What bleeding one circuit does to the other two while the bucket rests on the ground.

use super::bled::bled;
use crate::arm::force::{hanging, joint};
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.bled_circuit" tries bled_circuit;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        contact_out: number ["m"] -50.0, 50.0;
        contact_up: number ["m"] -50.0, 50.0;
        ram: whole ["1"] 1.0, 3.0;
    }
    outputs |r| { load ["kN"] = r.load, boom ["kN"] = r.thrusts[0], dipper ["kN"] = r.thrusts[1], bucket ["kN"] = r.thrusts[2] }
    source { "Principle of virtual work", 0, "", Definition }
}

/// The arm after one circuit was bled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BledCircuit {
    /// What the bucket presses on the ground with, kN.
    pub load: f64,
    /// The thrust in each ram, kN.
    pub thrusts: [f64; 3],
}

/// The load on the ground and the thrust in each ram once one circuit is bled, the bucket touching the ground.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `contact_out`, `contact_up` \[m\]: where the bucket touches, from the swing axis and over the ground.
/// - `ram`: the circuit that is bled: 1 boom, 2 dipper, 3 bucket.
///
/// Formula: the ground carries what that joint's ram no longer does; the other two hold the weights and this load.
///
/// Range: contact in one point, ground without friction.
///
/// # Errors
/// "dead-centre" where the ground cannot carry it from there: the arm moves. Where a length does not close.
///
/// Source: principle of virtual work, definition.
pub fn bled_circuit(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    contact_out: f64,
    contact_up: f64,
    ram: u32,
) -> Result<BledCircuit, Refusal> {
    let (_, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let contact = Vector::new(contact_out, contact_up);
    let after = bled(&statics, contact, joint(ram)?)?;
    Ok(BledCircuit {
        load: after.load / 1000.0,
        thrusts: after.thrusts.map(|thrust| thrust / 1000.0),
    })
}
