//! How many full rounds one cartridge gives.

use crate::leaf::leaf;
use crate::whole::wholes_in;

leaf! {
    "upkeep.grease_rounds_per_cartridge" computes grease_rounds_per_cartridge;
    inputs {
        cartridge: number ["g"] 1.0, 100000.0;
        round_mass: number ["g"] 0.05, 100000.0;
    }
    outputs |r| { full_rounds ["1"] = r.full_rounds, rounds ["1"] = r.rounds }
    source { "Content over need, by definition", 0, "", Definition }
}

/// How far a cartridge goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CartridgeRounds {
    /// Rounds that can be finished.
    pub full_rounds: f64,
    /// Rounds with the part of the last.
    pub rounds: f64,
}

/// Rounds a cartridge gives.
///
/// - `cartridge` \[g\]: its content.
/// - `round_mass` \[g\]: grease for one round.
///
/// Formula: rounds = cartridge / round mass; full rounds = that, rounded down, because a round that cannot be
/// finished is no round.
///
/// Range: a round of 0.05 g or more.
///
/// Source: definition.
pub fn grease_rounds_per_cartridge(cartridge: f64, round_mass: f64) -> CartridgeRounds {
    let rounds = cartridge / round_mass;
    CartridgeRounds {
        full_rounds: wholes_in(rounds),
        rounds,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_rounds_not_seven() {
        let rounds = grease_rounds_per_cartridge(400.0, 58.88);
        assert_eq!(rounds.full_rounds, 6.0);
        assert!((rounds.rounds - 6.793).abs() < 0.001);
    }

    #[test]
    fn exactly_three_is_three() {
        assert_eq!(
            grease_rounds_per_cartridge(0.3 * 10.0, 0.1 * 10.0).full_rounds,
            3.0
        );
    }
}
