//! The force at the tooth, or the load at the bucket's pin, that begins to tip the machine.

use super::asked::{direction, hanging};
use super::footing::{Footing, Stance};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.tips_at" tries tips_at;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        stance: list ["1"] -1e9, 1e9;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        at_bucket_pin: yes_no ["1"] 0.0, 1.0;
        direction: number ["°"] -360.0, 360.0;
    }
    outputs |newtons| { force ["kN"] = newtons }
    source { "Statics: moments about each edge of what it stands on", 0, "", Definition }
}

/// The force, in kilonewtons, at which the machine begins to tip over one of its edges or to lift.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `stance`: what it stands on, as [`Stance::to_numbers`] gives it.
/// - `at_bucket_pin`: the force acts at the bucket's pin, else at the tooth.
/// - `direction` \[°\]: of the force on the arm, 0 outwards, 90 upwards; a load hangs at -90.
///
/// Formula: what keeps it standing over an edge, over what each newton takes from that; the least of all edges.
///
/// # Errors
/// "never-tips" where no force there tips it; where a length does not close or a ram has no lever.
///
/// Source: statics, definition.
pub fn tips_at(
    arm: &[f64],
    stance: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    at_bucket_pin: bool,
    direction_degrees: f64,
) -> Result<f64, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let stance = Stance::from_numbers("stance", stance)?;
    let footing = Footing::new(&shape, &statics.placed, &stance);
    let point = if at_bucket_pin {
        statics.bucket_pin()
    } else {
        statics.tooth()
    };
    match footing.tips_at(point.place, direction(direction_degrees)) {
        Some((newtons, _)) => Ok(newtons / 1000.0),
        None => Err(Refusal::Contradiction { what: "never-tips" }),
    }
}
