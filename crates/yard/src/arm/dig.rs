//! What the tooth can do in one direction on one way of standing, with each ram's part of it.

use super::ArmOfBook;
use super::missing::{MissingCode, NotKnown, Told, missing};
use super::record::{Direction, ForceRecord, PoseRecord};
use reckon::arm::force::{Allowed, Governs};
use reckon::arm::shape::{Joint, Side};

/// One direction on one way of standing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dig {
    /// The ram that works.
    pub working: Joint,
    /// The usable force, all limits counted, and what governs it.
    pub usable: (Allowed, Governs),
    /// Boom, dipper, bucket at that force.
    pub rams: [RamPart; 3],
    /// What the rams alone would allow, the machine held down.
    pub arm_alone: (Allowed, Governs),
}

/// One ram's part of a dig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RamPart {
    /// Its thrust, newtons, positive pushes.
    pub thrust: f64,
    /// The side that is squeezed.
    pub side: Side,
    /// The thrust as a share of what it may carry that way: 1 gives out.
    pub share: f64,
}

impl PoseRecord {
    /// What the tooth can do in this direction on this way of standing, by its place in the book; none = the machine is
    /// held down.
    ///
    /// # Errors
    /// Where a weight, a pressure or the stance is not known, or the force is unlimited: a push that squeezes nothing.
    pub fn dig(&self, arm: &ArmOfBook, way: Direction, stance: Option<usize>) -> Told<Dig> {
        let force = self.force(way)?;
        let arm_alone = force.arm_alone?;
        let usable = match stance {
            None => arm_alone,
            Some(at) => match force.standing.get(at) {
                Some(standing) => standing.usable?,
                None => missing(MissingCode::SupportAny, "")?,
            },
        };
        let newtons = usable.0.newtons().ok_or(NotKnown::NoPose)?;
        let hanging = self.hanging?;
        let shape = arm.shape.as_ref().map_err(|why| *why)?;
        let part = |joint: Joint| {
            let at = joint.index();
            let thrust = hanging[at].thrust + force.per_newton[at] * newtons;
            let ram = shape.ram(joint);
            let (push, pull) = if joint == force.cut.working {
                ram.working()
            } else {
                ram.holding()
            };
            let (side, most) = if thrust >= 0.0 {
                (Side::Cap, push)
            } else {
                (Side::Rod, pull)
            };
            RamPart {
                thrust,
                side,
                share: thrust.abs() / most,
            }
        };
        Ok(Dig {
            working: force.cut.working,
            usable,
            rams: Joint::ALL.map(part),
            arm_alone,
        })
    }

    /// The record of one direction.
    ///
    /// # Errors
    /// Why there is none.
    pub fn force(&self, way: Direction) -> Told<&ForceRecord> {
        let at = Direction::ALL.iter().position(|one| *one == way);
        let force = at.and_then(|at| self.forces.get(at));
        force.ok_or(NotKnown::NoPose)?.as_ref().map_err(|why| *why)
    }
}
