//! Crowd force as the standards define it.

use super::standard::standard_crowd;
use crate::arm::shape::ArmShape;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.crowd_force" tries crowd_force;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        bucket_angle: number ["°"] -360.0, 360.0;
    }
    outputs |r| { force ["kN"] = r.force, radius ["m"] = r.radius, dipper_ram ["m"] = r.ram }
    source { "SAE J1179, clause 3, and ISO 6015:2006, 3.2", 2006, "read in excerpts", Read }
}

/// The crowd force and where in the stroke it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrowdForce {
    /// In kilonewtons.
    pub force: f64,
    /// Dipper pin to tooth, metres.
    pub radius: f64,
    /// Length of the dipper ram there, metres.
    pub ram: f64,
}

/// The crowd force: dipper ram at the pump's pressure where its lever is longest, machine held down, no weight.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`] gives it.
/// - `bucket_angle` \[°\]: bucket against dipper, where the bucket curls hardest.
///
/// Formula: force of ram x lever, over the distance from dipper pin to tooth.
///
/// # Errors
/// "triangle-open", "linkage-open", "dead-centre" where the arm cannot stand so.
///
/// Source: SAE J1179 and ISO 6015, read in excerpts.
pub fn crowd_force(arm: &[f64], bucket_angle: f64) -> Result<CrowdForce, Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let found = standard_crowd(&shape, bucket_angle.to_radians())?;
    Ok(CrowdForce {
        force: found.force / 1000.0,
        radius: found.radius,
        ram: found.length,
    })
}
