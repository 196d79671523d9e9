//! What a sideways force at the tooth does to the boom's box section. A teaching figure.

use super::boom_box::BoomBox;
use crate::arm::force::placed;
use crate::arm::shape::Vector;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.boom_stress" tries boom_stress;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        section_along: number ["m"] -30.0, 30.0;
        section_up: number ["m"] -30.0, 30.0;
        height: number ["mm"] 10.0, 3000.0;
        width: number ["mm"] 10.0, 3000.0;
        flange: number ["mm"] 0.5, 200.0;
        web: number ["mm"] 0.5, 200.0;
        side_force: number ["kN"] -10000.0, 10000.0;
    }
    outputs |r| {
        bending ["kNm"] = r.bending,
        torsion ["kNm"] = r.torsion,
        normal ["MPa"] = r.normal,
        shear ["MPa"] = r.shear,
        together ["MPa"] = r.together,
    }
    source { "Theory of beams; Bredt's formula for thin closed sections", 0, "", Memory }
}

/// Moments and stresses in one section: sizes, without sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoomStress {
    /// Bending sideways, kNm.
    pub bending: f64,
    /// Twisting, kNm.
    pub torsion: f64,
    /// Along the boom at the outer fibre, MPa.
    pub normal: f64,
    /// Of the twist, MPa.
    pub shear: f64,
    /// Both taken together, MPa.
    pub together: f64,
}

/// What a sideways force at the tooth does to one box section of the boom.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `section_along`, `section_up` \[m\]: the section's middle in the boom's frame. `height`, `width`, `flange`, `web` \[mm\].
/// - `side_force` \[kN\]: at the tooth, square to the arm plane.
///
/// Formula: as [`BoomBox::under_side_force`].
///
/// Range: teaching only. Cracks, welds and old repairs are not in it.
///
/// # Errors
/// "no-box" where the plates fill the section; where a length does not close.
///
/// Source: theory of beams; Bredt's formula, from memory.
#[expect(
    clippy::too_many_arguments,
    reason = "a pose and a section, each number with its own name in the leaf"
)]
pub fn boom_stress(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    section_along: f64,
    section_up: f64,
    height: f64,
    width: f64,
    flange: f64,
    web: f64,
    side_force: f64,
) -> Result<BoomStress, Refusal> {
    let (_, placed) = placed(arm, [boom_ram, dipper_ram, bucket_ram])?;
    if 2.0 * flange >= height || 2.0 * web >= width {
        return Err(Refusal::Contradiction { what: "no-box" });
    }
    let section = BoomBox {
        place: Vector::new(section_along, section_up),
        height: height / 1000.0,
        width: width / 1000.0,
        flange: flange / 1000.0,
        web: web / 1000.0,
    };
    let found = section.under_side_force(&placed, side_force * 1000.0);
    Ok(BoomStress {
        bending: found.bending / 1000.0,
        torsion: found.torsion / 1000.0,
        normal: found.normal / 1e6,
        shear: found.shear / 1e6,
        together: found.mises / 1e6,
    })
}
