//! From what one sees when a ram gets longer to the mirror assembly an arm is.

use super::geometry::{Assembly, Geometry, RamEnds};
use crate::arm::shape::{ArmShape, Turns};

impl Assembly {
    /// The assembly of an arm.
    pub fn of(shape: &ArmShape) -> Self {
        Assembly {
            boom: shape.boom_triangle.turns(),
            dipper: shape.dipper_triangle.turns(),
            linkage: shape.linkage.sides().map(|side| side > 0.0),
        }
    }

    /// The assembly that moves as seen: which way boom, dipper and bucket turn when their ram gets longer.
    ///
    /// Of the four assemblies of the bucket's linkage that one is taken whose lever and bucket turn the same way (lever
    /// and link do not cross) and whose bucket turns as seen, judged half way out; the pins may be a first guess.
    ///
    /// None where none of them closes half way out and turns so: then the first guess is no likeness of this arm.
    pub fn seen(geometry: &Geometry, bucket_ram: RamEnds, turns: [Turns; 3]) -> Option<Self> {
        let [boom, dipper, bucket] = turns;
        let half_way = 0.5 * (bucket_ram.closed + bucket_ram.open);
        let ways = [(true, false), (false, true), (true, true), (false, false)];
        let linkage = ways.into_iter().find_map(|(lever_left, link_left)| {
            let bar = geometry.four_bar([true, lever_left, link_left]);
            let pose = bar.at_length(half_way).ok()?;
            let as_seen = pose.grip.lever * bucket.sign() > 0.0 && pose.lever_rate > 0.0;
            let to_link = pose.link_pin - geometry.lever_pin;
            let shared_left = to_link.cross(pose.shared - geometry.lever_pin) >= 0.0;
            as_seen.then_some([shared_left, lever_left, link_left])
        })?;
        Some(Assembly {
            boom,
            dipper,
            linkage,
        })
    }
}
