//! What each of two supports carries under several loads.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.two_supports" tries two_supports;
    inputs {
        loads: list ["kN"] -1e6, 1e6;
        places: list ["m"] -1000.0, 1000.0;
        first: number ["m"] -1000.0, 1000.0;
        second: number ["m"] -1000.0, 1000.0;
    }
    outputs |r| { on_first ["kN"] = r.on_first, on_second ["kN"] = r.on_second }
    source { "R. C. Hibbeler, Statics, problem 6-108: moments about one support", 0, "", Read }
}

/// What two supports carry. Negative: the support would have to pull; the machine tips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoSupports {
    /// On the first, kN.
    pub on_first: f64,
    /// On the second, kN.
    pub on_second: f64,
}

/// The load on each of two supports.
///
/// - `loads` \[kN\], downwards positive, at `places` \[m\]; `first`, `second` \[m\]: where the supports are, on the same line.
///
/// Formula: second = sum of load x (place - first) / (second - first); the first carries the rest.
///
/// Range: level ground, loads square to it.
///
/// # Errors
/// `WrongCount` where loads and places differ in number; "supports-coincide" where the two are one.
///
/// Source: Hibbeler, problem 6-108, read.
pub fn two_supports(
    loads: &[f64],
    places: &[f64],
    first: f64,
    second: f64,
) -> Result<TwoSupports, Refusal> {
    if places.len() != loads.len() {
        return Err(Refusal::WrongCount {
            input: "places",
            count: places.len(),
        });
    }
    let apart = second - first;
    if apart.abs() <= 1e-9 {
        return Err(Refusal::Contradiction {
            what: "supports-coincide",
        });
    }
    let moments = loads.iter().zip(places);
    let on_second = moments
        .map(|(load, place)| load * (place - first) / apart)
        .sum::<f64>();
    Ok(TwoSupports {
        on_first: loads.iter().sum::<f64>() - on_second,
        on_second,
    })
}
