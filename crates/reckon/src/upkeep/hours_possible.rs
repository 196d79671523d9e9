//! Whether a meter can have moved so far in the time that passed.

use crate::leaf::leaf;

leaf! {
    "upkeep.hours_possible" computes hours_possible;
    inputs {
        advance: number ["h"] -1e7, 1e7;
        hours_passed: number ["h"] 0.0, 1e6;
        step: number ["h"] 0.0, 10.0;
    }
    outputs |r| { possible ["1"] = r.possible, over ["h"] = r.over }
    source { "An engine cannot run longer than the time that passed, by definition", 0, "", Definition }
}

/// Whether an advance can be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoursPossible {
    /// True where the meter can have moved so far.
    pub possible: bool,
    /// The hours too many, h; nothing where it is possible.
    pub over: f64,
}

/// Compares the advance of a meter with the time that passed between the readings.
///
/// - `advance` \[h\]: what the meter moved, from the last reading that was believed.
/// - `hours_passed` \[h\]: clock time between the two readings.
/// - `step` \[h\]: the smallest step the meter shows; so much may be rounding.
///
/// Formula: possible where 0 <= advance <= hours passed + step; over = advance - hours passed - step.
/// A meter that counts turns of the engine can run ahead of the clock by its ratio: give it its own bound.
///
/// Range: advance from -10^7 to 10^7 h.
///
/// Source: definition. The bound is what the time allows, not what a day's work usually is.
pub fn hours_possible(advance: f64, hours_passed: f64, step: f64) -> HoursPossible {
    // A billionth of an hour is noise of the arithmetic, not of the meter.
    let over = (advance - hours_passed - step).max(0.0);
    HoursPossible {
        possible: advance >= 0.0 && over < 1e-9,
        over,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twenty_six_hours_do_not_fit_into_twenty() {
        let judged = hours_possible(26.0, 20.0, 0.1);
        assert!(!judged.possible);
        assert!((judged.over - 5.9).abs() < 1e-9);
    }

    #[test]
    fn rounding_is_no_fault_and_going_back_is() {
        assert!(hours_possible(20.1, 20.0, 0.1).possible);
        assert!(!hours_possible(-0.1, 20.0, 0.1).possible);
    }
}
