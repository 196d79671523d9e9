//! How far a track or chain sags at a pull.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.sag_from_pull" tries sag_from_pull;
    inputs {
        weight_per_length: number ["N/m"] 0.0, 1e6;
        span: number ["m"] 0.01, 1000.0;
        pull_at_ends: number ["N"] 0.001, 1e9;
    }
    outputs |r| { sag ["m"] = r.sag, level_pull ["N"] = r.level_pull }
    source { "S. S. Tayal, Engineering Mechanics", 0, "ex. 10.5: flat parabola", Read }
}

/// A chain at a pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SagFromPull {
    /// In the middle, m.
    pub sag: f64,
    /// The level part of the pull, N.
    pub level_pull: f64,
}

/// The sag of a flat chain whose ends pull with this force.
///
/// - `weight_per_length` w \[N/m\], `span` L \[m\], `pull_at_ends` T \[N\]: along the chain.
///
/// Formula: H = sqrt(T^2 - (w L / 2)^2); sag = w L^2 / (8 H).
///
/// Range: sags up to an eighth of the span.
///
/// # Errors
/// "pull-too-small" where the pull does not even carry the chain's weight.
///
/// Source: Tayal, ex. 10.5, read.
pub fn sag_from_pull(
    weight_per_length: f64,
    span: f64,
    pull_at_ends: f64,
) -> Result<SagFromPull, Refusal> {
    let half_weight = weight_per_length * span / 2.0;
    if half_weight >= pull_at_ends {
        return Err(Refusal::Contradiction {
            what: "pull-too-small",
        });
    }
    let level_pull = (pull_at_ends * pull_at_ends - half_weight * half_weight).sqrt();
    Ok(SagFromPull {
        sag: weight_per_length * span * span / (8.0 * level_pull),
        level_pull,
    })
}
