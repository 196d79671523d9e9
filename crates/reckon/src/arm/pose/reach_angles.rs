//! The angles that put the tooth where it is wanted.

use super::inverse::to_reach;
use crate::arm::shape::{ArmShape, Vector};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.reach_angles" tries reach_angles;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        tooth_out: number ["m"] -50.0, 50.0;
        tooth_up: number ["m"] -50.0, 50.0;
        attitude: number ["°"] -360.0, 360.0;
        elbow_down: yes_no ["1"] 0.0, 1.0;
    }
    outputs |degrees| { boom ["°"] = degrees[0], dipper ["°"] = degrees[1], bucket ["°"] = degrees[2] }
    source { "J. J. Craig, Introduction to Robotics", 0, "planar arm of three links, exercise of chapter 4", Read }
}

/// The angles of boom, dipper and bucket, in degrees, that put the tooth at a place.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`] gives it.
/// - `tooth_out`, `tooth_up` \[m\]: from the swing axis and over the ground. `attitude` \[°\]: the line from bucket pin to
///   tooth over level.
/// - `elbow_down`: the dipper's pin lies below the line from foot pin to bucket pin.
///
/// Formula: bucket pin = tooth - R e^(i attitude); law of cosines for the dipper; the rest follows.
///
/// Range: what boom and dipper reach; whether the rams allow it is another question.
///
/// # Errors
/// "out-of-reach" where the arm is too short or too long.
///
/// Source: Craig, chapter 4, read in the exercise.
pub fn reach_angles(
    arm: &[f64],
    tooth_out: f64,
    tooth_up: f64,
    attitude: f64,
    elbow_down: bool,
) -> Result<[f64; 3], Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let tooth = Vector::new(tooth_out, tooth_up);
    let ways = to_reach(&shape, tooth, attitude.to_radians())?;
    Ok(ways[usize::from(elbow_down)].angles.map(f64::to_degrees))
}
