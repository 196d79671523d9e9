//! The thrust in every ram, by virtual work.

use super::weights::{gravity_moments, moves_with};
use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Joint, ShapeTrouble, Vector};

/// The arm in one pose with what its own weight asks of each ram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statics {
    /// The pose.
    pub placed: Placed,
    /// Work against gravity for a radian at each joint, in newton metres.
    pub gravity: [f64; 3],
    /// The thrust in each ram with nothing at the tooth, in newtons; positive pushes its pins apart.
    pub hanging: [f64; 3],
}

/// A point that is fixed to a link, in P, where a force may act.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinkPoint {
    /// The link: it moves with its own joint and those inside of it.
    pub joint: Joint,
    /// Where it is, in P.
    pub place: Vector,
}

impl Statics {
    /// The arm hanging in this pose.
    ///
    /// Each ram crosses one joint only, so no equations need to be solved together:
    /// `F dL/d theta + F_tooth . dT/d theta - dV/d theta = 0` gives `F = (dV/d theta - F_tooth . dT/d theta) / lever`.
    ///
    /// # Errors
    /// `DeadCentre` where a ram has no lever: no thrust of it holds the joint.
    ///
    /// Source: principle of virtual work, definition.
    pub fn hanging(shape: &ArmShape, placed: Placed) -> Result<Self, ShapeTrouble> {
        for joint in Joint::ALL {
            let grip = placed.grips[joint.index()];
            let has_grip = grip.lever.abs() > 1e-12 * grip.length;
            if !has_grip {
                return Err(ShapeTrouble::DeadCentre { joint });
            }
        }
        let gravity = gravity_moments(shape, &placed);
        let levers = placed.levers();
        Ok(Statics {
            placed,
            gravity,
            hanging: [0, 1, 2].map(|ram| gravity[ram] / levers[ram]),
        })
    }

    /// The tooth's tip.
    pub fn tooth(&self) -> LinkPoint {
        LinkPoint {
            joint: Joint::Bucket,
            place: self.placed.tooth,
        }
    }

    /// The bucket's pin, where lifting standards let the load hang.
    pub fn bucket_pin(&self) -> LinkPoint {
        LinkPoint {
            joint: Joint::Dipper,
            place: self.placed.pivots[2],
        }
    }

    /// What one newton of the ground on this point, in this direction, adds to each ram's thrust.
    pub fn per_newton(&self, point: LinkPoint, direction: Vector) -> [f64; 3] {
        let moves = moves_with(&self.placed, point.joint, point.place);
        let levers = self.placed.levers();
        [0, 1, 2].map(|ram| -direction.dot(moves[ram]) / levers[ram])
    }

    /// The thrust in each ram with this force of the ground on the tooth, in newtons.
    pub fn with_tooth_force(&self, force: Vector) -> [f64; 3] {
        let added = self.per_newton(self.tooth(), force);
        [0, 1, 2].map(|ram| self.hanging[ram] + added[ram])
    }
}
