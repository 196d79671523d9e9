//! What the arm lifts at the bucket's pin in one pose.

use super::asked::hanging;
use super::footing::{Footing, Stance};
use super::lift::lift;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.lift_at_pin" tries lift_at_pin;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        stance: list ["1"] -1e9, 1e9;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
    }
    outputs |r| { hydraulic ["kN"] = r.hydraulic, tipping ["kN"] = r.tipping, rated ["kN"] = r.rated }
    source { "SAE J31, 3.1, and ISO 10567:2007", 2007, "read in excerpts", Read }
}

/// What the arm lifts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiftAtPin {
    /// What the rams lift and hold, kN.
    pub hydraulic: f64,
    /// The load at which the machine begins to tip, kN.
    pub tipping: f64,
    /// The rated load, kN.
    pub rated: f64,
}

/// What the arm lifts straight up at the bucket's pin: boom working, dipper holding; what tips; the rated load.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `stance`: what it stands on, as [`Stance::to_numbers`] gives it.
///
/// Formula: as [`lift`](super::lift) and [`rated_lift`](super::rated_lift).
///
/// Range: only for a machine whose book records a lifting point, load holding and the authority to lift.
///
/// # Errors
/// "never-tips" where no load there tips it; where a length does not close or a ram has no lever.
///
/// Source: SAE J31, 3.1, and ISO 10567:2007, read in excerpts.
pub fn lift_at_pin(
    arm: &[f64],
    stance: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
) -> Result<LiftAtPin, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let stance = Stance::from_numbers("stance", stance)?;
    let footing = Footing::new(&shape, &statics.placed, &stance);
    let found = lift(&shape, &statics, &footing);
    if found.tips.is_infinite() {
        return Err(Refusal::Contradiction { what: "never-tips" });
    }
    Ok(LiftAtPin {
        hydraulic: found.hydraulic() / 1000.0,
        tipping: found.tips / 1000.0,
        rated: found.rated().0 / 1000.0,
    })
}
