//! Who is who in the demo. All five are invented.

use super::pen::Pen;
use yard::id::PersonId;

/// The people of the demo yard.
#[derive(Clone, Debug)]
pub(crate) struct Cast {
    /// Steward.
    pub(crate) odalys: PersonId,
    /// Deputy.
    pub(crate) bram: PersonId,
    /// Operator.
    pub(crate) tamsin: PersonId,
    /// Operator, not on slopes.
    pub(crate) ines: PersonId,
    /// Learner.
    pub(crate) jory: PersonId,
}

impl Cast {
    /// Everybody, with an id drawn for each.
    pub(crate) fn drawn(pen: &mut Pen) -> Self {
        let mut person = || PersonId(pen.fresh());
        Self {
            odalys: person(),
            bram: person(),
            tamsin: person(),
            ines: person(),
            jory: person(),
        }
    }

    /// Ids and names.
    pub(crate) fn all(&self) -> [(PersonId, &'static str); 5] {
        [
            (self.odalys, "Odalys"),
            (self.bram, "Bram"),
            (self.tamsin, "Tamsin"),
            (self.ines, "Ines"),
            (self.jory, "Jory"),
        ]
    }
}
