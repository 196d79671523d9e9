//! Hours of a meter that did not count, from what another counted meanwhile.

use crate::leaf::leaf;

leaf! {
    "upkeep.hours_by_other_meter" computes hours_by_other_meter;
    inputs {
        advance: number ["h"] 0.0, 1e6;
        ratio: number ["1"] 0.0, 100.0;
    }
    outputs |hours| { hours ["h"] = hours }
    source { "Hours in proportion to those of a meter beside it, by definition of the ratio", 0, "", Definition }
}

/// Hours one meter would have counted while another moved by `advance`.
///
/// - `advance` \[h\]: what the other meter moved.
/// - `ratio`: hours of the one for an hour of the other, with its ±, as paired readings showed it.
///
/// Formula: hours = ratio x advance. It is an estimate: other work, another ratio.
///
/// Range: advance 0 to 10^6 h, ratio 0 to 100.
///
/// Source: definition.
pub fn hours_by_other_meter(advance: f64, ratio: f64) -> f64 {
    advance * ratio
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_hours_of_key_are_eight_of_running() {
        assert!((hours_by_other_meter(10.0, 0.8) - 8.0).abs() < 1e-12);
    }
}
