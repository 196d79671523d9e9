//! What a leaf of the arm is asked: an arm as numbers, ram lengths, a force; and its troubles as refusals.

use super::thrust::Statics;
use crate::arm::pose::Placed;
use crate::arm::shape::{ArmShape, Joint, ShapeTrouble, Vector};
use crate::refusal::Refusal;

impl From<ShapeTrouble> for Refusal {
    fn from(trouble: ShapeTrouble) -> Self {
        match trouble {
            ShapeTrouble::NotANumber { .. } => Refusal::NotANumber { input: "arm" },
            other => Refusal::Contradiction { what: other.code() },
        }
    }
}

/// The arm that these numbers are, and where it is with its rams at these lengths, in metres.
pub(crate) fn placed(arm: &[f64], lengths: [f64; 3]) -> Result<(ArmShape, Placed), Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let placed = Placed::at_lengths(&shape, lengths)?;
    Ok((shape, placed))
}

/// The same with what its weight asks of the rams.
pub(crate) fn hanging(arm: &[f64], lengths: [f64; 3]) -> Result<(ArmShape, Statics), Refusal> {
    let (shape, placed) = placed(arm, lengths)?;
    let statics = Statics::hanging(&shape, placed)?;
    Ok((shape, statics))
}

/// 1 the boom, 2 the dipper, 3 the bucket: the number a person gives and reads.
pub(crate) fn joint(number: u32) -> Result<Joint, Refusal> {
    match number {
        1 => Ok(Joint::Boom),
        2 => Ok(Joint::Dipper),
        3 => Ok(Joint::Bucket),
        other => Err(Refusal::OutOfRange {
            input: "ram",
            value: f64::from(other),
            low: 1.0,
            high: 3.0,
        }),
    }
}

/// The unit vector this many degrees over the level, outwards.
pub(crate) fn direction(degrees: f64) -> Vector {
    Vector::at_angle(degrees.to_radians())
}
