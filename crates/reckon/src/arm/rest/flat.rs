//! The bucket flat on its bottom plate: can the arm lie there with no ram loaded at all?

use crate::arm::force::Statics;

/// What the ground would have to do for all three rams to be slack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatRest {
    /// Load on the ground, in newtons.
    pub load: f64,
    /// Level force of the ground on the plate, in newtons, outwards positive.
    pub level: f64,
    /// How far from the tooth, towards the heel, the load would have to act, in metres.
    pub from_tooth: f64,
    /// The length of the plate, in metres.
    pub plate: f64,
    /// The friction that would be needed.
    pub friction: f64,
}

impl FlatRest {
    /// True where it is a real rest on ground of this friction: the load lies within the plate and does not slide.
    /// Where it is not, the arm moves when the last circuit is bled.
    pub fn rests_on(&self, friction: f64) -> bool {
        self.load > 0.0
            && self.from_tooth >= 0.0
            && self.from_tooth <= self.plate
            && self.friction <= friction
    }
}

/// What the ground would have to do for all three rams to be slack, tooth and heel both on it.
///
/// For each joint k: N Re(T - pivot_k) - H Im(T - pivot_k) + M = dV/d theta_k, with the load N, the level force H and the
/// couple M about the tooth; the load then acts M / N from the tooth.
///
/// Nothing where the three joints lie so that the equations have no one answer.
///
/// Source: statics, definition.
pub fn flat_on_the_ground(statics: &Statics) -> Option<FlatRest> {
    let placed = &statics.placed;
    let [a, b, c] = placed.pivots.map(|pivot| placed.tooth - pivot);
    let [qa, qb, qc] = statics.gravity;
    // The couple falls out of the differences.
    let (one, other) = (a - b, b - c);
    let determinant = one.z * other.r - one.r * other.z;
    let (q1, q2) = (qa - qb, qb - qc);
    let load = (one.z * q2 - other.z * q1) / determinant;
    let level = (one.r * q2 - other.r * q1) / determinant;
    let couple = qc - load * c.r + level * c.z;
    let rest = FlatRest {
        load,
        level,
        from_tooth: couple / load * (placed.heel.r - placed.tooth.r).signum(),
        plate: (placed.heel - placed.tooth).length(),
        friction: (level / load).abs(),
    };
    (rest.from_tooth.is_finite() && rest.friction.is_finite()).then_some(rest)
}
