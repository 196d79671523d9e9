//! The load on each pin of the arm.

use super::asked::hanging;
use super::pins::pin_forces;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.pin_loads" tries pin_loads;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        force_out: number ["kN"] -10000.0, 10000.0;
        force_up: number ["kN"] -10000.0, 10000.0;
    }
    outputs |r| {
        boom_foot ["kN"] = r.foot,
        dipper_pin ["kN"] = r.dipper_pin,
        bucket_pin ["kN"] = r.bucket_pin,
        lever_pin ["kN"] = r.lever_pin,
        link_pin ["kN"] = r.link_pin,
        barrel_pins ["kN"] = r.barrels.to_vec(),
        rod_pins ["kN"] = r.rods.to_vec(),
    }
    source { "Statics of each free body", 0, "", Definition }
}

/// The size of the force in each pin, in kilonewtons.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinLoads {
    /// Boom foot.
    pub foot: f64,
    /// Dipper pin.
    pub dipper_pin: f64,
    /// Bucket pin.
    pub bucket_pin: f64,
    /// The lever's pin on the dipper.
    pub lever_pin: f64,
    /// The link's pin on the bucket.
    pub link_pin: f64,
    /// Barrel pins of boom, dipper and bucket ram.
    pub barrels: [f64; 3],
    /// Rod pins, likewise.
    pub rods: [f64; 3],
}

/// The load on each pin with this force of the ground on the tooth.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `force_out`, `force_up` \[kN\]: of the ground on the tooth, outwards and upwards.
///
/// Formula: as [`pin_forces`].
///
/// Range: in the arm plane; a sideways force is not in it.
///
/// # Errors
/// Where a length does not close; "dead-centre" where a ram has no lever.
///
/// Source: statics of each free body, definition.
pub fn pin_loads(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    force_out: f64,
    force_up: f64,
) -> Result<PinLoads, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let force = Vector::new(force_out * 1000.0, force_up * 1000.0);
    let found = pin_forces(&shape, &statics, force);
    let size = |force: Vector| force.length() / 1000.0;
    Ok(PinLoads {
        foot: size(found.foot),
        dipper_pin: size(found.dipper_pin),
        bucket_pin: size(found.bucket_pin),
        lever_pin: size(found.lever_pin),
        link_pin: size(found.link_pin),
        barrels: found.barrels.map(size),
        rods: found.rods.map(size),
    })
}
