//! From where the tooth should be, and how the bucket should stand, to the angles and lengths that put it there.

use libm::{acos, atan2};

use super::placed::Placed;
use crate::arm::shape::{ArmShape, ShapeTrouble, Vector, wrapped};

/// On which side of the line from foot pin to bucket pin the dipper's pin lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Elbow {
    /// Above it on an arm that stretches towards +r: the dipper hangs in (its angle negative).
    Up,
    /// Below it.
    Down,
}

/// One way to reach a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reached {
    /// Which way the elbow points.
    pub elbow: Elbow,
    /// The angles of boom, dipper and bucket, in radians, each in (-pi, pi].
    pub angles: [f64; 3],
}

/// The two sets of angles that put the tooth at `tooth` (P, metres) with the bucket's line from pin to tooth at
/// `attitude` (radians over level).
///
/// The bucket's pin is O = T - R e^(i attitude). With d from foot to O: cos theta2 = (d^2 - LB^2 - LD^2) / (2 LB LD),
/// theta1 = arg d - atan2(LD sin theta2, LB + LD cos theta2), theta3 = attitude - theta1 - theta2.
///
/// The rams may still not allow it: lay the angles into [`Placed::at_angles`] and look at the stops.
///
/// # Errors
/// `OutOfReach` with the distance that would be needed.
///
/// Source: Craig, Introduction to Robotics, planar arm of three links, read in the exercise of chapter 4.
pub fn to_reach(
    shape: &ArmShape,
    tooth: Vector,
    attitude: f64,
) -> Result<[Reached; 2], ShapeTrouble> {
    let (boom, dipper) = (shape.boom_length, shape.dipper_length);
    let wrist = tooth - Vector::at_angle(attitude) * shape.bucket.tip_radius - shape.foot;
    let square = wrist.dot(wrist);
    let cosine = (square - boom * boom - dipper * dipper) / (2.0 * boom * dipper);
    // The straight arm itself may come out a rounding beyond 1.
    let rounding = 8.0 * f64::EPSILON;
    let in_reach = cosine.abs() <= 1.0 + rounding;
    if !in_reach {
        return Err(ShapeTrouble::OutOfReach {
            needed: square.sqrt(),
            between: ((boom - dipper).abs(), boom + dipper),
        });
    }
    let bent = acos(cosine.clamp(-1.0, 1.0));
    let with = |elbow, dipper_angle: f64| {
        let (sine, cosine) = libm::sincos(dipper_angle);
        let boom_angle = wrist.angle() - atan2(dipper * sine, boom + dipper * cosine);
        let angles = [
            boom_angle,
            dipper_angle,
            attitude - boom_angle - dipper_angle,
        ];
        Reached {
            elbow,
            angles: angles.map(wrapped),
        }
    };
    Ok([with(Elbow::Up, -bent), with(Elbow::Down, bent)])
}

impl Reached {
    /// The arm in this pose, where every ram is within its stroke; nothing where one is not.
    pub fn placed_within_travel(&self, shape: &ArmShape) -> Option<Placed> {
        Placed::at_angles(shape, self.angles)
            .ok()
            .filter(Placed::within_travel)
    }
}
