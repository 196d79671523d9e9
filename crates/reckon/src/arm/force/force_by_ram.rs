//! How much force at the tooth one ram allows, working or holding.

use super::allowed::{Allowed, allowed};
use super::asked::{direction, hanging, joint};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.force_by_ram" tries force_by_ram;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        ram: whole ["1"] 1.0, 3.0;
        works: yes_no ["1"] 0.0, 1.0;
        direction: number ["°"] -360.0, 360.0;
    }
    outputs |r| { allowed ["kN"] = r.allowed, per_kilonewton ["kN"] = r.per_kilonewton }
    source { "ISO 6015: hydraulic limit, working circuit and relief of the holding circuit", 2006, "read in excerpts", Read }
}

/// What one ram allows at the tooth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForceByRam {
    /// The force at the tooth up to which this ram holds, kN; 0 where it cannot even hold the arm.
    pub allowed: f64,
    /// What each kilonewton at the tooth adds to its thrust, kN.
    pub per_kilonewton: f64,
}

/// The tooth force up to which one ram keeps within its pressure.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `ram`: 1 boom, 2 dipper, 3 bucket. `works`: driven by the pump; else it holds against its port relief.
/// - `direction` \[°\]: of the ground's force on the tooth, 0 outwards, 90 upwards.
///
/// Formula: (limit - thrust hanging) / thrust for each newton, the limit by the side that is squeezed there.
///
/// # Errors
/// "never-bites" where no force in this direction comes to the limit; where a length does not close or a ram has no lever.
///
/// Source: ISO 6015:2006, read in excerpts; virtual work, definition.
pub fn force_by_ram(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    ram: u32,
    works: bool,
    direction_degrees: f64,
) -> Result<ForceByRam, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let joint = joint(ram)?;
    let (index, ram) = (joint.index(), shape.ram(joint));
    let per_newton = statics.per_newton(statics.tooth(), direction(direction_degrees))[index];
    let limits = if works { ram.working() } else { ram.holding() };
    let newtons = match allowed(statics.hanging[index], per_newton, limits) {
        Allowed::Unlimited => {
            return Err(Refusal::Contradiction {
                what: "never-bites",
            });
        }
        Allowed::UpTo(force) => force,
        Allowed::NotEvenItself => 0.0,
    };
    Ok(ForceByRam {
        allowed: newtons / 1000.0,
        per_kilonewton: per_newton,
    })
}
