//! Can the arm lie flat on the bucket's bottom plate with every ram slack?

use super::flat::flat_on_the_ground;
use crate::arm::force::hanging;
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.slack_rest" tries slack_rest;
    inputs {
        arm: list ["1"] -1e12, 1e12;
        boom_ram: number ["m"] 0.01, 30.0;
        dipper_ram: number ["m"] 0.01, 30.0;
        bucket_ram: number ["m"] 0.01, 30.0;
        friction: number ["1"] 0.0, 2.0;
    }
    outputs |r| {
        rests ["1"] = r.rests,
        load ["kN"] = r.load,
        from_tooth ["m"] = r.from_tooth,
        plate ["m"] = r.plate,
        friction_needed ["1"] = r.friction,
    }
    source { "Statics of the arm on its bottom plate", 0, "", Definition }
}

/// What the ground would have to do for all rams to be slack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlackRest {
    /// True where the ground can do it.
    pub rests: bool,
    /// Load on the ground, kN.
    pub load: f64,
    /// Where it would act, from the tooth towards the heel, metres.
    pub from_tooth: f64,
    /// Length of the plate, metres.
    pub plate: f64,
    /// The friction that would be needed.
    pub friction: f64,
}

/// Whether the arm rests with all three circuits bled, tooth and heel both on the ground.
///
/// - `arm`: the arm as [`ArmShape::to_numbers`](crate::arm::shape::ArmShape::to_numbers) gives it.
/// - `boom_ram`, `dipper_ram`, `bucket_ram` \[m\]: pin to pin.
/// - `friction`: between bucket and ground.
///
/// Formula: load, level force and couple that hold all three joints; a true rest where the load lies within the plate and
/// does not slide.
///
/// # Errors
/// "never-there" where the joints lie so that there is no one answer; where a length does not close.
///
/// Source: statics, definition.
pub fn slack_rest(
    arm: &[f64],
    boom_ram: f64,
    dipper_ram: f64,
    bucket_ram: f64,
    friction: f64,
) -> Result<SlackRest, Refusal> {
    let (_, statics) = hanging(arm, [boom_ram, dipper_ram, bucket_ram])?;
    let flat = flat_on_the_ground(&statics).ok_or(Refusal::Contradiction {
        what: "never-there",
    })?;
    Ok(SlackRest {
        rests: flat.rests_on(friction),
        load: flat.load / 1000.0,
        from_tooth: flat.from_tooth,
        plate: flat.plate,
        friction: flat.friction,
    })
}
