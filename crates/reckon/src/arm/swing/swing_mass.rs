//! How hard the swinging arm is to start and to stop: its moment of inertia about the swing axis.

use super::inertia::{Inertias, swing_inertia};
use crate::arm::force::placed;
use crate::arm::shape::{Vector, Weight};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.swing_mass" tries swing_mass;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        own: list ["1"] 0.0, 1e9;
    }
    outputs |inertia| { inertia ["kg m²"] = inertia }
    source { "Parallel axes", 0, "", Definition }
}

/// How many numbers the parts' own moments are.
const OWN: usize = 23;

/// The arm's moment of inertia about the swing axis, kg m².
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `own`: the post's mass, place of its centre (out, up) and own moment; of boom, dipper and bucket the own moments along
///   and upright; of lever and link along and across; of each ram along, across of the barrel, across of the rod. No number,
///   or a single 0, where they are not known: every part then counts as a point.
///
/// Formula: sum of m r^2 and of each part's own moment as it lies.
///
/// # Errors
/// `WrongCount` where the list is neither empty nor whole; where a length does not close.
///
/// Source: parallel axes, definition.
pub fn swing_mass(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    own: &[f64],
) -> Result<f64, Refusal> {
    let (shape, placed) = placed(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let inertias = match own {
        [] | [0.0] => Inertias::default(),
        own if own.len() == OWN => listed(own),
        other => {
            return Err(Refusal::WrongCount {
                input: "own",
                count: other.len(),
            });
        }
    };
    Ok(swing_inertia(&shape, &placed, &inertias))
}

fn listed(own: &[f64]) -> Inertias {
    let post = Weight {
        mass: own[0],
        centre: Vector::new(own[1], own[2]),
    };
    let two = |at: usize| (own[at], own[at + 1]);
    let three = |at: usize| (own[at], own[at + 1], own[at + 2]);
    Inertias {
        post: (post, own[3]),
        links: [two(4), two(6), two(8)],
        linkage: [two(10), two(12)],
        rams: [three(14), three(17), three(20)],
    }
}
