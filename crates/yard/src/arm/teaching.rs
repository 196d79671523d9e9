//! Four poses for the cab, two to use and two to avoid, and which ram does the hard part: picked from the figures.

use super::ArmOfBook;
use super::machine::{closes, strength_map};
use super::missing::{NotKnown, Told};
use super::pose::{dug_from, pose};
use super::reading::shape;
use super::record::{Direction, PartRecord, PoseAsked};
use reckon::arm::pose::{Placed, reach_figures};
use reckon::arm::shape::{ArmShape, Joint, Vector};
use reckon::arm::strength::{Cell, MapGrid};

/// Two poses to use, then two to avoid: strong near the ground, carried close, a ram on its stop, far out. Each not known
/// where what it is picked by is not.
pub type TeachingPoses = [Told<TeachingPose>; 4];

/// A pose that teaches something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TeachingPose {
    /// Whether it is one to use.
    pub use_it: bool,
    /// What it teaches.
    pub why: TeachingReason,
    /// The ram lengths, for [`pose`].
    pub lengths: [f64; 3],
}

/// What a pose teaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TeachingReason {
    /// The arm is strongest near the ground here: this ram does the hard part, with up to so many newtons.
    HardPartFirst {
        /// The ram that works.
        ram: Joint,
        /// The usable force, all limits counted.
        force: f64,
    },
    /// Bucket curled and close to the machine: the load weighs least on it.
    CarriedClose,
    /// This ram is on its stop: the steel takes the load, no relief opens, and rods are bent there.
    OnItsStop {
        /// The ram.
        ram: Joint,
        /// True where it is fully out, false where fully in.
        out: bool,
    },
    /// The arm as far out as it gets on the ground: least strength, and the machine tips before it lifts much.
    FarOut {
        /// From the swing axis to the tooth, in metres.
        reach: f64,
    },
}

impl TeachingReason {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            TeachingReason::HardPartFirst { .. } => "hard-part-first",
            TeachingReason::CarriedClose => "carried-close",
            TeachingReason::OnItsStop { .. } => "on-its-stop",
            TeachingReason::FarOut { .. } => "far-out",
        }
    }
}

/// Who does the hard part of a cut near the ground, and who only scoops.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OrderOfWork {
    /// The pose it was found in: where the arm is strongest near the ground.
    pub lengths: [f64; 3],
    /// The direction of the cut.
    pub direction: Direction,
    /// The rams, the one for the hard part first. One that does not move the tooth that way stands last.
    pub parts: [PartRecord; 3],
}

/// Lengths tried of each ram.
const STEPS: u8 = 25;
/// A ram this near its end, as a share of the stroke, is not taken for a pose to use.
const FROM_THE_END: f64 = 0.06;
/// Near the ground: the tooth between so far under it and so far over it, in metres.
const NEAR_GROUND: (f64, f64) = (-0.5, 0.15);
/// The bucket is clear of the boom so far off its line, in metres.
const BOOM_CLEAR: f64 = 0.15;
/// Carried: the bucket at least so far over the ground, in metres, and its pin at most so far.
const CARRIED: (f64, f64) = (0.3, 1.6);

/// The four poses.
///
/// # Errors
/// Where there is no shape, or it does not close over its strokes.
pub fn teaching_poses(arm: &ArmOfBook) -> Told<TeachingPoses> {
    let shape = shape(arm)?;
    closes(arm)?;
    Ok([
        strong(arm),
        carried(shape),
        on_its_stop(shape),
        far_out(shape),
    ])
}

/// Which ram does the hard part of a cut drawn towards the machine, in the strongest pose near the ground.
///
/// # Errors
/// Where a force is not known there.
pub fn order_of_work(arm: &ArmOfBook) -> Told<OrderOfWork> {
    let (_, cell) = strongest_near_ground(arm)?;
    let direction = Direction::Crowd;
    let record = pose(arm, &PoseAsked::at(cell.lengths))?;
    let at = Direction::ALL.iter().position(|one| *one == direction);
    let force = record.forces[at.ok_or(NotKnown::NoPose)?]
        .as_ref()
        .map_err(|why| *why)?;
    Ok(OrderOfWork {
        lengths: cell.lengths,
        direction,
        parts: force.order?,
    })
}

fn strong(arm: &ArmOfBook) -> Told<TeachingPose> {
    let (direction, cell) = strongest_near_ground(arm)?;
    Ok(TeachingPose {
        use_it: true,
        why: TeachingReason::HardPartFirst {
            ram: direction.working(),
            force: cell.force,
        },
        lengths: cell.lengths,
    })
}

fn strongest_near_ground(arm: &ArmOfBook) -> Told<(Direction, Cell)> {
    let shape = shape(arm)?;
    let grid = MapGrid {
        steps: usize::from(STEPS),
        square: 0.1,
    };
    let near = |cell: &Cell| {
        Placed::at_lengths(shape, cell.lengths).is_ok_and(|placed| {
            (NEAR_GROUND.0..=NEAR_GROUND.1).contains(&placed.tooth.z)
                && placed.pivots[2].z > placed.tooth.z
        }) && between_ends(shape, cell.lengths)
    };
    let mut best: Option<(Direction, Cell)> = None;
    for direction in [Direction::Curl, Direction::Crowd] {
        let cells = strength_map(arm, direction, Some(dug_from(arm)?), grid)?;
        for cell in cells.into_iter().filter(near) {
            if best
                .as_ref()
                .is_none_or(|(_, before)| cell.force > before.force)
            {
                best = Some((direction, cell));
            }
        }
    }
    best.ok_or(NotKnown::NoPose)
}

fn between_ends(shape: &ArmShape, lengths: [f64; 3]) -> bool {
    Joint::ALL.iter().all(|joint| {
        let ram = shape.ram(*joint);
        let out = (lengths[joint.index()] - ram.closed) / ram.stroke;
        (FROM_THE_END..=1.0 - FROM_THE_END).contains(&out)
    })
}

/// The end of a ram's stroke that turns its joint inwards (clockwise): true = fully out.
fn inwards_is_out(shape: &ArmShape, joint: Joint) -> Told<bool> {
    let ram = shape.ram(joint);
    Ok(shape.angle_at(joint, ram.extended())? < shape.angle_at(joint, ram.closed)?)
}

/// The length of a ram so far from its inner end towards its outer one.
fn from_inwards(shape: &ArmShape, joint: Joint, share: f64) -> Told<f64> {
    let ram = shape.ram(joint);
    let out = if inwards_is_out(shape, joint)? {
        1.0 - share
    } else {
        share
    };
    Ok(ram.closed + out * ram.stroke)
}

/// Bucket curled, over the ground, its pin as near to the machine as it gets.
fn carried(shape: &ArmShape) -> Told<TeachingPose> {
    let bucket = from_inwards(shape, Joint::Bucket, FROM_THE_END)?;
    let best = least_of_grid(shape, [None, None, Some(bucket)], |placed| {
        let low = lowest(placed);
        let carried =
            low >= CARRIED.0 && placed.pivots[2].z <= CARRIED.1 && clear_of_the_boom(placed);
        carried.then_some(placed.pivots[2].r)
    })?;
    Ok(TeachingPose {
        use_it: true,
        why: TeachingReason::CarriedClose,
        lengths: best,
    })
}

/// Bucket pin, tooth and heel on the outer side of the boom's line, each as far off as a boom is thick.
fn clear_of_the_boom(placed: &Placed) -> bool {
    let [foot, dipper, bucket] = placed.pivots;
    let along = placed.along[0];
    let heel = if placed.heel.is_finite() {
        placed.heel
    } else {
        bucket
    };
    let beside = |point: Vector| along.cross(point - foot);
    let of_dipper = (dipper - foot).length();
    [bucket, placed.tooth, heel]
        .into_iter()
        .all(|point| beside(point) < -BOOM_CLEAR || along.dot(point - foot) > of_dipper)
}

fn lowest(placed: &Placed) -> f64 {
    let heel = if placed.heel.z.is_finite() {
        placed.heel.z
    } else {
        placed.tooth.z
    };
    placed.tooth.z.min(heel).min(placed.pivots[2].z)
}

/// The dipper ram at the end of its stroke with the dipper drawn in, the tooth on the ground.
fn on_its_stop(shape: &ArmShape) -> Told<TeachingPose> {
    let ram = Joint::Dipper;
    let out = inwards_is_out(shape, ram)?;
    let end = from_inwards(shape, ram, 0.0)?;
    let lengths = least_of_grid(shape, [None, Some(end), None], |placed| {
        (placed.pivots[2].z > placed.tooth.z).then_some(placed.tooth.z.abs())
    })?;
    Ok(TeachingPose {
        use_it: false,
        why: TeachingReason::OnItsStop { ram, out },
        lengths,
    })
}

fn far_out(shape: &ArmShape) -> Told<TeachingPose> {
    let farthest = reach_figures(shape)?.farthest_on_ground;
    let placed = farthest.ok_or(NotKnown::NoPose)?.placed;
    Ok(TeachingPose {
        use_it: false,
        why: TeachingReason::FarOut {
            reach: placed.tooth.r,
        },
        lengths: placed.lengths(),
    })
}

/// The pose of a grid, some rams fixed, for which a number is least; those without a number are passed over.
fn least_of_grid(
    shape: &ArmShape,
    fixed: [Option<f64>; 3],
    number: impl Fn(&Placed) -> Option<f64>,
) -> Told<[f64; 3]> {
    let tried = |index: usize| -> Vec<f64> {
        let ram = &shape.rams[index];
        let share = |step: u8| f64::from(step) / f64::from(STEPS - 1);
        let between = (0..STEPS).map(share).map(|share| {
            let inside = FROM_THE_END + (1.0 - 2.0 * FROM_THE_END) * share;
            ram.closed + inside * ram.stroke
        });
        fixed[index].map_or_else(|| between.collect(), |length| vec![length])
    };
    let (booms, dippers, buckets) = (tried(0), tried(1), tried(2));
    let mut best: Option<(f64, [f64; 3])> = None;
    for boom in &booms {
        for dipper in &dippers {
            for bucket in &buckets {
                let lengths = [*boom, *dipper, *bucket];
                let found = Placed::at_lengths(shape, lengths)
                    .ok()
                    .and_then(|placed| number(&placed));
                if let Some(found) = found
                    && best.is_none_or(|(before, _)| found < before)
                {
                    best = Some((found, lengths));
                }
            }
        }
    }
    best.map(|(_, lengths)| lengths).ok_or(NotKnown::NoPose)
}
