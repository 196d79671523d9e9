//! What every weight of the arm, the rams' own among them, does at each joint.

use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Joint, Vector, Weight};

/// One weight of the arm in a pose: its mass, its place in P, and its velocity for one radian a second at each joint.
struct Carried {
    mass: f64,
    place: Vector,
    moves: [Vector; 3],
}

/// The work against gravity for a radian at each joint: dV / d theta, in newton metres.
///
/// V is the sum of m g z over boom, dipper, bucket with its load, lever, link, and barrel and rod of each ram. A link
/// moves with its own joint and those inside of it. A barrel's centre lies at A + c u from its pin A, a rod's at B - c u
/// from its pin B, with u = (B - A) / L; u turns with du = i u (i u . dw) / L where dw = dB - dA. The shared pin of the
/// bucket's linkage moves with i (J - G) lambda.
///
/// Leaving the rams' weights out, or halving each onto its pins, errs by up to 1 % of the thrust.
///
/// Source: principle of virtual work, definition.
pub fn gravity_moments(shape: &ArmShape, placed: &Placed) -> [f64; 3] {
    let mut moments = [0.0; 3];
    for carried in all(shape, placed) {
        for (moment, moves) in moments.iter_mut().zip(carried.moves) {
            *moment += carried.mass * shape.gravity * moves.z;
        }
    }
    moments
}

/// The arm's whole mass and the place of its centre in P, rams and load included.
pub fn whole_arm(shape: &ArmShape, placed: &Placed) -> Weight {
    let mut mass = 0.0;
    let mut sum = Vector::default();
    for carried in all(shape, placed) {
        mass += carried.mass;
        sum = sum + carried.place * carried.mass;
    }
    let centre = if mass > 0.0 {
        sum * (1.0 / mass)
    } else {
        Vector::default()
    };
    Weight { mass, centre }
}

/// Every weight of the arm and its place in P: links, bucket and load, lever and link, barrel and rod of each ram.
pub fn weights_of(shape: &ArmShape, placed: &Placed) -> Vec<Weight> {
    all(shape, placed)
        .map(|carried| Weight {
            mass: carried.mass,
            centre: carried.place,
        })
        .collect()
}

fn all(shape: &ArmShape, placed: &Placed) -> impl Iterator<Item = Carried> {
    let links = [
        link(placed, Joint::Boom, shape.boom_weight),
        link(placed, Joint::Dipper, shape.dipper_weight),
        link(placed, Joint::Bucket, shape.bucket.weight),
        link(placed, Joint::Bucket, shape.bucket.load),
    ];
    let linkage = lever_and_link(shape, placed);
    let rams = Joint::ALL.map(|joint| ram(shape, placed, joint));
    links
        .into_iter()
        .chain(linkage)
        .chain(rams.into_iter().flatten())
}

/// The velocity of a point that is fixed to this link, for a radian a second at each joint.
pub(super) fn moves_with(placed: &Placed, joint: Joint, place: Vector) -> [Vector; 3] {
    let turns = |inner: Joint| {
        if inner <= joint {
            (place - placed.pivots[inner.index()]).quarter()
        } else {
            Vector::default()
        }
    };
    Joint::ALL.map(turns)
}

fn link(placed: &Placed, joint: Joint, weight: Weight) -> Carried {
    let index = joint.index();
    let place = placed.pivots[index] + weight.centre.turned(placed.along[index]);
    Carried {
        mass: weight.mass,
        place,
        moves: moves_with(placed, joint, place),
    }
}

fn lever_and_link(shape: &ArmShape, placed: &Placed) -> [Carried; 2] {
    let (shared, rate) = (placed.rods[2], placed.bars.lever_rate);
    let about_lever = |place: Vector| {
        let mut moves = moves_with(placed, Joint::Dipper, place);
        moves[2] = (place - placed.lever_pin).quarter() * rate;
        moves
    };
    let (lever_mass, along_lever) = shape.lever_weight;
    let lever_place =
        placed.lever_pin + (shared - placed.lever_pin) * (along_lever / shape.linkage.lever());
    let (link_mass, along_link) = shape.link_weight;
    let share = along_link / shape.linkage.link();
    let link_place = shared + (placed.link_pin - shared) * share;
    let at_bucket = moves_with(placed, Joint::Bucket, placed.link_pin);
    let mut link_moves = moves_with(placed, Joint::Dipper, link_place);
    link_moves[2] = about_lever(shared)[2] * (1.0 - share) + at_bucket[2] * share;
    [
        Carried {
            mass: lever_mass,
            place: lever_place,
            moves: about_lever(lever_place),
        },
        Carried {
            mass: link_mass,
            place: link_place,
            moves: link_moves,
        },
    ]
}

/// Barrel and rod of one joint's rams.
fn ram(shape: &ArmShape, placed: &Placed, joint: Joint) -> [Carried; 2] {
    let index = joint.index();
    let sizes = shape.ram(joint);
    let (barrel_pin, rod_pin) = (placed.barrels[index], placed.rods[index]);
    let length = placed.grips[index].length;
    let along = (rod_pin - barrel_pin) * (1.0 / length);
    let barrel_moves = match joint {
        Joint::Boom => [Vector::default(); 3],
        Joint::Dipper => moves_with(placed, Joint::Boom, barrel_pin),
        Joint::Bucket => moves_with(placed, Joint::Dipper, barrel_pin),
    };
    let mut rod_moves = moves_with(placed, joint, rod_pin);
    if joint == Joint::Bucket {
        rod_moves[2] = (rod_pin - placed.lever_pin).quarter() * placed.bars.lever_rate;
    }
    let (barrel_mass, from_barrel) = sizes.barrel;
    let (rod_mass, from_rod) = sizes.rod_weight;
    let mut barrel = Carried {
        mass: f64::from(sizes.count) * barrel_mass,
        place: barrel_pin + along * from_barrel,
        moves: barrel_moves,
    };
    let mut rod = Carried {
        mass: f64::from(sizes.count) * rod_mass,
        place: rod_pin - along * from_rod,
        moves: rod_moves,
    };
    for joint in 0..3 {
        let turning = along.quarter().dot(rod_moves[joint] - barrel_moves[joint]) / length;
        let along_moves = along.quarter() * turning;
        barrel.moves[joint] = barrel_moves[joint] + along_moves * from_barrel;
        rod.moves[joint] = rod_moves[joint] - along_moves * from_rod;
    }
    [barrel, rod]
}
