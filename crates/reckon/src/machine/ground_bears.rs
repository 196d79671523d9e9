//! What a kind of ground is planned to bear.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.ground_bears" tries ground_bears;
    inputs {
        ground: whole ["1"] 1.0, 4.0;
    }
    outputs |r| { least ["kPa"] = r.least, most ["kPa"] = r.most }
    source { "Planning figures of a page that works out pads", 0, "of little weight", Read }
}

/// What a kind of ground bears, in kilopascals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundBears {
    /// At least.
    pub least: f64,
    /// At most.
    pub most: f64,
}

/// Soft clay, firm clay or fill, dense sand or gravel, a pad of stone.
const GROUNDS: [GroundBears; 4] = [
    bears(25.0, 75.0),
    bears(75.0, 145.0),
    bears(145.0, 290.0),
    bears(190.0, 380.0),
];

const fn bears(least: f64, most: f64) -> GroundBears {
    GroundBears { least, most }
}

/// What a kind of ground is planned to bear.
///
/// - `ground`: 1 soft clay, 2 firm clay or fill, 3 dense sand or gravel, 4 a pad of stone.
///
/// Range: a first guess. Wet ground, made ground and the edge of a trench bear less. Take the least.
///
/// # Errors
/// `OutOfRange` where there is no such kind.
///
/// Source: planning figures of a page that works out pads, read, of little weight.
pub fn ground_bears(ground: u32) -> Result<GroundBears, Refusal> {
    let kinds = (1..).zip(GROUNDS);
    let mut of_this_kind = kinds.filter(|(kind, _)| *kind == ground);
    let (_, bears) = of_this_kind.next().ok_or(Refusal::OutOfRange {
        input: "ground",
        value: f64::from(ground),
        low: 1.0,
        high: 4.0,
    })?;
    Ok(bears)
}
