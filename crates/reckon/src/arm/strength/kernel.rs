//! From three ram lengths to the tooth and what each ram allows there: square roots and divisions, no angle.

use super::constants::{Constants, Corner};
use crate::arm::shape::{ArmShape, Joint, Vector};

/// The direction of the ground's force on the tooth, and with it which ram works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Against the bucket's curl; the bucket ram works.
    Curl,
    /// Against the dipper's crowd; the dipper ram works.
    Crowd,
    /// Straight up: the tooth is pressed down by the boom ram.
    PushDown,
    /// Straight down: the boom ram lifts.
    PullUp,
}

impl Direction {
    /// All of them.
    pub const ALL: [Direction; 4] = [
        Direction::Curl,
        Direction::Crowd,
        Direction::PushDown,
        Direction::PullUp,
    ];

    /// The ram that works.
    pub fn working(self) -> Joint {
        match self {
            Direction::Curl => Joint::Bucket,
            Direction::Crowd => Joint::Dipper,
            Direction::PushDown | Direction::PullUp => Joint::Boom,
        }
    }
}

/// What the kernel gives for one pose. Not a number where the pose does not close.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// The tooth's tip, in P.
    pub tooth: Vector,
    /// The direction of the force, in the arm plane.
    pub direction: Vector,
    /// The force each ram allows, in newtons: infinite where it never bites, -1 where it does not even hold the arm.
    pub allows: [f64; 3],
    /// Mass of the arm times the distance of its centre from the swing axis, in kg m: for tipping.
    pub moment: f64,
}

/// The arm made ready for many poses in one direction.
#[derive(Debug, Clone)]
pub struct Kernel {
    pub(super) constants: Constants,
    pub(super) limits: [(f64, f64); 3],
    direction: Direction,
}

impl Kernel {
    /// The kernel for this arm and direction. The shape is taken as it is: look at [`ArmShape::troubles`] first.
    pub fn new(shape: &ArmShape, direction: Direction) -> Self {
        let limits = Joint::ALL.map(|joint| {
            let ram = shape.ram(joint);
            if joint == direction.working() {
                ram.working()
            } else {
                ram.holding()
            }
        });
        Kernel {
            constants: Constants::of(shape),
            limits,
            direction,
        }
    }

    /// The direction it was made for.
    pub fn direction(&self) -> Direction {
        self.direction
    }

    /// Everything it was made ready with, and the limits (push and pull of each ram), in a fixed order: so that the same
    /// arithmetic in another language can be run beside it.
    pub fn numbers(&self) -> Vec<f64> {
        let limits = self.limits.iter().flat_map(|(push, pull)| [*push, *pull]);
        self.constants
            .in_order()
            .into_iter()
            .chain(limits)
            .collect()
    }

    /// One pose.
    pub fn at(&self, lengths: [f64; 3]) -> Strength {
        match self.direction {
            Direction::Curl => self.strength::<CURL>(lengths),
            Direction::Crowd => self.strength::<CROWD>(lengths),
            Direction::PushDown => self.strength::<PUSH_DOWN>(lengths),
            Direction::PullUp => self.strength::<PULL_UP>(lengths),
        }
    }

    /// One pose, the direction known when it is compiled. No branch depends on the pose, so that many poses can be
    /// worked out side by side; each operation is rounded by itself, so that the digits are the same on every machine.
    ///
    /// The equations are those of `force`, with the unit vector of each link in place of its angle: from L follow
    /// c = cos p and s = sqrt(1 - c^2), and the link's direction is a constant times c +- i s.
    #[inline(always)]
    pub(super) fn strength<const DIRECTION: u8>(&self, lengths: [f64; 3]) -> Strength {
        let k = &self.constants;
        let boom = swung(&k.corners[0], lengths[0], ONWARDS);
        let dipper = swung(&k.corners[1], lengths[1], boom.along);
        let bars = linkage(k, lengths[2]);
        let along_bucket = dipper.along_turned(bars.bucket);
        let to_dipper = boom.along * k.boom;
        let to_bucket = dipper.along * k.dipper;
        let tip = along_bucket * k.tip;

        let masses = masses_on_dipper(k, &bars).turned(dipper.along).r;
        let dipper_moment = masses + k.rams[1].rod * dipper.rod.r;
        let carried = k.on_boom.turned(boom.along).r;
        let boom_moment = carried
            + dipper_moment
            + k.rams[1].difference * dipper.unit.r
            + k.rams[0].rod * boom.rod.r;
        let gravity = [
            k.gravity * (boom_moment + k.rams[0].difference * boom.swing),
            k.gravity * (dipper_moment + k.rams[1].difference * dipper.swing),
            k.gravity * bucket_moment(k, &bars, dipper.along, along_bucket),
        ];

        let from_dipper = to_bucket + tip;
        let direction = direction::<DIRECTION>(k, tip, from_dipper);
        let turns = [
            direction.dot((to_dipper + from_dipper).quarter()),
            direction.dot(from_dipper.quarter()),
            direction.dot(tip.quarter()),
        ];
        let levers = [boom.lever, dipper.lever, bars.lever];
        let [first, second, third] = self.limits;
        let allows = [
            allows(gravity[0], turns[0], levers[0], first),
            allows(gravity[1], turns[1], levers[1], second),
            allows(gravity[2], turns[2], levers[2], third),
        ];
        Strength {
            tooth: k.foot + to_dipper + from_dipper,
            direction,
            allows,
            moment: k.boom_barrel
                + k.mass_from_foot * k.foot.r
                + boom_moment
                + k.rams[0].difference * boom.unit.r,
        }
    }
}

pub(super) const CURL: u8 = 0;
pub(super) const CROWD: u8 = 1;
pub(super) const PUSH_DOWN: u8 = 2;
pub(super) const PULL_UP: u8 = 3;

/// The direction of r itself: what the boom's triangle is measured against.
const ONWARDS: Vector = Vector::new(1.0, 0.0);

#[inline(always)]
fn direction<const DIRECTION: u8>(k: &Constants, tip: Vector, from_dipper: Vector) -> Vector {
    match DIRECTION {
        CURL => tip.quarter() * (1.0 / k.tip),
        CROWD => from_dipper.quarter() * (1.0 / from_dipper.length()),
        PUSH_DOWN => Vector::new(0.0, 1.0),
        _ => Vector::new(0.0, -1.0),
    }
}

/// A link swung by its triangle.
struct Swung {
    /// The link's direction, in P.
    along: Vector,
    /// The rod's pin, seen from the joint, in P.
    rod: Vector,
    /// The ram's direction, in P.
    unit: Vector,
    lever: f64,
    /// How the ram's own turn lifts its weights: u_r (u . rod) / L.
    swing: f64,
}

impl Swung {
    #[inline(always)]
    fn along_turned(&self, unit: Vector) -> Vector {
        self.along.turned(unit)
    }
}

#[inline(always)]
fn swung(corner: &Corner, length: f64, inner: Vector) -> Swung {
    let over = 1.0 / length;
    let cosine = (corner.squares - length * length) * corner.over_twice_product;
    let sine = (1.0 - cosine * cosine).sqrt();
    let turned = corner.start.turned(Vector::new(cosine, corner.sign * sine));
    let along = inner.turned(turned);
    let rod = corner.rod.turned(along);
    let unit = (rod - corner.barrel.turned(inner)) * over;
    Swung {
        along,
        rod,
        unit,
        lever: corner.signed_product * sine * over,
        swing: unit.r * unit.dot(rod) * over,
    }
}

/// The linkage in D.
struct Bars {
    shared: Vector,
    /// The shared pin seen from the lever's pin, and the link's pin seen from the bucket's pin.
    arm: Vector,
    crank: Vector,
    /// The bucket's direction against the dipper.
    bucket: Vector,
    unit: Vector,
    over_length: f64,
    lever_rate: f64,
    lever: f64,
}

#[inline(always)]
fn linkage(k: &Constants, length: f64) -> Bars {
    let over = 1.0 / length;
    let square = length * length;
    let along = (square - k.lever_square + k.to_lever_square) * (0.5 * k.over_to_lever_square);
    let across = k.shared_side * (square * k.over_to_lever_square - along * along).sqrt();
    let shared = k.barrel + k.to_lever * along + k.to_lever.quarter() * across;

    let way = shared - k.bucket_pin;
    let over_way = 1.0 / way.dot(way);
    let along = 0.5 + (k.crank_square - k.link_square) * (0.5 * over_way);
    let across = k.link_side * (k.crank_square * over_way - along * along).sqrt();
    let crank = way * along + way.quarter() * across;

    let arm = shared - k.lever_pin;
    let link = way - crank;
    let lever_rate = link.dot(crank.quarter()) / link.dot(arm.quarter());
    let unit = (shared - k.barrel) * over;
    Bars {
        shared,
        arm,
        crank,
        bucket: crank.turned_back(k.link_on_bucket) * k.over_crank_square,
        unit,
        over_length: over,
        lever_rate,
        lever: unit.dot(arm.quarter()) * lever_rate,
    }
}

/// Moment of mass of everything beyond the dipper's pin about it, in D.
#[inline(always)]
fn masses_on_dipper(k: &Constants, bars: &Bars) -> Vector {
    k.on_dipper
        + bars.shared * k.on_shared
        + (k.bucket_pin + bars.crank) * k.on_link_pin
        + k.on_bucket.turned(bars.bucket)
        + bars.unit * k.rams[2].difference
}

/// Moment of mass that a turn of the bucket lifts.
#[inline(always)]
fn bucket_moment(k: &Constants, bars: &Bars, dipper: Vector, bucket: Vector) -> f64 {
    let arm = bars.arm.turned(dipper).r;
    let unit = bars.unit.turned(dipper).r;
    let swing = unit * bars.unit.dot(bars.arm) * bars.over_length;
    let with_lever = (k.turning_lever + k.rams[2].rod) * arm + k.rams[2].difference * swing;
    with_lever * bars.lever_rate
        + k.on_link_pin * bars.crank.turned(dipper).r
        + k.on_bucket.turned(bucket).r
}

/// s = (Q - F lever) / T with F the limit on the side that the force squeezes: (Q - push lever) / T where the thrust
/// grows, (Q + pull lever) / T where it falls. Right for levers of either sign.
#[inline(always)]
fn allows(gravity: f64, turns: f64, lever: f64, (push, pull): (f64, f64)) -> f64 {
    let grows = turns * lever < 0.0;
    let limit = if grows { push } else { -pull };
    let force = (gravity - limit * lever) / turns;
    let force = if turns == 0.0 { f64::INFINITY } else { force };
    let size = lever.abs();
    let thrust = if lever < 0.0 { -gravity } else { gravity };
    let holds = (thrust <= push * size) & (thrust >= -pull * size);
    let gone = if thrust.is_nan() { f64::NAN } else { -1.0 };
    if holds { force } else { gone }
}
