//! Curl force as the standards define it.

use super::standard::standard_curl;
use crate::arm::shape::ArmShape;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.curl_force" tries curl_force;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        radius: number ["m"] 0.05, 10.0;
    }
    outputs |r| { force ["kN"] = r.force, bucket_ram ["m"] = r.ram }
    source { "SAE J1179, clause 3, and ISO 6015:2006, 3.1", 2006, "read in excerpts", Read }
}

/// The curl force and where in the stroke it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurlForce {
    /// In kilonewtons.
    pub force: f64,
    /// Length of the bucket ram there, metres.
    pub ram: f64,
}

/// The curl force: bucket ram at the pump's pressure in its best pose, machine held down, no weight, no friction.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`] gives it.
/// - `radius` \[m\]: bucket pin to the point of application, lip or tooth: say which.
///
/// Formula: the largest force of ram x lever over the stroke, over the radius.
///
/// # Errors
/// "dead-centre" where the linkage closes nowhere.
///
/// Source: SAE J1179 and ISO 6015, read in excerpts.
pub fn curl_force(arm: &[f64], radius: f64) -> Result<CurlForce, Refusal> {
    let shape = ArmShape::from_numbers("arm", arm)?;
    let found = standard_curl(&shape, radius)?;
    Ok(CurlForce {
        force: found.force / 1000.0,
        ram: found.length,
    })
}
