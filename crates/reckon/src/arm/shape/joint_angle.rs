//! The angle of a joint, and the lever of its ram, from the ram's length.

use super::triangle::{Triangle, Turns};
use super::trouble::Joint;
use super::vector::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.joint_angle" tries joint_angle;
    inputs {
        barrel_along: number ["m"] -30.0, 30.0;
        barrel_up: number ["m"] -30.0, 30.0;
        rod_along: number ["m"] -30.0, 30.0;
        rod_up: number ["m"] -30.0, 30.0;
        longer_raises: yes_no ["1"] 0.0, 1.0;
        length: number ["m"] 0.01, 30.0;
    }
    outputs |r| { angle ["°"] = r.degrees, lever ["m"] = r.lever }
    source { "Law of cosines", 0, "cos p = (a^2 + b^2 - L^2) / (2 a b)", Definition }
}

/// A joint at one length of its ram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointAngle {
    /// The outer link over the inner one, degrees, counter-clockwise.
    pub degrees: f64,
    /// Metres of ram for a radian of joint, with sign: positive where a longer ram turns it counter-clockwise.
    pub lever: f64,
}

/// Angle and lever of a joint whose ram has this length.
///
/// - `barrel_along`, `barrel_up` \[m\]: the barrel's pin seen from the shared pin, in the inner link's frame.
/// - `rod_along`, `rod_up` \[m\]: the rod's pin seen from the shared pin, in the outer link's frame.
/// - `longer_raises`: a longer ram turns the joint counter-clockwise. `length` \[m\]: pin to pin.
///
/// Formula: with a and b the distances of the shared pin to barrel and rod, cos p = (a^2 + b^2 - L^2) / (2 a b); lever
/// a b sin p / L.
///
/// Range: within the dead centres |a - b| and a + b.
///
/// # Errors
/// "triangle-open" where the ram does not reach so far, or not so near.
///
/// Source: law of cosines, definition.
pub fn joint_angle(
    barrel_along: f64,
    barrel_up: f64,
    rod_along: f64,
    rod_up: f64,
    longer_raises: bool,
    length: f64,
) -> Result<JointAngle, Refusal> {
    let turns = if longer_raises {
        Turns::CounterClockwise
    } else {
        Turns::Clockwise
    };
    let barrel = Vector::new(barrel_along, barrel_up);
    let triangle = Triangle::new(barrel, Vector::new(rod_along, rod_up), turns);
    let grip = triangle.at_length(Joint::Boom, length)?;
    Ok(JointAngle {
        degrees: grip.angle.to_degrees(),
        lever: grip.lever,
    })
}
