//! How deep, how far and how high the arm gets, and whether the plain formula for it holds on this machine.

use libm::{asin, sin};

use super::climb::highest;
use super::placed::Placed;
use crate::arm::shape::{ArmShape, ShapeTrouble, Vector, wrapped};

/// One extreme pose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    /// The pose.
    pub placed: Placed,
    /// True where the plain formula holds: the arm can take the stretched or plumb pose it supposes. Where it cannot,
    /// the pose was searched for over the whole travel instead.
    pub by_formula: bool,
}

/// How deep, how far and how high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReachFigures {
    /// The tooth at its lowest.
    pub deepest: Extreme,
    /// The tooth on the ground as far out as it gets; nothing where it does not get to the ground.
    pub farthest_on_ground: Option<Extreme>,
    /// The bucket's pin at its highest with the tooth plumb below it, where the bucket has dumped; nothing where it
    /// never hangs so.
    pub highest_dump: Option<Extreme>,
}

/// Travel of each joint: lowest and highest angle.
type Travel = [(f64, f64); 3];

const STRAIGHT_DOWN: f64 = -std::f64::consts::FRAC_PI_2;

/// How deep, how far and how high the arm gets within the strokes of its rams, on level ground.
///
/// - Depth: `z_foot + LB sin(theta1 lowest) - (LD + R)`, if dipper and bucket can both hang plumb there.
/// - Reach on the ground: `r_foot + sqrt(S^2 - z_foot^2)` with `S = |LB + LD e^(i theta2)| + R`, dipper stretched as
///   far as its ram lets it, bucket in line with foot and bucket pin, if boom and bucket can stand so.
/// - Dump height: bucket pin highest with the tooth plumb below it, searched for within the travel.
///
/// # Errors
/// Where an end of a stroke does not close.
///
/// Source: plane geometry, definition.
pub fn reach_figures(shape: &ArmShape) -> Result<ReachFigures, ShapeTrouble> {
    let travel = shape
        .angles_at_the_ends()?
        .map(|(one, other)| (one.min(other), one.max(other)));
    Ok(ReachFigures {
        deepest: deepest(shape, travel)?,
        farthest_on_ground: farthest_on_ground(shape, travel),
        highest_dump: highest_dump(shape, travel),
    })
}

fn allows(travel: (f64, f64), angle: f64) -> bool {
    angle >= travel.0 && angle <= travel.1
}

fn deepest(shape: &ArmShape, travel: Travel) -> Result<Extreme, ShapeTrouble> {
    let lowest = travel[0].0.max(STRAIGHT_DOWN);
    let hanging = [lowest, wrapped(STRAIGHT_DOWN - lowest), 0.0];
    if allows(travel[1], hanging[1]) && allows(travel[2], 0.0) {
        return Ok(Extreme {
            placed: Placed::at_angles(shape, hanging)?,
            by_formula: true,
        });
    }
    let depth = |angles: [f64; 3]| Some(-tooth(shape, angles).z);
    let found = highest(travel.map(|t| t.0), travel.map(|t| t.1), 13, depth);
    let (angles, _) = found.ok_or(ShapeTrouble::LinkageOpen {
        length: None,
        angle: None,
    })?;
    Ok(Extreme {
        placed: Placed::at_angles(shape, angles)?,
        by_formula: false,
    })
}

fn farthest_on_ground(shape: &ArmShape, travel: Travel) -> Option<Extreme> {
    let by_formula = stretched_on_ground(shape, travel);
    if let Some(placed) = by_formula {
        return Some(Extreme {
            placed,
            by_formula: true,
        });
    }
    // For given dipper and bucket the boom angle that lays the tooth on the ground follows; the outer one counts.
    let boom_for = |dipper: f64, bucket: f64| {
        let from_foot = tooth(shape, [0.0, dipper, bucket]) - shape.foot;
        let up = asin(-shape.foot.z / from_foot.length());
        [up, std::f64::consts::PI - up]
            .map(|angle| wrapped(angle - from_foot.angle()))
            .into_iter()
            .filter(|angle| allows(travel[0], *angle))
            .map(|angle| (angle, tooth(shape, [angle, dipper, bucket]).r))
            .reduce(|one, other| if other.1 > one.1 { other } else { one })
    };
    let low = [travel[1].0, travel[2].0];
    let high = [travel[1].1, travel[2].1];
    let reach = |[dipper, bucket]: [f64; 2]| boom_for(dipper, bucket).map(|(_, reach)| reach);
    let ([dipper, bucket], _) = highest(low, high, 41, reach)?;
    let (boom, _) = boom_for(dipper, bucket)?;
    let placed = Placed::at_angles(shape, [boom, dipper, bucket]).ok()?;
    Some(Extreme {
        placed,
        by_formula: false,
    })
}

fn stretched_on_ground(shape: &ArmShape, travel: Travel) -> Option<Placed> {
    let dipper = if allows(travel[1], 0.0) {
        0.0
    } else if travel[1].1 < 0.0 {
        travel[1].1
    } else {
        travel[1].0
    };
    let wrist =
        Vector::new(shape.boom_length, 0.0) + Vector::at_angle(dipper) * shape.dipper_length;
    let stretch = wrist.length() + shape.bucket.tip_radius;
    let boom = wrapped(asin(-shape.foot.z / stretch) - wrist.angle());
    let bucket = wrapped(wrist.angle() - dipper);
    let can = allows(travel[0], boom) && allows(travel[2], bucket);
    let placed = Placed::at_angles(shape, [boom, dipper, bucket]).ok()?;
    can.then_some(placed)
}

fn highest_dump(shape: &ArmShape, travel: Travel) -> Option<Extreme> {
    let bucket_for = |boom: f64, dipper: f64| {
        let bucket = wrapped(STRAIGHT_DOWN - boom - dipper);
        allows(travel[2], bucket).then_some(bucket)
    };
    let height = |[boom, dipper]: [f64; 2]| {
        bucket_for(boom, dipper)?;
        let pin = shape.boom_length * sin(boom) + shape.dipper_length * sin(boom + dipper);
        Some(shape.foot.z + pin)
    };
    let low = [travel[0].0, travel[1].0];
    let high = [travel[0].1, travel[1].1];
    let ([boom, dipper], _) = highest(low, high, 61, height)?;
    let bucket = bucket_for(boom, dipper)?;
    let placed = Placed::at_angles(shape, [boom, dipper, bucket]).ok()?;
    Some(Extreme {
        placed,
        by_formula: false,
    })
}

fn tooth(shape: &ArmShape, angles: [f64; 3]) -> Vector {
    let boom = angles[0];
    let dipper = boom + angles[1];
    let bucket = dipper + angles[2];
    shape.foot
        + Vector::at_angle(boom) * shape.boom_length
        + Vector::at_angle(dipper) * shape.dipper_length
        + Vector::at_angle(bucket) * shape.bucket.tip_radius
}
