//! Who is who in the demo. All nine are invented.

use super::{calendar::Who, pen::Pen};
use yard::{id::PersonId, people::Role};

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
    /// Operator of the small machines.
    pub(crate) perrin: PersonId,
    /// Operator of the small machines.
    pub(crate) hanne: PersonId,
    /// Learner, with the saw.
    pub(crate) sefa: PersonId,
    /// Visitor.
    pub(crate) wilmot: PersonId,
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
            perrin: person(),
            hanne: person(),
            sefa: person(),
            wilmot: person(),
        }
    }

    /// Ids, names and roles.
    pub(crate) fn all(&self) -> [(PersonId, &'static str, Role); 9] {
        [
            (self.odalys, "Odalys", Role::Steward),
            (self.bram, "Bram", Role::Deputy),
            (self.tamsin, "Tamsin", Role::Operator),
            (self.ines, "Ines", Role::Operator),
            (self.jory, "Jory", Role::Learner),
            (self.perrin, "Perrin", Role::Operator),
            (self.hanne, "Hanne", Role::Operator),
            (self.sefa, "Sefa", Role::Learner),
            (self.wilmot, "Wilmot", Role::Visitor),
        ]
    }

    /// The id of somebody who works.
    pub(crate) fn of(&self, who: Who) -> PersonId {
        match who {
            Who::Odalys => self.odalys,
            Who::Bram => self.bram,
            Who::Tamsin => self.tamsin,
            Who::Ines => self.ines,
            Who::Jory => self.jory,
            Who::Perrin => self.perrin,
            Who::Hanne => self.hanne,
            Who::Sefa => self.sefa,
        }
    }

    /// Who keeps a learner in sight; none for anybody else.
    pub(crate) fn in_sight_of(&self, who: Who) -> Option<PersonId> {
        match who {
            Who::Jory => Some(self.odalys),
            Who::Sefa => Some(self.bram),
            _ => None,
        }
    }
}
