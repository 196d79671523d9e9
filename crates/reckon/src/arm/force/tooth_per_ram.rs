//! How far the tooth goes for each bit a ram moves.

use super::asked::hanging;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.tooth_per_ram" tries tooth_per_ram;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
    }
    outputs |up| { boom ["1"] = up[0], dipper ["1"] = up[1], bucket ["1"] = up[2] }
    source { "Plane geometry: the tooth turns about the joint, the ram over its lever", 0, "", Definition }
}

/// How far the tooth goes up for each bit that a ram gets longer; negative where it goes down. Boom, dipper, bucket.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
///
/// A drop seen at the tooth, over this number, is how far the ram sank.
///
/// Formula: the tooth's level distance from the joint's pin over the ram's lever.
///
/// # Errors
/// Where a length does not close; "dead-centre" where a ram has no lever.
///
/// Source: plane geometry, definition.
pub fn tooth_per_ram(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
) -> Result<[f64; 3], Refusal> {
    let (_, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    // The same number as the thrust that a newton straight down takes: power in equals power out.
    Ok(statics.per_newton(statics.tooth(), Vector::new(0.0, -1.0)))
}
