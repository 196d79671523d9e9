//! Curl and crowd force as the standards define them: best pose, no weight, no friction, machine held down.

use crate::arm::pose::{Placed, highest};
use crate::arm::shape::{ArmShape, Joint, ShapeTrouble};

/// A force by the standards' definition, and the pose it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandardForce {
    /// The force, in newtons.
    pub force: f64,
    /// The moment about the working joint's pin, in newton metres.
    pub moment: f64,
    /// From that pin to the point of application, in metres.
    pub radius: f64,
    /// Length of the working ram there, in metres.
    pub length: f64,
    /// Angle of its joint there, in radians; good to about 1e-8, for it is a maximum.
    pub angle: f64,
}

/// The curl force: the bucket ram at the pump's pressure, in the pose where its moment is largest.
///
/// - `radius`: from the bucket's pin to the point of application, in metres. The older American standard takes the
///   outermost point of the teeth, ISO 6015 the lip or cutting edge: the forces differ as the radii do. Say which.
///
/// F = max over the stroke of (F_ram |lever|) / radius. Weights and friction are left out, the other rams are supposed to
/// hold: an upper bound, which on the reference machine holds in a third of all poses only.
///
/// # Errors
/// Where the linkage closes nowhere.
///
/// Source: SAE J1179, clauses 3 to 3.3.1, and ISO 6015:2006, 3.1, read in excerpts.
pub fn standard_curl(shape: &ArmShape, radius: f64) -> Result<StandardForce, ShapeTrouble> {
    let ram = shape.ram(Joint::Bucket);
    let moment_at = |[length]: [f64; 1]| {
        let grip = shape.linkage.at_length(length).ok()?.grip;
        inward(ram.working(), grip.lever)
    };
    let found = highest([ram.closed], [ram.extended()], 129, moment_at);
    let ([length], moment) = found.ok_or(ShapeTrouble::DeadCentre {
        joint: Joint::Bucket,
    })?;
    Ok(StandardForce {
        force: moment / radius,
        moment,
        radius,
        length,
        angle: shape.angle_at(Joint::Bucket, length)?,
    })
}

/// The crowd force: the dipper ram at the pump's pressure where its moment is largest, the bucket at `bucket_angle`.
///
/// Where the bucket stands is for the standard to say: SAE J1179 sets it where it curls hardest. The ram has its longest
/// lever where it stands square on the shorter of its two arms: L = sqrt(|a^2 - b^2|), lever = the shorter; or at the end
/// of the stroke nearer to that.
///
/// # Errors
/// Where the dipper's triangle or the linkage does not close there.
///
/// Source: as [`standard_curl`].
pub fn standard_crowd(shape: &ArmShape, bucket_angle: f64) -> Result<StandardForce, ShapeTrouble> {
    let joint = Joint::Dipper;
    let (ram, triangle) = (shape.ram(joint), &shape.dipper_triangle);
    let (a, b) = (triangle.barrel().length(), triangle.rod().length());
    let square_on = (a * a - b * b).abs().sqrt();
    let length = square_on.clamp(ram.closed, ram.extended());
    let grip = triangle.at_length(joint, length)?;
    let moment = inward(ram.working(), grip.lever).ok_or(ShapeTrouble::DeadCentre { joint })?;
    // The radius does not depend on boom and dipper: any pose of theirs will do.
    let placed = Placed::at_angles(shape, [0.0, grip.angle, bucket_angle])?;
    let radius = (placed.tooth - placed.pivots[1]).length();
    Ok(StandardForce {
        force: moment / radius,
        moment,
        radius,
        length,
        angle: grip.angle,
    })
}

/// The moment that turns a joint clockwise, which draws in and curls: pushing where a longer ram turns it so, else pulling.
fn inward((push, pull): (f64, f64), lever: f64) -> Option<f64> {
    let moment = if lever < 0.0 { push } else { pull } * lever.abs();
    (moment > 0.0).then_some(moment)
}
