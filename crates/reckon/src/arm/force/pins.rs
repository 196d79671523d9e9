//! The force in every pin, by the equilibrium of each body.

use std::f64::consts::PI;

use super::thrust::Statics;
use crate::arm::shape::{ArmShape, Vector};

/// The force in every pin, in newtons: that of the inner part on the outer one, in the arm plane.
///
/// A ram is more than its thrust: its own weight loads its pins across it. The pin that bucket ram, lever and link share
/// joins three bodies, so that its load differs from side to side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinForces {
    /// Of the post on the boom.
    pub foot: Vector,
    /// Of the boom on the dipper.
    pub dipper_pin: Vector,
    /// Of the dipper on the bucket.
    pub bucket_pin: Vector,
    /// Of the dipper on the lever.
    pub lever_pin: Vector,
    /// Of the link on the bucket.
    pub link_pin: Vector,
    /// Of the shared pin on the link.
    pub shared_on_link: Vector,
    /// Of the shared pin on the lever.
    pub shared_on_lever: Vector,
    /// Of the inner part on each ram's barrel.
    pub barrels: [Vector; 3],
    /// Of each ram's rod on the outer part.
    pub rods: [Vector; 3],
}

/// The force in every pin with this force of the ground on the tooth.
///
/// Each ram: across it by moments about the barrel's pin, along it u . P = -(thrust) - u . W of the rod. Link: across it by
/// moments, along it from the bucket's moments about its pin. Then bucket, lever, dipper, boom, one after the other. The
/// lever's own moments are not used: that they vanish checks the thrusts.
///
/// Source: statics of each free body, definition.
pub fn pin_forces(shape: &ArmShape, statics: &Statics, tooth_force: Vector) -> PinForces {
    let placed = &statics.placed;
    let weight = |mass: f64| Vector::new(0.0, -mass * shape.gravity);
    let thrusts = statics.with_tooth_force(tooth_force);
    let mut barrels = [Vector::default(); 3];
    let mut rods = [Vector::default(); 3];
    for (index, ram) in shape.rams.iter().enumerate() {
        let length = placed.grips[index].length;
        let along = (placed.rods[index] - placed.barrels[index]) * (1.0 / length);
        let across = along.quarter();
        let count = f64::from(ram.count);
        let (barrel, rod) = (
            weight(count * ram.barrel.0),
            weight(count * ram.rod_weight.0),
        );
        let sideways = (ram.barrel.1 * across.dot(barrel)
            + (length - ram.rod_weight.1) * across.dot(rod))
            / length;
        let endways = thrusts[index] + along.dot(rod);
        rods[index] = along * endways + across * sideways;
        barrels[index] = rods[index] - barrel - rod;
    }

    let (shared, link_at) = (placed.rods[2], placed.link_pin);
    let way = (link_at - shared) * (1.0 / shape.linkage.link());
    let link_weight = weight(shape.link_weight.0);
    let share = shape.link_weight.1 / shape.linkage.link();
    // What the link does to the bucket: across it known, along it from the bucket's moments.
    let across = way.quarter() * (share * way.quarter().dot(link_weight));
    let pin = placed.pivots[2];
    let on_bucket = [shape.bucket.weight, shape.bucket.load].map(|part| {
        let at = part.centre.turned(placed.along[2]);
        (at, weight(part.mass))
    });
    let moment = (placed.tooth - pin).cross(tooth_force)
        + on_bucket
            .iter()
            .map(|(at, force)| at.cross(*force))
            .sum::<f64>()
        + (link_at - pin).cross(across);
    let link_pin = across + way * (-moment / (link_at - pin).cross(way));
    let bucket_pin = -(link_pin + tooth_force + on_bucket[0].1 + on_bucket[1].1);
    let shared_on_link = link_pin - link_weight;
    let shared_on_lever = rods[2] - shared_on_link;
    let lever_pin = -(shared_on_lever + weight(shape.lever_weight.0));
    let dipper_pin =
        bucket_pin + lever_pin + barrels[2] - rods[1] - weight(shape.dipper_weight.mass);
    let foot = dipper_pin + barrels[1] - rods[0] - weight(shape.boom_weight.mass);
    PinForces {
        foot,
        dipper_pin,
        bucket_pin,
        lever_pin,
        link_pin,
        shared_on_link,
        shared_on_lever,
        barrels,
        rods,
    }
}

/// Shear stress in a solid pin, in pascals: force over the area of the `planes` it is cut in, 2 for a pin held on both
/// sides. Source: definition; bending of a loose pin is not in it.
pub fn pin_shear(force: f64, diameter: f64, planes: f64) -> f64 {
    force / (planes * PI / 4.0 * diameter * diameter)
}

/// Bearing pressure of a pin in its bush, in pascals: force over diameter times length. Source: definition.
pub fn pin_bearing(force: f64, diameter: f64, length: f64) -> f64 {
    force / (diameter * length)
}
