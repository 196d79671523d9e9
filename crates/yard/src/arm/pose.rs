//! One pose, every figure of it.

use super::forces::{self, Ground};
use super::missing::{NotKnown, Told, missing};
use super::reading::shape;
use super::record::{HangingRam, PoseAsked, PoseRecord, PoseWarning, RamRecord};
use super::{ArmOfBook, StanceOfArm};
use super::{MissingCode, at_rest, footing, moving};
use reckon::arm::force::{Footing, Stance, Statics};
use reckon::arm::pose::Placed;
use reckon::arm::rest::ShutIn;
use reckon::arm::shape::{ArmShape, Joint, Stop, Vector, Weight};
use std::borrow::Cow;

/// A lever shorter than this share of the longest is near its dead centre: the ram must then push ten times as hard.
const NEAR_DEAD: f64 = 0.1;

/// Every figure of one pose. Ram lengths beyond the strokes are taken as they are and warned of.
///
/// # Errors
/// Where the book does not say enough for the shape, or the shape does not close in this pose.
pub fn pose(arm: &ArmOfBook, asked: &PoseAsked) -> Told<PoseRecord> {
    let shape = loaded(arm, asked)?;
    let placed = Placed::at_lengths(&shape, asked.lengths)?;
    let statics = Statics::hanging(&shape, placed).map_err(NotKnown::from);
    let stances: Vec<Told<Stance>> = arm
        .stances
        .iter()
        .map(|stance| swung(stance, asked.swing))
        .collect();
    let grounds: Vec<Ground<'_>> = arm
        .stances
        .iter()
        .zip(&stances)
        .map(|(of_arm, stance)| Ground {
            name: of_arm.name,
            footing: stance
                .as_ref()
                .map_err(|why| *why)
                .and_then(|stance| arm.weights.map(|()| Footing::new(&shape, &placed, stance))),
            friction: of_arm.friction,
        })
        .collect();
    let hanging = hanging(arm, &shape, &statics);
    let columns = Joint::ALL.map(|joint| at_rest::column(arm, &shape, joint, &placed));
    let mut record = PoseRecord {
        asked: asked.clone(),
        rams: Joint::ALL.map(|joint| ram(&shape, &placed, joint)),
        angles: placed.angles(),
        attitude: placed.along[2].angle(),
        pivots: placed.pivots,
        barrels: placed.barrels,
        rods: placed.rods,
        lever_pin: placed.lever_pin,
        link_pin: placed.link_pin,
        tooth: placed.tooth,
        tooth_plus_minus: arm
            .survey
            .as_ref()
            .and_then(|survey| survey.tooth_plus_minus(asked.lengths)),
        heel: placed.heel.is_finite().then_some(placed.heel),
        hanging,
        forces: forces::in_all_directions(arm, &shape, &statics, &grounds, &columns),
        lift: forces::lift(arm, &shape, &statics, &grounds),
        footing: footing::all(arm, &placed, &grounds),
        swing: moving::swing(arm, &shape, &placed, asked.swing),
        columns,
        rest: at_rest::left_so(arm, &shape, &statics),
        tank: moving::tank(arm, &shape, asked),
        warnings: Vec::new(),
        rests_on_guess: arm.guesses.any(),
    };
    record.warnings = warnings(arm, &record);
    Ok(record)
}

/// Ram lengths that are so far out, as shares of the strokes from 0 to 1.
///
/// # Errors
/// Where there is no shape.
pub fn lengths_out(arm: &ArmOfBook, shares: [f64; 3]) -> Told<[f64; 3]> {
    let shape = shape(arm)?;
    Ok([0, 1, 2].map(|ram| shape.rams[ram].closed + shares[ram] * shape.rams[ram].stroke))
}

/// Ram lengths of these extensions: metres out from fully in.
///
/// # Errors
/// Where there is no shape.
pub fn lengths_of_extensions(arm: &ArmOfBook, extensions: [f64; 3]) -> Told<[f64; 3]> {
    let shape = shape(arm)?;
    Ok([0, 1, 2].map(|ram| shape.rams[ram].closed + extensions[ram]))
}

/// Ram lengths within the strokes that put the tooth at this place of P with the bucket's line from pin to tooth so far
/// over level; at most two, none where the arm cannot.
///
/// # Errors
/// Where there is no shape, or the place is out of reach whatever the rams.
pub fn to_reach(arm: &ArmOfBook, tooth: Vector, attitude: f64) -> Told<Vec<[f64; 3]>> {
    let shape = shape(arm)?;
    let ways = reckon::arm::pose::to_reach(shape, tooth, attitude)?;
    Ok(ways
        .iter()
        .filter_map(|way| way.placed_within_travel(shape))
        .map(|placed| placed.lengths())
        .collect())
}

/// The shape with what lies in the bucket.
pub(super) fn loaded<'a>(arm: &'a ArmOfBook, asked: &PoseAsked) -> Told<Cow<'a, ArmShape>> {
    let empty = shape(arm)?;
    if asked.load == 0.0 {
        return Ok(Cow::Borrowed(empty));
    }
    let mut shape = empty.clone();
    shape.bucket.load = Weight {
        mass: asked.load,
        centre: arm.load_centre?,
    };
    Ok(Cow::Owned(shape))
}

fn swung(of_arm: &StanceOfArm, swing: f64) -> Told<Stance> {
    let mut stance = of_arm.stance.clone()?;
    stance.heading += swing;
    Ok(stance)
}

fn ram(shape: &ArmShape, placed: &Placed, joint: Joint) -> RamRecord {
    let (ram, grip) = (shape.ram(joint), placed.grips[joint.index()]);
    let extension = grip.length - ram.closed;
    RamRecord {
        joint,
        length: grip.length,
        extension,
        out: extension / ram.stroke,
        stop: placed.stops[joint.index()],
        angle: grip.angle,
        lever: grip.lever,
    }
}

fn hanging(arm: &ArmOfBook, shape: &ArmShape, statics: &Told<Statics>) -> Told<[HangingRam; 3]> {
    arm.weights?;
    let statics = statics.as_ref().map_err(|why| *why)?;
    Ok(Joint::ALL.map(|joint| {
        let thrust = statics.hanging[joint.index()];
        HangingRam {
            thrust,
            shut_in: arm.sizes[joint.index()].map(|()| {
                let (side, pressure) = shape.ram(joint).pressure_for(thrust);
                ShutIn {
                    thrust,
                    side,
                    pressure,
                }
            }),
        }
    }))
}

fn warnings(arm: &ArmOfBook, record: &PoseRecord) -> Vec<PoseWarning> {
    let mut all = Vec::new();
    for ram in &record.rams {
        match ram.stop {
            Stop::TooShort(_) | Stop::TooLong(_) => {
                all.push(PoseWarning::BeyondStroke(ram.joint));
            }
            Stop::FullyIn | Stop::FullyOut => {
                all.push(PoseWarning::OnItsStop(ram.joint, ram.stop));
            }
            Stop::Between => {}
        }
        if ram.lever.abs() < NEAR_DEAD * arm.longest_levers[ram.joint.index()] {
            all.push(PoseWarning::NearDeadCentre(ram.joint));
        }
    }
    for joint in Joint::ALL {
        if forces::cannot_hold_itself(record, joint) {
            all.push(PoseWarning::CannotHoldItself(joint));
        }
    }
    let tips = record.footing.iter().filter(|footing| {
        footing
            .figures
            .as_ref()
            .is_ok_and(|figures| !figures.stands)
    });
    all.extend(tips.map(|footing| PoseWarning::TipsByItself(footing.stance)));
    if record.tooth.z < 0.0 {
        all.push(PoseWarning::BelowGround);
    }
    all
}

/// Not known where there is no stance to dig from.
pub(super) fn dug_from(arm: &ArmOfBook) -> Told<usize> {
    arm.digs_from
        .map_or_else(|| missing(MissingCode::SupportAny, ""), Ok)
}
