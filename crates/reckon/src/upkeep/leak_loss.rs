//! What a dripping leak loses in a year.

use crate::leaf::leaf;

/// Litres in one US liquid pint: an eighth of 231 cubic inches of 25.4 mm, exact.
pub(crate) const LITRES_PER_US_PINT: f64 = 0.473_176_473;

leaf! {
    "upkeep.leak_loss" computes leak_loss;
    inputs {
        drops_per_second: number ["1/s"] 0.0, 100.0;
        hours_per_year: number ["h"] 0.0, 8784.0;
        drops_per_pint: number ["1"] 1000.0, 100000.0;
    }
    outputs |litres| { volume ["L"] = litres }
    source { "A lubrication journal: 14 000 drops of oil make one US pint", 0, "", Read }
}

/// Oil lost in a year, in litres.
///
/// - `drops_per_second` \[1/s\]: counted.
/// - `hours_per_year` \[h\]: for how many hours of the year it drips; 8760 for a leak that never rests.
/// - `drops_per_pint`: drops that make one US liquid pint; 14 000 for oil.
///
/// Formula: drops per second x 3600 x hours / drops per pint x 0.473176473 L. Nothing is rounded on the way.
///
/// Range: 1000 to 100 000 drops a pint.
///
/// Source: a lubrication journal, read; the pint is a definition.
pub fn leak_loss(drops_per_second: f64, hours_per_year: f64, drops_per_pint: f64) -> f64 {
    drops_per_second * 3600.0 * hours_per_year / drops_per_pint * LITRES_PER_US_PINT
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drop_a_second_is_281_gallons() {
        let gallons = leak_loss(1.0, 8760.0, 14_000.0) / (8.0 * LITRES_PER_US_PINT);
        assert!((gallons - 281.6).abs() < 0.05);
    }
}
