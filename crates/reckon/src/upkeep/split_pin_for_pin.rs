//! The split pin and the hole for it that belong to a pin with a head.

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "upkeep.split_pin_for_pin" tries split_pin_for_pin;
    inputs {
        pin: number ["mm"] 1.0, 30.0;
    }
    outputs |r| { split_pin ["mm"] = r.split_pin, hole_least ["mm"] = r.hole_least, hole_most ["mm"] = r.hole_most }
    source { "ASME B18.8.1, clevis pins", 0, "as a published table of dimensions prints them, in inches", Read }
}

/// From which pin on, its split pin, least and largest hole, in inches. The printed table has nine pins up to one inch; those
/// with the same split pin are one row here.
pub const PINS: [[f64; 4]; 4] = [
    [0.25, 0.0625, 0.073, 0.088],
    [0.3125, 0.09375, 0.104, 0.119],
    [0.5, 0.125, 0.136, 0.151],
    [0.75, 0.15625, 0.167, 0.182],
];

/// A split pin and its hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SplitPinForPin {
    /// Diameter of the split pin, mm.
    pub split_pin: f64,
    /// The least hole for it, mm.
    pub hole_least: f64,
    /// The largest hole for it, mm.
    pub hole_most: f64,
}

/// The split pin for a pin with a head.
///
/// - `pin` \[mm\]: diameter of the pin.
///
/// Formula: the row of the largest pin of the table that is no thicker than this one; a twentieth of a millimetre is for measuring.
///
/// Range: pins from a quarter of an inch to an inch and a bit. For metric bolts no list was found.
///
/// # Errors
/// `OutOfRange` where the pin is thinner than any of the table.
///
/// Source: ASME B18.8.1 as a published table prints it, read.
pub fn split_pin_for_pin(pin: f64) -> Result<SplitPinForPin, Refusal> {
    // A pin is measured to a twentieth of a millimetre.
    let inches = (pin + 0.05) / 25.4;
    let row = PINS.iter().rev().find(|row| row[0] <= inches);
    let &[_, split_pin, hole_least, hole_most] = row.ok_or(Refusal::OutOfRange {
        input: "pin",
        value: pin,
        low: 25.4 * PINS[0][0],
        high: 30.0,
    })?;
    Ok(SplitPinForPin {
        split_pin: split_pin * 25.4,
        hole_least: hole_least * 25.4,
        hole_most: hole_most * 25.4,
    })
}
