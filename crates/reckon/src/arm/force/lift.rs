//! Lifting at the bucket's pin, and the two factors of the standard.

use super::allowed::{Allowed, allowed};
use super::footing::Footing;
use super::rated_lift::rated_lift;
use super::thrust::Statics;
use crate::arm::shape::{ArmShape, Joint, Vector};

/// What the machine lifts straight up at the bucket's pin, in newtons of load.
///
/// Only for a machine whose book records a lifting point, load holding and the authority to lift: by default a digging
/// machine is no lifting machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lift {
    /// What the boom ram lifts at the pump's pressure.
    pub boom: Allowed,
    /// What the dipper ram holds.
    pub dipper: Allowed,
    /// The load at which the machine begins to tip; infinite where it never does.
    pub tips: f64,
}

/// Which of the two limits is the lower.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LiftLimit {
    /// The rams.
    Hydraulic,
    /// The tipping of the machine.
    Tipping,
}

impl Lift {
    /// What the rams lift: the boom working, the dipper holding.
    pub fn hydraulic(&self) -> f64 {
        self.boom.rank().min(self.dipper.rank()).max(0.0)
    }

    /// The rated load, in newtons, and what limits it: the lower of 87 % of what the rams lift and 75 % of what tips.
    ///
    /// Source: ISO 10567:2007, as two operator's manuals quote it, read.
    pub fn rated(&self) -> (f64, LiftLimit) {
        let rated = rated_lift(self.hydraulic(), self.tips);
        if rated.by_tipping {
            (rated.rated, LiftLimit::Tipping)
        } else {
            (rated.rated, LiftLimit::Hydraulic)
        }
    }
}

/// What the machine lifts at the bucket's pin in this pose.
///
/// Source: SAE J31, 3.1: capacity at the bucket's hinge pin, boom lifting and dipper holding, read in excerpts.
pub fn lift(shape: &ArmShape, statics: &Statics, footing: &Footing<'_>) -> Lift {
    let down = Vector::new(0.0, -1.0);
    let per_newton = statics.per_newton(statics.bucket_pin(), down);
    let of = |joint: Joint, limits| {
        allowed(
            statics.hanging[joint.index()],
            per_newton[joint.index()],
            limits,
        )
    };
    Lift {
        boom: of(Joint::Boom, shape.ram(Joint::Boom).working()),
        dipper: of(Joint::Dipper, shape.ram(Joint::Dipper).holding()),
        tips: footing
            .tips_at(statics.placed.pivots[2], down)
            .map_or(f64::INFINITY, |(load, _)| load),
    }
}
