//! Tipping and sliding made ready for many poses: all that does not change with the pose gathered once.

use libm::sincos;

use super::footing::{Edge, Footing};
use super::usable::Governs;
use crate::arm::shape::Vector;

/// A stance made ready for many poses of one arm.
#[derive(Debug, Clone, PartialEq)]
pub struct Ladder {
    edges: Vec<Rung>,
    load: f64,
    friction: f64,
    gravity: f64,
}

/// One edge: how far outwards the arm's r counts against it, what holds it without the arm's place, and n . a.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Rung {
    outward: f64,
    without_arm: f64,
    offset: f64,
}

impl Footing<'_> {
    /// The stance made ready for many poses: the arm's mass stays, only its place changes.
    ///
    /// With n the inward normal, h the arm's direction and R its moment of mass: m0 = fixed + g (n . h) R, and for one
    /// newton m1 = (n . h) (T_z d_r - d_z T_r) + d_z n . a.
    pub fn ladder(&self) -> Ladder {
        let stance = self.stance();
        let (sine, cosine) = sincos(stance.heading);
        let contacts = &stance.contacts;
        let (base, centre) = stance.base;
        let mass = base + stance.post.mass + self.arm_mass();
        let edges = contacts.iter().zip(contacts.iter().cycle().skip(1));
        let rung = |(a, b): (&[f64; 2], &[f64; 2])| {
            let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
            let length = (dx * dx + dy * dy).sqrt();
            let (nx, ny) = (-dy / length, dx / length);
            let outward = nx * cosine + ny * sine;
            let offset = nx * a[0] + ny * a[1];
            let fixed = base * (nx * centre[0] + ny * centre[1])
                + stance.post.mass * stance.post.centre.r * outward
                - mass * offset;
            Rung {
                outward,
                without_arm: self.gravity() * fixed,
                offset,
            }
        };
        Ladder {
            edges: edges.map(rung).collect(),
            load: mass * self.gravity(),
            friction: stance.friction,
            gravity: self.gravity(),
        }
    }
}

impl Ladder {
    /// Lowers the least force so far, and its name, where tipping or sliding comes sooner.
    ///
    /// `moment` is the arm's mass times the distance of its centre from the swing axis.
    pub(crate) fn lower(
        &self,
        least: &mut (f64, Governs),
        tooth: Vector,
        direction: Vector,
        moment: f64,
    ) {
        let turning = tooth.z * direction.r - direction.z * tooth.r;
        for (index, rung) in self.edges.iter().enumerate() {
            let now = rung.without_arm + self.gravity * rung.outward * moment;
            let more = rung.outward * turning + direction.z * rung.offset;
            // -now / more < least, without a division unless it is so.
            let sooner = more < 0.0 && now < -more * least.0;
            if now < 0.0 || sooner {
                let force = if now < 0.0 { 0.0 } else { -now / more };
                *least = (force, Governs::Tipping(Edge::From(index)));
            }
        }
        let resisted = direction.r.abs() + self.friction * direction.z;
        if resisted > 0.0 && self.friction * self.load < resisted * least.0 {
            *least = (self.friction * self.load / resisted, Governs::Sliding);
        }
        if direction.z > 0.0 && self.load < direction.z * least.0 {
            *least = (self.load / direction.z, Governs::Tipping(Edge::Whole));
        }
    }
}
