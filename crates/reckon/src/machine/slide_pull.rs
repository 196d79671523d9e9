//! The pull that drags a foot, or the whole machine, over the ground.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.slide_pull" tries slide_pull;
    inputs {
        load: number ["kN"] 0.0, 100000.0;
        friction: number ["1"] 0.0, 2.0;
        upwards: number ["°"] -90.0, 90.0;
    }
    outputs |kilonewtons| { pull ["kN"] = kilonewtons }
    source { "Coulomb friction", 0, "P = mu N / (cos a + mu sin a)", Definition }
}

/// The pull at which a support begins to slide, in kilonewtons.
///
/// - `load` \[kN\]: what the support, or all of them, carry without the pull. `friction`: share of the load that holds.
/// - `upwards` \[°\]: the pull over level; downwards negative, which presses the support on.
///
/// Formula: friction x load / (cos + friction x sin).
///
/// Range: firm level ground; a foot that is dug in holds more, on ice or plate less.
///
/// # Errors
/// "never-slides" where the pull presses on more than it drags.
///
/// Source: Coulomb friction, definition.
pub fn slide_pull(load: f64, friction: f64, upwards: f64) -> Result<f64, Refusal> {
    let angle = upwards.to_radians();
    let dragged = libm::cos(angle) + friction * libm::sin(angle);
    if dragged <= 1e-9 {
        return Err(Refusal::Contradiction {
            what: "never-slides",
        });
    }
    Ok(friction * load / dragged)
}
