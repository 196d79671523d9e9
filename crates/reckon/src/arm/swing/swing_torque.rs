//! The torque of the swing rams at an angle, and the sideways force it gives at the tooth.

use super::rams::SwingRams;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.swing_torque" tries swing_torque;
    inputs {
        frame_pin_along: number ["m"] -5.0, 5.0;
        frame_pin_left: number ["m"] -5.0, 5.0;
        post_pin_along: number ["m"] -5.0, 5.0;
        post_pin_left: number ["m"] -5.0, 5.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
        pressure: number ["bar"] 0.0, 1000.0;
        angle: number ["°"] -180.0, 180.0;
        reach: number ["m"] 0.1, 50.0;
    }
    outputs |r| {
        towards_left ["kNm"] = r.left,
        towards_right ["kNm"] = r.right,
        side_force_left ["kN"] = r.force_left,
        side_force_right ["kN"] = r.force_right,
        levers ["m"] = r.levers.to_vec(),
    }
    source { "Principle of virtual work; two rams, one pushes while the other pulls: a service manual", 0, "", Read }
}

/// What the swing rams do at one angle. Positive turns towards the left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingTorque {
    /// Driven to the left, kNm.
    pub left: f64,
    /// Driven to the right, kNm, negative.
    pub right: f64,
    /// Sideways at the tooth, driven to the left, kN.
    pub force_left: f64,
    /// Driven to the right, kN, negative.
    pub force_right: f64,
    /// Lever of the left and of the right ram, metres, with sign.
    pub levers: [f64; 2],
}

/// The torque of two equal swing rams, mirrored about the arm's straight-ahead line, at one angle.
///
/// - `frame_pin_along`, `frame_pin_left`, `post_pin_along`, `post_pin_left` \[m\]: pins of the left ram seen from the swing
///   axis with the arm straight, along the arm and to its left.
/// - `bore`, `rod` \[mm\]; `pressure` \[bar\]; `angle` \[°\]: the arm's, towards the left; `reach` \[m\]: axis to tooth.
///
/// Formula: T = p (A lever of the pushing ram - ring x lever of the pulling one); sideways force T / reach.
///
/// Range: no friction. Beyond its dead centre a ram works against the other.
///
/// # Errors
/// "dead-centre" where a ram has no length.
///
/// Source: principle of virtual work, definition; lines crossed: a service manual, read.
#[expect(
    clippy::too_many_arguments,
    reason = "two pins and a ram, each number with its own name in the leaf"
)]
pub fn swing_torque(
    frame_pin_along: f64,
    frame_pin_left: f64,
    post_pin_along: f64,
    post_pin_left: f64,
    bore: f64,
    rod: f64,
    pressure: f64,
    angle: f64,
    reach: f64,
) -> Result<SwingTorque, Refusal> {
    let rams = SwingRams {
        frame_pin: Vector::new(frame_pin_along, frame_pin_left),
        post_pin: Vector::new(post_pin_along, post_pin_left),
        bore: bore / 1000.0,
        rod: rod / 1000.0,
    };
    let pose = rams.at(angle.to_radians()).ok_or(Refusal::Contradiction {
        what: "dead-centre",
    })?;
    // A bar is a hundred kilonewtons on a square metre.
    let (left, right) = (
        pressure * pose.towards_left * 100.0,
        pressure * pose.towards_right * 100.0,
    );
    Ok(SwingTorque {
        left,
        right,
        force_left: left / reach,
        force_right: right / reach,
        levers: pose.levers,
    })
}
