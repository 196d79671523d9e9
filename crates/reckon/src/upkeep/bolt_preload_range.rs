//! Between which limits a bolt's pull lies for a torque, because nobody knows its friction.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.bolt_preload_range" tries bolt_preload_range;
    inputs {
        torque: number ["Nm"] 0.0, 100000.0;
        diameter: number ["mm"] 1.0, 150.0;
        nut_factor_low: number ["1"] 0.05, 0.6;
        nut_factor_high: number ["1"] 0.05, 0.6;
        stress_area: number ["mm²"] 0.1, 20000.0;
        proof_stress: number ["MPa"] 50.0, 1500.0;
    }
    outputs |r| {
        least ["kN"] = r.least,
        most ["kN"] = r.most,
        share_least ["1"] = r.share_least,
        share_most ["1"] = r.share_most,
    }
    source { "T = K F d, with K from several lists that disagree", 0, "", Read }
}

/// What a torque pulls a bolt with, at least and at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreloadRange {
    /// With the highest nut factor, kN.
    pub least: f64,
    /// With the lowest, kN.
    pub most: f64,
    /// The least as a share of the proof load.
    pub share_least: f64,
    /// The most as a share of the proof load; above 1 the bolt is overstretched.
    pub share_most: f64,
}

/// The pull in a bolt for a torque, over the whole range of its nut factor.
///
/// - `torque` \[Nm\]; `diameter` d \[mm\]: nominal; `stress_area` \[mm²\], `proof_stress` \[MPa\].
/// - `nut_factor_low`, `nut_factor_high` K: dry steel 0.18 to 0.27, oiled 0.10 to 0.26, zinc 0.17 to 0.35.
///
/// Formula: F = T / (K d).
///
/// Range: a clean thread. Rust, paint and a nut run down hard lie outside of any list.
///
/// # Errors
/// "limits-crossed" where the low factor is above the high one.
///
/// Source: K from several lists, read; proof loads of ISO 898-1 and SAE J429, read.
pub fn bolt_preload_range(
    torque: f64,
    diameter: f64,
    nut_factor_low: f64,
    nut_factor_high: f64,
    stress_area: f64,
    proof_stress: f64,
) -> Result<PreloadRange, Refusal> {
    if nut_factor_low > nut_factor_high {
        return Err(Refusal::Contradiction {
            what: "limits-crossed",
        });
    }
    let pull = |nut_factor: f64| torque / (nut_factor * diameter);
    let (least, most) = (pull(nut_factor_high), pull(nut_factor_low));
    let proof = proof_stress * stress_area / 1000.0;
    Ok(PreloadRange {
        least,
        most,
        share_least: least / proof,
        share_most: most / proof,
    })
}
