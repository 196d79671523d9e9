//! What governs and how likely, when the pins are known only as well as the tape knows them.

use super::{Figures, direction_name, governed_by};
use yard::arm::{ArmOfBook, Direction, PoseAsked, likely};

/// The same seed each time: the same digits.
const SEED: u64 = 1;

impl Figures {
    /// For each direction the limit that governs most often, its share of the draws, and the interval of the usable
    /// force, on what it digs from; all by this many draws. Nothing for a pose that is swung or has a load.
    pub(in super::super) fn likely(&mut self, arm: &ArmOfBook, asked: &PoseAsked, draws: usize) {
        if asked.swing != 0.0 || asked.load != 0.0 {
            return;
        }
        for direction in Direction::ALL {
            let name = direction_name(direction);
            let column = |what: &str| format!("{name}-likely-{what}");
            match likely(arm, asked.lengths, direction, arm.digs_from, (draws, SEED)) {
                Ok(found) => {
                    let governs = found.choice.governs;
                    self.word(column("governs"), governed_by(found.limits[governs]));
                    self.number(column("share"), "", found.choice.shares[governs]);
                    let lowest = &found.choice.lowest;
                    self.number(column("usable-low"), "N", lowest.low);
                    self.number(column("usable-high"), "N", lowest.high);
                }
                Err(why) => self.unknown(column("governs"), "", &why),
            }
        }
    }
}
