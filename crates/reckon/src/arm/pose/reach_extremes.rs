//! How deep, how far and how high the arm gets.

use super::reach::reach_figures;
use crate::arm::shape::ArmShape;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.reach_extremes" tries reach_extremes;
    inputs {
        arm: list ["1"] -1e12, 1e12;
    }
    outputs |r| { depth ["m"] = r.depth, reach_on_ground ["m"] = r.reach_on_ground, dump_height ["m"] = r.dump_height }
    source { "Plane geometry, searched for over the whole travel where the plain formula does not hold", 0, "", Definition }
}

/// How deep, how far and how high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReachExtremes {
    /// The tooth at its lowest, below the ground, metres.
    pub depth: f64,
    /// The tooth on the ground as far out as it gets, from the swing axis, metres.
    pub reach_on_ground: f64,
    /// The bucket's pin at its highest with the tooth plumb below it, over the ground, metres.
    pub dump_height: f64,
}

/// How deep, how far and how high the arm gets within the strokes of its rams, on level ground.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`] gives it.
///
/// Formula: as [`reach_figures`].
///
/// # Errors
/// "never-there" where the tooth never comes to the ground or never hangs plumb; "triangle-open", "linkage-open" where the
/// end of a stroke does not close.
///
/// Source: plane geometry, definition.
pub fn reach_extremes(arm: &[f64]) -> Result<ReachExtremes, Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let found = reach_figures(&shape)?;
    let never = Refusal::Contradiction {
        what: "never-there",
    };
    let (Some(far), Some(high)) = (found.farthest_on_ground, found.highest_dump) else {
        return Err(never);
    };
    Ok(ReachExtremes {
        depth: -found.deepest.placed.tooth.z,
        reach_on_ground: far.placed.tooth.r,
        dump_height: high.placed.pivots[2].z,
    })
}
