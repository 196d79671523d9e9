//! How long each ram must be for the joints to stand at these angles.

use super::placed::Placed;
use crate::arm::shape::ArmShape;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.ram_lengths" tries ram_lengths;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_angle: number ["°"] -360.0, 360.0;
        dipper_angle: number ["°"] -360.0, 360.0;
        bucket_angle: number ["°"] -360.0, 360.0;
    }
    outputs |r| {
        boom ["m"] = r.lengths[0],
        dipper ["m"] = r.lengths[1],
        bucket ["m"] = r.lengths[2],
        levers ["m"] = r.levers.to_vec(),
        within_strokes ["1"] = r.within_strokes,
    }
    source { "Plane geometry: two triangles and a four-bar linkage", 0, "", Definition }
}

/// The rams at these angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamLengths {
    /// Pin to pin: boom, dipper, bucket, metres.
    pub lengths: [f64; 3],
    /// Metres of ram for a radian of its joint, with sign.
    pub levers: [f64; 3],
    /// True where every ram is within its stroke.
    pub within_strokes: bool,
}

/// The length of each ram with the joints at these angles.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`] gives it.
/// - `boom_angle` over level, `dipper_angle` against the boom, `bucket_angle` against the dipper \[°\].
///
/// Formula: distance of the ram's two pins.
///
/// # Errors
/// "linkage-open" where lever and link do not meet; "dead-centre" where a ram has no length.
///
/// Source: plane geometry, definition.
pub fn ram_lengths(
    arm: &[f64],
    boom_angle: f64,
    dipper_angle: f64,
    bucket_angle: f64,
) -> Result<RamLengths, Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let angles = [boom_angle, dipper_angle, bucket_angle].map(f64::to_radians);
    let placed = Placed::at_angles(&shape, angles)?;
    Ok(RamLengths {
        lengths: placed.lengths(),
        levers: placed.levers(),
        within_strokes: placed.within_travel(),
    })
}
