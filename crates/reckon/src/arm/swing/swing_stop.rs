//! The energy of the swinging arm and the sideways force of stopping it.

use super::stopping::{energy, spring_force, stop_forces};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.swing_stop" tries swing_stop;
    inputs {
        inertia: number ["kg m²"] 0.0, 1e9;
        speed: number ["rad/s"] 0.0, 20.0;
        distance: number ["m"] 0.0001, 50.0;
        stiffness: number ["N/m"] 0.0, 1e12;
    }
    outputs |r| { energy ["J"] = r.energy, mean ["kN"] = r.mean, peak ["kN"] = r.peak, against_spring ["kN"] = r.against_spring }
    source { "Work and energy", 0, "E = I w^2 / 2; E / d, 2 E / d, w sqrt(k I)", Definition }
}

/// The energy of the swinging arm and what stopping it does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingStop {
    /// In joules.
    pub energy: f64,
    /// Mean force at the tooth over the distance, kN.
    pub mean: f64,
    /// Peak where the force grows evenly, kN.
    pub peak: f64,
    /// Peak against something of this stiffness, kN.
    pub against_spring: f64,
}

/// What stopping the swinging arm at the tooth does.
///
/// - `inertia` \[kg m²\]: about the swing axis. `speed` \[rad/s\]. `distance` \[m\]: within which the tooth stops.
/// - `stiffness` \[N/m\]: of what it strikes, as felt at the tooth; the reach falls out of the force.
///
/// Formula: E = I w^2 / 2; E / d; 2 E / d; w sqrt(k I).
///
/// Range: never strike or sweep with the arm.
///
/// # Errors
/// "never-there" where there is no distance.
///
/// Source: work and energy, definition.
pub fn swing_stop(
    inertia: f64,
    speed: f64,
    distance: f64,
    stiffness: f64,
) -> Result<SwingStop, Refusal> {
    let joules = energy(inertia, speed);
    let (mean, peak) = stop_forces(joules, distance).ok_or(Refusal::Contradiction {
        what: "never-there",
    })?;
    Ok(SwingStop {
        energy: joules,
        mean: mean / 1000.0,
        peak: peak / 1000.0,
        against_spring: spring_force(inertia, speed, stiffness) / 1000.0,
    })
}
