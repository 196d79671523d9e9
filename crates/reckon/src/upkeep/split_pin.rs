//! The largest split pin that goes through a hole.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.split_pin" tries split_pin;
    inputs {
        hole: number ["mm"] 0.5, 20.0;
    }
    outputs |r| { size ["mm"] = r.size, thickest ["mm"] = r.thickest, thinnest ["mm"] = r.thinnest }
    source { "ISO 1234, limits of the shank, the size being that of the hole", 0, "as a supplier's table prints them", Read }
}

/// Size, thickest and thinnest shank in mm, in order.
pub const SPLIT_PINS: [SplitPin; 11] = [
    size(1.0, 0.9, 0.8),
    size(1.6, 1.4, 1.3),
    size(2.0, 1.8, 1.7),
    size(2.5, 2.3, 2.1),
    size(3.2, 2.9, 2.7),
    size(4.0, 3.7, 3.5),
    size(5.0, 4.6, 4.4),
    size(6.3, 5.9, 5.7),
    size(8.0, 7.5, 7.3),
    size(10.0, 9.5, 9.3),
    size(13.0, 12.4, 12.1),
];

/// A split pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SplitPin {
    /// Its size: that of the hole it is for, mm.
    pub size: f64,
    /// The shank at its thickest, mm.
    pub thickest: f64,
    /// The shank at its thinnest, mm.
    pub thinnest: f64,
}

const fn size(size: f64, thickest: f64, thinnest: f64) -> SplitPin {
    SplitPin {
        size,
        thickest,
        thinnest,
    }
}

/// The largest split pin for a hole.
///
/// - `hole` \[mm\]: its diameter, cleaned.
///
/// Formula: the largest size of the table that is no larger than the hole.
///
/// Range: holes from 1 mm. Never as a part that is to be sheared; thrown away once it was taken out.
///
/// # Errors
/// `OutOfRange` where the hole is smaller than any size.
///
/// Source: ISO 1234 as a supplier's table prints it, read.
pub fn split_pin(hole: f64) -> Result<SplitPin, Refusal> {
    let fits = |pin: &&SplitPin| pin.size <= hole + 1e-9;
    SPLIT_PINS
        .iter()
        .rev()
        .find(fits)
        .copied()
        .ok_or(Refusal::OutOfRange {
            input: "hole",
            value: hole,
            low: SPLIT_PINS[0].size,
            high: 20.0,
        })
}
