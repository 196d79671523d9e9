//! A survey taken of a known machine: distances from its pins, poses from its own kinematics, noise from a seed.

use rand_chacha::ChaCha20Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{ArmShape, Triangle, Turns, Vector};
use reckon::arm::survey::{
    Assembly, Body, Geometry, Pin, RamEnds, Reading, Survey, Taped, all_distances,
};

use crate::machine::{Machine, mini_excavator, reference};

/// A good tape, in metres.
pub(crate) const TAPE: f64 = 0.0015;

pub(crate) fn ram_ends(shape: &ArmShape) -> [RamEnds; 3] {
    [0, 1, 2].map(|joint| RamEnds {
        closed: shape.rams[joint].closed,
        open: shape.rams[joint].extended(),
    })
}

/// Where a pin is on a body, by the fields of the geometry.
fn on(body: Body, pin: Pin, pins: &Geometry) -> Vector {
    let along = |length: f64| Vector::new(length, 0.0);
    match (body, pin) {
        (Body::Post, Pin::BoomFoot) => pins.foot,
        (_, Pin::BoomRamBarrel) => pins.boom_barrel,
        (_, Pin::BoomRamRod) => pins.boom_rod,
        (_, Pin::DipperRamBarrel) => pins.dipper_barrel,
        (Body::Boom, Pin::DipperPin) => along(pins.boom_length),
        (_, Pin::DipperRamRod) => pins.dipper_rod,
        (_, Pin::BucketRamBarrel) => pins.bucket_barrel,
        (Body::Dipper, Pin::LeverPin) => pins.lever_pin,
        (Body::Dipper, Pin::BucketPin) => along(pins.dipper_length),
        (Body::Bucket, Pin::LinkPin) => pins.link_pin,
        (_, Pin::Tooth) => along(pins.tip_radius),
        (_, Pin::Heel) => pins.heel,
        (Body::Lever, Pin::LinkagePin) => along(pins.lever),
        (Body::Link, Pin::LinkPin) => along(pins.link),
        _ => Vector::default(),
    }
}

/// What a perfect tape reads between two pins.
pub(crate) fn reads(pins: &Geometry, from: Pin, to: Pin) -> f64 {
    let body = Body::of_both(from, to).unwrap();
    let (a, b) = (on(body, from, pins), on(body, to, pins));
    match (from, to) {
        (Pin::Ground, _) => b.z,
        (_, Pin::Ground) => a.z,
        (Pin::SwingAxis, _) => b.r,
        (_, Pin::SwingAxis) => a.r,
        _ => (b - a).length(),
    }
}

/// A survey of this machine with these distances and no noise, begun from its own pins.
pub(crate) fn perfect(shape: &ArmShape, pairs: &[(Pin, Pin)]) -> Survey {
    let nominal = Geometry::of(shape);
    let taped = |&(from, to): &(Pin, Pin)| Taped {
        from,
        to,
        metres: reads(&nominal, from, to),
        sd: TAPE,
    };
    Survey {
        nominal,
        assembly: Assembly::of(shape),
        rams: ram_ends(shape).map(Some),
        distances: pairs.iter().map(taped).collect(),
        readings: Vec::new(),
        next_sd: TAPE,
    }
}

/// A perfect reading with the rams at these shares of their stroke.
pub(crate) fn reading(shape: &ArmShape, shares: [f64; 3], sd: f64) -> Reading {
    let rams = [0, 1, 2].map(|joint| {
        let ram = &shape.rams[joint];
        ram.closed + shares[joint] * ram.stroke
    });
    let tooth = Placed::at_lengths(shape, rams).unwrap().tooth;
    Reading {
        rams,
        rams_sd: sd,
        tooth_height: Some(tooth.z),
        reach: Some(tooth.r),
        tooth_sd: sd,
    }
}

/// Everything a tape can be held between.
pub(crate) fn everything(shape: &ArmShape) -> Survey {
    perfect(shape, &all_distances())
}

/// A few poses spread over the strokes.
pub(crate) const POSES: [[f64; 3]; 5] = [
    [0.2, 0.2, 0.3],
    [0.5, 0.4, 0.7],
    [0.7, 0.8, 0.4],
    [0.35, 0.9, 0.8],
    [0.9, 0.15, 0.6],
];

/// Chance with a seed: even and normal.
pub(crate) struct Chance(ChaCha20Rng);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Chance(ChaCha20Rng::seed_from_u64(seed))
    }

    pub(crate) fn even(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }

    pub(crate) fn normal(&mut self) -> f64 {
        let far = (-2.0 * libm::log(self.even())).sqrt();
        far * libm::cos(std::f64::consts::TAU * self.even())
    }

    /// Every measurement with an error of its own uncertainty.
    pub(crate) fn disturb(&mut self, survey: &mut Survey) {
        for taped in &mut survey.distances {
            taped.metres += taped.sd * self.normal();
        }
        for reading in &mut survey.readings {
            for length in &mut reading.rams {
                *length += reading.rams_sd * self.normal();
            }
            let sd = reading.tooth_sd;
            reading.tooth_height = reading
                .tooth_height
                .map(|height| height + sd * self.normal());
            reading.reach = reading.reach.map(|reach| reach + sd * self.normal());
        }
    }

    /// A first guess: every number up to so large a share and so many metres off.
    pub(crate) fn guess(&mut self, pins: &Geometry, share: f64, metres: f64) -> Geometry {
        let either = |chance: &mut Self| 2.0 * chance.even() - 1.0;
        let moved = pins
            .to_list()
            .map(|number| number * (1.0 + share * either(self)) + metres * either(self));
        Geometry::from_list(&moved)
    }
}

fn flipped(pin: Vector) -> Vector {
    Vector::new(pin.r, -pin.z)
}

/// The reference machine seen in a mirror: its linkage under the dipper, every ram turning the other way.
pub(crate) fn mirrored() -> ArmShape {
    let shape = reference().shape;
    let mut pins = Geometry::of(&shape);
    for pin in [
        &mut pins.boom_rod,
        &mut pins.dipper_barrel,
        &mut pins.dipper_rod,
        &mut pins.bucket_barrel,
        &mut pins.lever_pin,
        &mut pins.link_pin,
        &mut pins.heel,
    ] {
        *pin = flipped(*pin);
    }
    pins.boom_barrel = pins.foot + flipped(pins.boom_barrel - pins.foot);
    let other_way = |triangle: &Triangle| match triangle.turns() {
        Turns::Clockwise => Turns::CounterClockwise,
        Turns::CounterClockwise => Turns::Clockwise,
    };
    let sides = shape.linkage.sides().map(|side| side < 0.0);
    let assembly = Assembly {
        boom: other_way(&shape.boom_triangle),
        dipper: other_way(&shape.dipper_triangle),
        linkage: sides,
    };
    pins.into_shape(assembly, shape)
}

/// The machines a survey is tried on.
pub(crate) fn machines() -> Vec<(&'static str, ArmShape)> {
    let shape = |machine: Machine| machine.shape;
    vec![
        ("reference", shape(reference())),
        ("mini excavator", shape(mini_excavator())),
        ("mirrored", mirrored()),
    ]
}
