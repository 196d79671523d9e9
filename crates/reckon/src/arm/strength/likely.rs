//! Which limit governs, and how likely, where the measurements are uncertain.

use super::kernel::Direction;
use super::map::cut_in;
use crate::arm::force::{Footing, Governs, Stance, Statics, usable};
use crate::arm::pose::Placed;
use crate::arm::shape::ArmShape;
use crate::refusal::Refusal;
use crate::sample::{Choice, choose_lowest};

/// What governs in one pose, with its likelihood.
#[derive(Debug, Clone, PartialEq)]
pub struct Likely {
    /// The limits, in the order of the shares: boom, dipper, bucket, and with a stance tipping and sliding.
    pub limits: Vec<Governs>,
    /// How often each was the lowest, and the usable force with its uncertainty. `used` counts the draws in which the
    /// arm closed.
    pub choice: Choice,
}

/// Which limit governs the usable force and how likely, by seeded draws of the uncertain numbers.
///
/// - `uncertain`: which numbers of [`ArmShape::to_numbers`] are uncertain, by place.
/// - `covariance`: theirs, for the pins of one survey move together; numbers that do not, only on the diagonal.
/// - `lengths`: the ram lengths, taken as exact. `draws`, `seed`: as in [`crate::sample`].
///
/// A draw whose arm does not close in this pose is left out and shows in `used`.
///
/// # Errors
/// As [`choose_lowest`]; `WrongCount` where a place is none of the arm's numbers.
pub fn likely(
    shape: &ArmShape,
    (uncertain, covariance): (&[usize], &[Vec<f64>]),
    lengths: [f64; 3],
    direction: Direction,
    stance: Option<&Stance>,
    (draws, seed): (usize, u64),
) -> Result<Likely, Refusal> {
    let numbers = shape.to_numbers();
    let estimates: Option<Vec<f64>> = uncertain
        .iter()
        .map(|place| numbers.get(*place).copied())
        .collect();
    let estimates = estimates.ok_or(Refusal::WrongCount {
        input: "uncertain",
        count: uncertain.len(),
    })?;
    let limits_of = |numbers: &[f64]| {
        let shape = ArmShape::from_numbers("shape", numbers).ok()?;
        let statics = Statics::hanging(&shape, Placed::at_lengths(&shape, lengths).ok()?).ok()?;
        let cut = cut_in(direction, &statics)?;
        let footing = stance.map(|stance| Footing::new(&shape, &statics.placed, stance));
        Some(usable(&shape, &statics, cut, footing.as_ref()).limits)
    };
    let limits: Vec<Governs> = limits_of(&numbers)
        .ok_or(Refusal::NoResult { output: "governs" })?
        .iter()
        .map(|limit| limit.what)
        .collect();
    let candidates = |drawn: &[f64]| {
        let mut moved = numbers.clone();
        for (place, value) in uncertain.iter().zip(drawn) {
            moved[*place] = *value;
        }
        limits_of(&moved).map_or_else(
            || vec![f64::INFINITY; limits.len()],
            |limits| limits.iter().map(|limit| limit.allows.rank()).collect(),
        )
    };
    let choice = choose_lowest(&estimates, covariance, draws, seed, candidates)?;
    Ok(Likely { limits, choice })
}
