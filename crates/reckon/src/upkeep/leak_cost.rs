//! What lost oil costs, with the work it makes.

use crate::leaf::leaf;

leaf! {
    "upkeep.leak_cost" computes leak_cost;
    inputs {
        volume: number ["L"] 0.0, 1e8;
        price_per_litre: number ["1/L"] 0.0, 10000.0;
        handling_factor: number ["1"] 1.0, 100.0;
    }
    outputs |money| { cost ["1"] = money }
    source { "A lubrication journal: lost oil costs three times its price with handling", 0, "", Read }
}

/// What lost oil costs, in the money the price is given in.
///
/// - `volume` \[L\]: the oil lost.
/// - `price_per_litre` \[1/L\]: in any money.
/// - `handling_factor`: how many times the price it costs with topping up, cleaning and disposal; 1 for the oil alone.
///
/// Formula: cost = volume x price x factor. Nothing is rounded on the way.
///
/// Range: a factor from 1 up.
///
/// Source: a lubrication journal, read; its factor of 3 is that journal's opinion.
pub fn leak_cost(volume: f64, price_per_litre: f64, handling_factor: f64) -> f64 {
    volume * price_per_litre * handling_factor
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_early_rounding() {
        let gallon = 3.785_411_784;
        let cost = leak_cost(31_536_000.0 / 14_000.0 / 8.0 * gallon, 3.5 / gallon, 3.0);
        assert!((cost - 2956.5).abs() < 0.05);
    }
}
