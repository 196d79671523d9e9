//! What holds in any pose: how far the arm reaches, how each ram ranges, what the standards' forces are, how strong it is
//! where.

use super::ArmOfBook;
use super::missing::{NotKnown, Told};
use super::reading::shape;
use super::record::Direction;
use reckon::arm::force::{Footing, StandardForce, standard_crowd, standard_curl};
use reckon::arm::pose::{Placed, ReachFigures, reach_figures};
use reckon::arm::shape::{ArmShape, Joint, ShapeTrouble};
use reckon::arm::strength;

pub use reckon::arm::strength::{Cell, Likely, MapGrid, Strongest};

/// What holds in any pose.
#[derive(Clone, Debug, PartialEq)]
pub struct MachineRecord {
    /// Depth, reach on the ground and dump height, each with its pose.
    pub reach: Told<ReachFigures>,
    /// Boom, dipper and bucket ram over the stroke.
    pub ranges: [Told<RamRange>; 3],
    /// Curl and crowd by the standards' definition.
    pub standard: Told<StandardForces>,
    /// What is wrong with the shape over the strokes.
    pub troubles: Vec<ShapeTrouble>,
    /// Whether any number rests on a blank's nominal shape.
    pub rests_on_guess: bool,
}

/// A ram over its stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RamRange {
    /// Its joint.
    pub joint: Joint,
    /// Pin to pin, fully in.
    pub closed: f64,
    /// Pin to pin, fully out.
    pub open: f64,
    /// The joint's angle, fully in.
    pub angle_in: f64,
    /// The joint's angle, fully out.
    pub angle_out: f64,
    /// The longest lever over the stroke.
    pub longest_lever: f64,
}

/// Curl and crowd by the standards' definition: best pose, no weights, no friction, machine held down. Upper bounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandardForces {
    /// The bucket ram's, at the point of application.
    pub curl: StandardForce,
    /// The dipper ram's, with the bucket where it curls hardest.
    pub crowd: StandardForce,
    /// Where both act.
    pub at: PointOfApplication,
}

/// Where a standard force acts: forces at different points differ as the radii do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointOfApplication {
    /// The outermost point of the teeth, as SAE J1179 has it. ISO 6015 takes the lip.
    ToothTip,
}

impl PointOfApplication {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(self) -> &'static str {
        match self {
            PointOfApplication::ToothTip => "tooth-tip",
        }
    }
}

/// What holds in any pose of this arm.
pub fn machine(arm: &ArmOfBook) -> MachineRecord {
    MachineRecord {
        reach: shape(arm).and_then(|shape| {
            closes(arm)?;
            Ok(reach_figures(shape)?)
        }),
        ranges: Joint::ALL.map(|joint| range(arm, joint)),
        standard: standard(arm),
        troubles: arm.troubles.clone(),
        rests_on_guess: arm.guesses.any(),
    }
}

/// The largest usable force in every square of the reach, in newtons, with all limits.
///
/// - `standing`: which of [`ArmOfBook::stances`]; none = the machine taken as held down.
///
/// # Errors
/// Where a weight, a size, a pressure, or for a stance its corners or friction are not known.
pub fn strength_map(
    arm: &ArmOfBook,
    direction: Direction,
    standing: Option<usize>,
    grid: MapGrid,
) -> Told<Vec<Cell>> {
    with_all_limits(arm, direction, standing, |shape, footing| {
        Ok(strength::strength_map(shape, direction, footing, grid))
    })
}

/// The pose with the largest usable force in this direction; `standing` as for [`strength_map`], `steps` lengths tried of
/// each ram.
///
/// # Errors
/// As [`strength_map`]; `NoPose` where no pose can use any force.
pub fn strongest(
    arm: &ArmOfBook,
    direction: Direction,
    standing: Option<usize>,
    steps: usize,
) -> Told<Strongest> {
    with_all_limits(arm, direction, standing, |shape, footing| {
        strength::strongest(shape, direction, footing, steps).ok_or(NotKnown::NoPose)
    })
}

/// Which limit governs the usable force in one pose and how likely, with its interval: by seeded draws of the pins as the
/// survey knows them. `standing` as for [`strength_map`].
///
/// # Errors
/// As [`strength_map`]; `NoPose` where there is no survey that settles every pin, or no force in this pose.
pub fn likely(
    arm: &ArmOfBook,
    lengths: [f64; 3],
    direction: Direction,
    standing: Option<usize>,
    (draws, seed): (usize, u64),
) -> Told<Likely> {
    let survey = arm.survey.as_ref().filter(|survey| survey.complete);
    let survey = survey.ok_or(NotKnown::NoPose)?;
    let stance = standing.map(|at| {
        let of_arm = arm.stances.get(at);
        let of_arm = of_arm.ok_or_else(super::standing::no_support)?;
        of_arm.stance.as_ref().map_err(|why| *why)
    });
    let stance = stance.transpose()?;
    with_all_limits(arm, direction, standing, |shape, _| {
        let (places, covariance) = survey.solved.uncertain_numbers();
        let uncertain = (&places[..], &covariance[..]);
        strength::likely(shape, uncertain, lengths, direction, stance, (draws, seed))
            .map_err(|_| NotKnown::NoPose)
    })
}

fn with_all_limits<T>(
    arm: &ArmOfBook,
    direction: Direction,
    standing: Option<usize>,
    then: impl FnOnce(&ArmShape, Option<&Footing<'_>>) -> Told<T>,
) -> Told<T> {
    let shape = shape(arm)?;
    closes(arm)?;
    arm.weights?;
    for joint in Joint::ALL {
        let index = joint.index();
        let pressure = if joint == direction.working() {
            arm.supplies[index]
        } else {
            arm.reliefs[index]
        };
        arm.sizes[index].and(pressure)?;
    }
    let Some(at) = standing else {
        return then(shape, None);
    };
    let of_arm = arm
        .stances
        .get(at)
        .ok_or_else(super::standing::no_support)?;
    of_arm.friction?;
    let stance = of_arm.stance.as_ref().map_err(|why| *why)?;
    let middle = [0, 1, 2].map(|ram| shape.rams[ram].closed + 0.5 * shape.rams[ram].stroke);
    let placed = Placed::at_lengths(shape, middle)?;
    then(shape, Some(&Footing::new(shape, &placed, stance)))
}

/// Whether the shape closes over the whole stroke of every ram.
pub(super) fn closes(arm: &ArmOfBook) -> Told<()> {
    arm.troubles
        .first()
        .map_or(Ok(()), |trouble| Err(NotKnown::Shape(*trouble)))
}

fn range(arm: &ArmOfBook, joint: Joint) -> Told<RamRange> {
    let shape = shape(arm)?;
    let ram = shape.ram(joint);
    Ok(RamRange {
        joint,
        closed: ram.closed,
        open: ram.extended(),
        angle_in: shape.angle_at(joint, ram.closed)?,
        angle_out: shape.angle_at(joint, ram.extended())?,
        longest_lever: arm.longest_levers[joint.index()],
    })
}

fn standard(arm: &ArmOfBook) -> Told<StandardForces> {
    let shape = shape(arm)?;
    for index in [1, 2] {
        arm.sizes[index].and(arm.supplies[index])?;
    }
    let curl = standard_curl(shape, shape.bucket.tip_radius)?;
    Ok(StandardForces {
        curl,
        crowd: standard_crowd(shape, curl.angle)?,
        at: PointOfApplication::ToothTip,
    })
}
