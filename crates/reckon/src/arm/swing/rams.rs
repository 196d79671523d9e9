//! Two swing rams on one post, their levers with sign, and the torque they make together.

use std::f64::consts::PI;

use crate::arm::shape::{Vector, wrapped};

/// Two equal swing rams, mirrored about the arm's straight-ahead line, lines crossed.
///
/// Frame: seen from above, first axis along the arm when it is not swung, second to its left; origin the swing axis.
/// Angles from the first towards the second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingRams {
    /// The frame's pin of the ram on the left; the other's is its mirror image.
    pub frame_pin: Vector,
    /// The post's pin of the ram on the left, with the arm not swung.
    pub post_pin: Vector,
    /// Bore, in metres.
    pub bore: f64,
    /// Diameter of the rod, in metres.
    pub rod: f64,
}

/// The swing rams at one angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingPose {
    /// Length of the left and of the right ram, in metres.
    pub lengths: [f64; 2],
    /// Metres of ram for a radian of swing, with sign: beyond its dead centre a ram pushes the wrong way.
    pub levers: [f64; 2],
    /// Torque for each pascal when driven towards the left, in cubic metres: also the oil for a radian.
    pub towards_left: f64,
    /// Torque for each pascal when driven towards the right, negative.
    pub towards_right: f64,
}

impl SwingRams {
    fn areas(&self) -> (f64, f64) {
        let cap = PI / 4.0 * self.bore * self.bore;
        (cap, cap - PI / 4.0 * self.rod * self.rod)
    }

    /// The rams with the arm swung by this angle, in radians.
    ///
    /// L = |a e^(i psi) - f|, dL/d psi = (a e^(i psi) - f) . (i a e^(i psi)) / L. Driving to the left feeds the rod's side of the
    /// left ram and the full side of the right one: T = p (-A_ring dL_left + A_cap dL_right); the other way
    /// T = p (A_cap dL_left - A_ring dL_right). T = p dV/d psi as well, so the swing's speed is the flow over it.
    ///
    /// Nothing where a ram has no length.
    ///
    /// Source: principle of virtual work, definition; lines crossed: a service manual on backhoe swing, read.
    pub fn at(&self, angle: f64) -> Option<SwingPose> {
        let mirrored = |pin: Vector| Vector::new(pin.r, -pin.z);
        let unit = Vector::at_angle(angle);
        let one = |frame: Vector, post: Vector| {
            let pin = post.turned(unit);
            let ram = pin - frame;
            let length = ram.length();
            (length, ram.dot(pin.quarter()) / length)
        };
        let left = one(self.frame_pin, self.post_pin);
        let right = one(mirrored(self.frame_pin), mirrored(self.post_pin));
        let (cap, ring) = self.areas();
        let pose = SwingPose {
            lengths: [left.0, right.0],
            levers: [left.1, right.1],
            towards_left: cap * right.1 - ring * left.1,
            towards_right: cap * left.1 - ring * right.1,
        };
        (pose.towards_left.is_finite() && pose.towards_right.is_finite()).then_some(pose)
    }

    /// The swing at which the left ram lies in line with its post pin and has no lever, in radians; the right one's is its
    /// negative.
    pub fn dead_centre(&self) -> f64 {
        let angle = wrapped(self.frame_pin.angle() - self.post_pin.angle());
        // Frame pin and post pin in line: the ram stretched, or folded over the axis.
        [angle, wrapped(angle + PI)]
            .into_iter()
            .fold(f64::INFINITY, |nearest, one| {
                if one.abs() < nearest.abs() {
                    one
                } else {
                    nearest
                }
            })
    }

    /// The oil taken in from one angle to another when driven towards the left, in cubic metres.
    ///
    /// Nothing where a ram has no length.
    pub fn oil_towards_left(&self, from: f64, to: f64) -> Option<f64> {
        let (one, other) = (self.at(from)?, self.at(to)?);
        let (cap, ring) = self.areas();
        Some(cap * (other.lengths[1] - one.lengths[1]) - ring * (other.lengths[0] - one.lengths[0]))
    }

    /// The angle over which the relief between the lines stops this much energy, swinging to the right from `from` and so
    /// against the torque to the left; in radians, positive. Nothing where it runs beyond `limit` first.
    ///
    /// The work of the relief is its pressure times the oil driven out: p V = E, solved by halving.
    pub fn stop_angle(&self, energy: f64, relief: f64, from: f64, limit: f64) -> Option<f64> {
        let work = |angle: f64| Some(-relief * self.oil_towards_left(from, from - angle)?);
        if work(limit)? < energy {
            return None;
        }
        let (mut low, mut high) = (0.0, limit);
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if middle <= low || middle >= high {
                break;
            }
            if work(middle)? < energy {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(0.5 * (low + high))
    }
}
