//! What the machine stands on: where the load lies, when it tips, when it slides, what each support carries.

use libm::sincos;

use super::weights::whole_arm;
use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Vector, Weight};

/// What the machine stands on, in the machine's frame: x forwards, y left, z up, origin on the ground.
///
/// The origin of x and y is the foot of the swing axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Stance {
    /// Points on the ground, counter-clockwise seen from above, the corners of a convex outline, in metres.
    pub contacts: Vec<[f64; 2]>,
    /// Friction between supports and ground: the share of the load that holds against sliding.
    pub friction: f64,
    /// Mass of everything that does not swing, and the place of its centre.
    pub base: (f64, [f64; 3]),
    /// What swings but is no part of the arm: its mass and centre in P.
    pub post: Weight,
    /// Where the arm points: the angle of its plane from straight ahead, towards the left, in radians.
    pub heading: f64,
}

/// Forces on the machine and their moments about the origin.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Wrench {
    /// Sum of forces, in newtons.
    pub force: [f64; 3],
    /// Sum of moments, in newton metres.
    pub moment: [f64; 3],
}

/// Where the load of the whole machine comes through the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadPoint {
    /// The load on the ground, in newtons.
    pub load: f64,
    /// Where, in x and y, in metres.
    pub place: [f64; 2],
}

/// An edge of the outline, or none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// From this contact to the next.
    From(usize),
    /// Not over an edge: the whole machine is lifted.
    Whole,
}

/// The whole machine on its supports in one pose, with nothing at the tooth.
#[derive(Debug, Clone, PartialEq)]
pub struct Footing<'a> {
    stance: &'a Stance,
    weights: Wrench,
    direction: (f64, f64),
    gravity: f64,
    arm_mass: f64,
    /// Height of the centre of all weights over the ground.
    height: f64,
}

impl Wrench {
    fn add(&mut self, force: [f64; 3], at: [f64; 3]) {
        let [fx, fy, fz] = force;
        let [x, y, z] = at;
        self.force = [self.force[0] + fx, self.force[1] + fy, self.force[2] + fz];
        self.moment = [
            self.moment[0] + y * fz - z * fy,
            self.moment[1] + z * fx - x * fz,
            self.moment[2] + x * fy - y * fx,
        ];
    }

    fn plus(&self, share: f64, other: &Wrench) -> Wrench {
        let sum = |one: [f64; 3], two: [f64; 3]| [0, 1, 2].map(|at| one[at] + share * two[at]);
        Wrench {
            force: sum(self.force, other.force),
            moment: sum(self.moment, other.moment),
        }
    }
}

impl<'a> Footing<'a> {
    /// The machine with the arm in this pose.
    pub fn new(shape: &ArmShape, placed: &Placed, stance: &'a Stance) -> Self {
        let (sine, cosine) = sincos(stance.heading);
        let arm = whole_arm(shape, placed);
        let mut footing = Footing {
            stance,
            weights: Wrench::default(),
            direction: (cosine, sine),
            gravity: shape.gravity,
            arm_mass: arm.mass,
            height: 0.0,
        };
        let (base, [_, _, base_height]) = stance.base;
        let mass = arm.mass + stance.post.mass + base;
        footing.height = (arm.mass * arm.centre.z
            + stance.post.mass * stance.post.centre.z
            + base * base_height)
            / mass;
        for weight in [arm, stance.post] {
            let down = [0.0, 0.0, -weight.mass * shape.gravity];
            footing.weights.add(down, footing.in_machine(weight.centre));
        }
        let (mass, centre) = stance.base;
        footing
            .weights
            .add([0.0, 0.0, -mass * shape.gravity], centre);
        footing
    }

    /// The same stance with the arm in another pose.
    pub fn with(&self, shape: &ArmShape, placed: &Placed) -> Footing<'a> {
        Footing::new(shape, placed, self.stance)
    }

    /// The stance.
    pub(super) fn stance(&self) -> &Stance {
        self.stance
    }

    /// Gravity as it was given with the shape.
    pub(super) fn gravity(&self) -> f64 {
        self.gravity
    }

    /// Mass of the arm.
    pub(super) fn arm_mass(&self) -> f64 {
        self.arm_mass
    }

    /// All weights of the machine.
    pub fn weights(&self) -> &Wrench {
        &self.weights
    }

    /// One newton of the ground on this point of the arm plane in this direction of it.
    pub fn one_newton(&self, at: Vector, direction: Vector) -> Wrench {
        let mut wrench = Wrench::default();
        wrench.add(self.in_machine(direction), self.in_machine(at));
        wrench
    }

    fn in_machine(&self, point: Vector) -> [f64; 3] {
        [
            point.r * self.direction.0,
            point.r * self.direction.1,
            point.z,
        ]
    }

    /// Where the load comes through the ground; nothing where there is none.
    pub fn load_point(&self) -> Option<LoadPoint> {
        let load = -self.weights.force[2];
        let [mx, my, _] = self.weights.moment;
        (load > 0.0).then(|| LoadPoint {
            load,
            place: [my / load, -mx / load],
        })
    }

    /// The moment that keeps the machine from tipping over each edge, in newton metres; it tips where one is negative.
    ///
    /// For an edge through a with inward unit normal n: m = n . (M_y, -M_x) - N n . a.
    ///
    /// Source: moments about the edge, definition.
    pub fn edge_moments(&self) -> Vec<f64> {
        self.moments_of(&self.weights)
    }

    /// The slope, falling straight towards each edge, at which the machine tips over it by itself, in radians; negative
    /// where it tips on level ground already.
    ///
    /// tan = (distance of the centre of all weights from the edge) / (its height). Statics only: the arm is taken as it
    /// stands, and soft ground, swinging and braking are not in it.
    ///
    /// Source: the weight passes through the edge, definition.
    pub fn slopes_to_tip(&self) -> Vec<f64> {
        let load = -self.weights.force[2];
        self.edge_moments()
            .into_iter()
            .map(|moment| libm::atan2(moment / load, self.height))
            .collect()
    }

    fn moments_of(&self, wrench: &Wrench) -> Vec<f64> {
        let contacts = &self.stance.contacts;
        let (load, [mx, my, _]) = (-wrench.force[2], wrench.moment);
        let edges = contacts.iter().zip(contacts.iter().cycle().skip(1));
        edges
            .map(|(a, b)| {
                let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
                let length = (dx * dx + dy * dy).sqrt();
                let (nx, ny) = (-dy / length, dx / length);
                nx * my - ny * mx - load * (nx * a[0] + ny * a[1])
            })
            .collect()
    }

    /// The force at this point in this direction at which the machine begins to tip, and over which edge; nothing
    /// where it never does. 0 where it tips by itself.
    pub fn tips_at(&self, at: Vector, direction: Vector) -> Option<(f64, Edge)> {
        let one = self.one_newton(at, direction);
        let (now, more) = (self.edge_moments(), self.moments_of(&one));
        let mut first: Option<(f64, Edge)> = None;
        let mut keep = |force: f64, edge| {
            if first.is_none_or(|(before, _)| force < before) {
                first = Some((force, edge));
            }
        };
        for (index, (m0, m1)) in now.into_iter().zip(more).enumerate() {
            let stands = m0 >= 0.0;
            if !stands {
                keep(0.0, Edge::From(index));
            } else if m1 < 0.0 {
                keep(-m0 / m1, Edge::From(index));
            }
        }
        if one.force[2] > 0.0 {
            keep(-self.weights.force[2] / one.force[2], Edge::Whole);
        }
        first
    }

    /// The force in this direction at which the machine begins to slide; nothing where it never does.
    ///
    /// s (h + mu d_z) = mu N: an upward push on the tooth takes load off the supports. 0 friction slides at once where
    /// there is any level part.
    ///
    /// Source: Coulomb friction, definition; turning about the load point is not in it.
    pub fn slides_at(&self, direction: Vector) -> Option<f64> {
        let friction = self.stance.friction;
        let resisted = direction.r.abs() + friction * direction.z;
        (resisted > 0.0).then(|| friction * -self.weights.force[2] / resisted)
    }

    /// What each contact carries, in newtons, with this much of that force added.
    ///
    /// More than three supports share in a way that statics alone cannot tell. Taken here: equal upright springs under a
    /// stiff frame, R = c0 + c1 x + c2 y, and a support that would pull is let go of. Nothing where fewer than three
    /// supports are left, or the load lies outside them: it tips.
    pub fn reactions(&self, share: f64, force: &Wrench) -> Option<Vec<f64>> {
        let wrench = self.weights.plus(share, force);
        let wanted = [-wrench.force[2], wrench.moment[1], -wrench.moment[0]];
        let contacts = &self.stance.contacts;
        let mut carries = vec![true; contacts.len()];
        loop {
            if carries.iter().filter(|carries| **carries).count() < 3 {
                return None;
            }
            let [c0, c1, c2] = plane(contacts, &carries, wanted)?;
            let reactions: Vec<f64> = contacts
                .iter()
                .zip(&carries)
                .map(|(&[x, y], &carries)| if carries { c0 + c1 * x + c2 * y } else { 0.0 })
                .collect();
            if reactions.iter().all(|reaction| *reaction >= 0.0) {
                return Some(reactions);
            }
            for (carries, reaction) in carries.iter_mut().zip(&reactions) {
                *carries &= *reaction >= 0.0;
            }
        }
    }
}

/// The plane c0 + c1 x + c2 y whose heights at the carrying contacts sum to the load and its moments.
fn plane(contacts: &[[f64; 2]], carries: &[bool], wanted: [f64; 3]) -> Option<[f64; 3]> {
    let mut matrix = [[0.0; 3]; 3];
    for (&[x, y], _) in contacts
        .iter()
        .zip(carries)
        .filter(|(_, carries)| **carries)
    {
        let row = [1.0, x, y];
        for (into, left) in matrix.iter_mut().zip(row) {
            for (cell, right) in into.iter_mut().zip(row) {
                *cell += left * right;
            }
        }
    }
    let whole = determinant(&matrix);
    let part = |column: usize| {
        let mut replaced = matrix;
        for (row, value) in replaced.iter_mut().zip(wanted) {
            row[column] = value;
        }
        determinant(&replaced) / whole
    };
    let plane = [part(0), part(1), part(2)];
    plane.iter().all(|value| value.is_finite()).then_some(plane)
}

fn determinant(m: &[[f64; 3]; 3]) -> f64 {
    m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
}
