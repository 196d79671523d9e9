//! The torque that stretches a bolt to a share of its proof load.

use crate::leaf::leaf;

leaf! {
    "upkeep.bolt_torque" computes bolt_torque;
    inputs {
        diameter: number ["mm"] 1.0, 150.0;
        stress_area: number ["mm²"] 0.1, 20000.0;
        proof_stress: number ["MPa"] 50.0, 1500.0;
        share: number ["1"] 0.0, 1.0;
        nut_factor: number ["1"] 0.05, 0.6;
    }
    outputs |r| { preload ["kN"] = r.preload, torque ["Nm"] = r.torque }
    source { "T = K F d, with F a share of the proof load of ISO 898-1 or SAE J429", 0, "", Read }
}

/// What a bolt is pulled with, and what turns it so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltTorque {
    /// Pull in the bolt, kN.
    pub preload: f64,
    /// Torque at the wrench, Nm.
    pub torque: f64,
}

/// Torque for a share of a bolt's proof load.
///
/// - `diameter` d \[mm\]: nominal.
/// - `stress_area` \[mm²\]: of its thread.
/// - `proof_stress` \[MPa\]: of its grade.
/// - `share`: of the proof load; 0.75 is usual where a joint is opened again.
/// - `nut_factor` K: dry steel 0.18 to 0.27, oiled 0.10 to 0.26, zinc 0.17 to 0.35. It is no constant: sources disagree.
///
/// Formula: F = share x proof stress x area; T = K F d.
///
/// Range: threads of 1 to 150 mm; K 0.05 to 0.6.
///
/// Source: proof loads of ISO 898-1 and SAE J429, read; K from several lists, read.
pub fn bolt_torque(
    diameter: f64,
    stress_area: f64,
    proof_stress: f64,
    share: f64,
    nut_factor: f64,
) -> BoltTorque {
    let preload = share * proof_stress * stress_area / 1000.0;
    BoltTorque {
        preload,
        torque: nut_factor * preload * diameter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn proof_loads_as_printed() {
        // ISO 898-1, property class 8.8: M12 48.9 kN, M20 147 kN; class 10.9: M16 130 kN.
        let proof = |area, stress| bolt_torque(1.0, area, stress, 1.0, 0.2).preload;
        assert!((proof(84.3, 580.0) - 48.9).abs() < 0.1);
        assert!((proof(245.0, 600.0) - 147.0).abs() < 0.1);
        assert!((proof(157.0, 830.0) - 130.0).abs() < 0.5);
    }
}
