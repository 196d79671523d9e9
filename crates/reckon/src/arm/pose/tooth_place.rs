//! Where the tooth is with the rams at these lengths.

use crate::arm::force::placed;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.tooth_place" tries tooth_place;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
    }
    outputs |r| {
        tooth_out ["m"] = r.tooth[0],
        tooth_up ["m"] = r.tooth[1],
        bucket_pin_out ["m"] = r.bucket_pin[0],
        bucket_pin_up ["m"] = r.bucket_pin[1],
        angles ["°"] = r.degrees.to_vec(),
        levers ["m"] = r.levers.to_vec(),
    }
    source { "Plane geometry: two triangles and a four-bar linkage", 0, "", Definition }
}

/// The arm in one pose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToothPlace {
    /// The tooth: out from the swing axis and over the ground, metres.
    pub tooth: [f64; 2],
    /// The bucket's pin, likewise.
    pub bucket_pin: [f64; 2],
    /// Boom over level, dipper against boom, bucket against dipper, degrees.
    pub degrees: [f64; 3],
    /// Metres of ram for a radian of its joint, with sign: boom, dipper, bucket.
    pub levers: [f64; 3],
}

/// Tooth, bucket pin, angles and levers with the rams at these lengths.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
///
/// Formula: each ram and the two arms of its joint make a triangle; the bucket's linkage is where two circles meet.
///
/// Range: as far as the pins allow. Whether each ram is within its stroke is for the caller to look at.
///
/// # Errors
/// "triangle-open" or "linkage-open" where a length does not close.
///
/// Source: plane geometry, definition.
pub fn tooth_place(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
) -> Result<ToothPlace, Refusal> {
    let (_, placed) = placed(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let pin = placed.pivots[2];
    Ok(ToothPlace {
        tooth: [placed.tooth.r, placed.tooth.z],
        bucket_pin: [pin.r, pin.z],
        degrees: placed.angles().map(f64::to_degrees),
        levers: placed.levers(),
    })
}
