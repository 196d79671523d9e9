//! How the machine stands: where its load lies, what each support carries, how far each edge is from tipping.

use super::asked::hanging;
use super::footing::{Footing, Stance, Wrench};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.standing" tries standing;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        stance: list ["1"] -1e9, 1e9;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
    }
    outputs |r| {
        load ["kN"] = r.load,
        load_forwards ["m"] = r.place[0],
        load_leftwards ["m"] = r.place[1],
        edge_moments ["kNm"] = r.edge_moments,
        supports ["kN"] = r.supports,
        slopes_to_tip ["°"] = r.slopes,
    }
    source { "Statics: moments about each edge; equal springs under a stiff frame share a load on more than three supports", 0, "", Definition }
}

/// How the machine stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// All weights, kN.
    pub load: f64,
    /// Where they come through the ground: forwards and to the left of the swing axis, metres.
    pub place: [f64; 2],
    /// What keeps it from tipping over each edge, kNm, edge by edge from the first contact to the second on.
    pub edge_moments: Vec<f64>,
    /// What each contact carries, kN.
    pub supports: Vec<f64>,
    /// The slope falling straight towards each edge at which it tips by itself, degrees.
    pub slopes: Vec<f64>,
}

/// How the machine stands on level ground with nothing at the tooth.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `stance`: what it stands on, as [`Stance::to_numbers`] gives it.
///
/// Formula: moments about the edges; see [`Footing`].
///
/// # Errors
/// "tips-by-itself" where the load lies outside the supports; where a length does not close or a ram has no lever.
///
/// Source: statics, definition.
pub fn standing(
    arm: &[f64],
    stance: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
) -> Result<Standing, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let stance = Stance::from_numbers("stance", stance)?;
    let footing = Footing::new(&shape, &statics.placed, &stance);
    let carried = footing.reactions(0.0, &Wrench::default());
    let (Some(at), Some(carried)) = (footing.load_point(), carried) else {
        return Err(Refusal::Contradiction {
            what: "tips-by-itself",
        });
    };
    let kilo = |all: Vec<f64>| all.into_iter().map(|one| one / 1000.0).collect();
    let slopes = footing.slopes_to_tip().into_iter();
    Ok(Standing {
        load: at.load / 1000.0,
        place: at.place,
        edge_moments: kilo(footing.edge_moments()),
        supports: kilo(carried),
        slopes: slopes.map(f64::to_degrees).collect(),
    })
}
