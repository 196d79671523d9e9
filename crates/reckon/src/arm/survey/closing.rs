//! Whether every triangle and the linkage close over the whole stroke.

use super::geometry::{Assembly, Geometry, RamEnds};
use crate::arm::shape::{Joint, Ram, ShapeTrouble};

/// Steps of the bucket ram's stroke that are looked at.
const STEPS: u32 = 256;

/// What keeps this joint from being moved over its whole stroke; none where all is well.
pub(super) fn trouble(
    geometry: &Geometry,
    assembly: &Assembly,
    joint: Joint,
    ends: RamEnds,
) -> Option<ShapeTrouble> {
    let triangle = match joint {
        Joint::Boom => geometry.boom_triangle(assembly.boom),
        Joint::Dipper => geometry.dipper_triangle(assembly.dipper),
        Joint::Bucket => {
            let bar = geometry.four_bar(assembly.linkage);
            let found = bar.trouble_over_stroke(&stroke_only(ends), STEPS);
            return found.map(|(_, trouble)| trouble);
        }
    };
    // Between its ends the distance of a triangle's pins has no extreme: where both close, the whole stroke does.
    [ends.closed, ends.open].into_iter().find_map(|length| {
        match triangle.at_length(joint, length) {
            Err(trouble) => Some(trouble),
            Ok(grip) if grip.lever == 0.0 => Some(ShapeTrouble::DeadCentre { joint }),
            Ok(_) => None,
        }
    })
}

/// A ram of which only the stroke matters.
fn stroke_only(ends: RamEnds) -> Ram {
    Ram {
        count: 1,
        bore: 0.0,
        rod: 0.0,
        closed: ends.closed,
        stroke: ends.open - ends.closed,
        supply: 0.0,
        relief_cap: 0.0,
        relief_rod: 0.0,
        back: 0.0,
        barrel: (0.0, 0.0),
        rod_weight: (0.0, 0.0),
    }
}
