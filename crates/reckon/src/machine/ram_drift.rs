//! Whether a ram sank because its oil cooled or because oil leaked.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.ram_drift" tries ram_drift;
    inputs {
        sank: number ["mm"] 0.0, 10000.0;
        minutes: number ["min"] 0.1, 100000.0;
        bore: number ["mm"] 5.0, 1000.0;
        rod: number ["mm"] 0.0, 1000.0;
        pulled: yes_no ["1"] 0.0, 1.0;
        oil_column: number ["mm"] 0.0, 20000.0;
        cooling: number ["K"] -150.0, 150.0;
        expansion: number ["1/K"] 0.0, 0.01;
    }
    outputs |r| { by_cooling ["mm"] = r.by_cooling, by_leakage ["mm"] = r.by_leakage, leakage ["mL/h"] = r.leakage }
    source { "Expansion of mineral oil: M. G. Rabie, Fluid Power Engineering", 2009, "p. 37: 0.0007 for each kelvin", Read }
}

/// What a drop of a ram is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamDrift {
    /// What cooling oil explains, mm; negative where it got warmer.
    pub by_cooling: f64,
    /// What is left for a leak, mm; negative where cooling explains more than was seen.
    pub by_leakage: f64,
    /// The leak that this would be, mL/h; nothing where nothing is left.
    pub leakage: f64,
}

/// What cooling explains of a ram's drop, and the leak that the rest would be.
///
/// - `sank` \[mm\]: how far the rod went in `minutes`. `bore`, `rod` \[mm\]. `pulled`: the load hangs on the rod, so that the
///   ring's oil holds it.
/// - `oil_column` \[mm\]: the oil that holds it, as a length of the ram: inside it, and the line to the valve.
/// - `cooling` \[K\]: how much colder the oil got. `expansion` \[1/K\]: mineral oil 0.0007.
///
/// Formula: column x expansion x cooling; the rest times the area over the time.
///
/// Range: the valve in neutral, the load unchanged.
///
/// # Errors
/// "rod-fills-bore" where the rod is as thick as the bore.
///
/// Source: Rabie 2009, p. 37, read. One crane manual prints 1 % for each 100 °F where another edition has 4 %; physics says 3.9 %.
#[expect(
    clippy::too_many_arguments,
    reason = "a ram and what was seen of it, each number with its own name in the leaf"
)]
pub fn ram_drift(
    sank: f64,
    minutes: f64,
    bore: f64,
    rod: f64,
    pulled: bool,
    oil_column: f64,
    cooling: f64,
    expansion: f64,
) -> Result<RamDrift, Refusal> {
    if rod >= bore {
        return Err(Refusal::Contradiction {
            what: "rod-fills-bore",
        });
    }
    let hole = if pulled { rod } else { 0.0 };
    let area = PI / 4.0 * (bore * bore - hole * hole);
    let by_cooling = oil_column * expansion * cooling;
    let by_leakage = sank - by_cooling;
    Ok(RamDrift {
        by_cooling,
        by_leakage,
        leakage: by_leakage.max(0.0) * area / 1000.0 / (minutes / 60.0),
    })
}
