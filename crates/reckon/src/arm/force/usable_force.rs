//! The force the tooth can really use in a direction, and what holds it back.

use super::asked::{direction, hanging, joint};
use super::footing::{Footing, Stance};
use super::usable::{Cut, Governs, usable};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.usable_force" tries usable_force;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        stance: list ["1"] -1e9, 1e9;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        ram: whole ["1"] 1.0, 3.0;
        direction: number ["°"] -360.0, 360.0;
    }
    outputs |r| { usable ["kN"] = r.usable, governs ["1"] = r.governs }
    source { "ISO 6015: hydraulic, tipping and slipping limit, the governing one named", 2006, "read in excerpts", Read }
}

/// The force the tooth can use, and what holds it back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsableForce {
    /// In kilonewtons.
    pub usable: f64,
    /// 1 boom ram, 2 dipper ram, 3 bucket ram, 4 tipping, 5 sliding.
    pub governs: u32,
}

/// The least of what the working ram, the holding rams, tipping and sliding allow at the tooth.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `stance`: what it stands on, as [`Stance::to_numbers`] gives it; no number, or a single 0,
///   for a machine that is held down.
/// - `ram`: the one that the pump drives: 1 boom, 2 dipper, 3 bucket; the others hold.
/// - `direction` \[°\]: of the ground's force on the tooth, 0 outwards, 90 upwards.
///
/// Formula: as [`usable`](super::usable).
///
/// Range: no friction in the arm, level ground; a ram on its stop is not counted on.
///
/// # Errors
/// "never-bites" where nothing limits; where a length does not close or a ram has no lever.
///
/// Source: ISO 6015:2006, read in excerpts.
pub fn usable_force(
    arm: &[f64],
    stance: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    ram: u32,
    direction_degrees: f64,
) -> Result<UsableForce, Refusal> {
    let (shape, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let stance = match stance {
        [] | [0.0] => None,
        numbers => Some(Stance::from_numbers("stance", numbers)?),
    };
    let footing = stance
        .as_ref()
        .map(|stance| Footing::new(&shape, &statics.placed, stance));
    let cut = Cut {
        working: joint(ram)?,
        direction: direction(direction_degrees),
    };
    let governs = usable(&shape, &statics, cut, footing.as_ref()).governs;
    let newtons = governs.allows.rank().max(0.0);
    if newtons.is_infinite() {
        return Err(Refusal::Contradiction {
            what: "never-bites",
        });
    }
    Ok(UsableForce {
        usable: newtons / 1000.0,
        governs: match governs.what {
            Governs::Working(joint) | Governs::Holding(joint) => joint.index() as u32 + 1,
            Governs::Tipping(_) => 4,
            Governs::Sliding => 5,
        },
    })
}
