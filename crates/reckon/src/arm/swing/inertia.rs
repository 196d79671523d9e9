//! How hard the swinging arm is to start and to stop: its moment of inertia about the swing axis.

use crate::arm::force::weights_of;
use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Vector, Weight};

/// Moments of inertia of the parts about their own centres, in kg m2: about the link's own length and about the axis
/// square to it in the arm plane. 0 where not known: the part then counts as a point.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Inertias {
    /// Post: its mass and centre, and its inertia about an upright axis.
    pub post: (Weight, f64),
    /// Boom, dipper, bucket: (along, upright of it).
    pub links: [(f64, f64); 3],
    /// Lever and link of the bucket: (along, across).
    pub linkage: [(f64, f64); 2],
    /// Each joint's rams, one of them: (along, across of the barrel, across of the rod).
    pub rams: [(f64, f64, f64); 3],
}

/// The moment of inertia about the swing axis, in kg m2.
///
/// Sum of m r^2 of every part, and of each part's own I_along sin^2 phi + I_across cos^2 phi with its slope phi.
///
/// Source: parallel axes, definition.
pub fn swing_inertia(shape: &ArmShape, placed: &Placed, inertias: &Inertias) -> f64 {
    let mut sum = inertias.post.0.mass * inertias.post.0.centre.r * inertias.post.0.centre.r
        + inertias.post.1;
    for weight in weights_of(shape, placed) {
        sum += weight.mass * weight.centre.r * weight.centre.r;
    }
    let about = |along: Vector, own: (f64, f64)| {
        let square = along.dot(along);
        (own.0 * along.z * along.z + own.1 * along.r * along.r) / square
    };
    for (along, own) in placed.along.into_iter().zip(inertias.links) {
        sum += about(along, own);
    }
    let shared = placed.rods[2];
    sum += about(shared - placed.lever_pin, inertias.linkage[0]);
    sum += about(placed.link_pin - shared, inertias.linkage[1]);
    for (index, (along, barrel, rod)) in inertias.rams.into_iter().enumerate() {
        let ram = placed.rods[index] - placed.barrels[index];
        let count = f64::from(shape.rams[index].count);
        // What a ram has about its own length is counted half for the barrel and half for the rod.
        sum += count * (about(ram, (along, barrel)) + about(ram, (along, rod)));
    }
    sum
}
