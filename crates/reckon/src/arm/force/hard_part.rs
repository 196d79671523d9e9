//! Which ram should do the hard part of a cut, and which only scoops.

use super::footing::Footing;
use super::thrust::Statics;
use super::usable::{Cut, Usable, usable};
use crate::arm::shape::{ArmShape, Joint, Vector};

/// One ram's part in a cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The ram that works while the other two hold.
    pub working: Joint,
    /// The force it can use, with all limits.
    pub usable: Usable,
    /// Metres the tooth goes against the ground for a metre that the ram gets longer; negative where it has to get shorter,
    /// 0 where this ram does not move the tooth that way. The same number as what a newton at the tooth adds to its thrust:
    /// what pushes hard goes slowly.
    pub advance: f64,
}

/// What each ram could do alone against a force of the ground in this direction, the one with the largest usable force
/// first: it does the hard part, the later ones scoop.
///
/// A ram that does not move the tooth that way stands last. Equal ones stand from the bucket inwards, for the outer ram
/// moves less weight.
///
/// Source: principle of virtual work, definition. Where the yard has a rule for the order of work, that rule stands.
pub fn hard_part_first(
    shape: &ArmShape,
    statics: &Statics,
    direction: Vector,
    footing: Option<&Footing<'_>>,
) -> [Part; 3] {
    let mut parts = [Joint::Bucket, Joint::Dipper, Joint::Boom].map(|working| {
        let usable = usable(shape, statics, Cut { working, direction }, footing);
        let advance = usable.per_newton[working.index()];
        Part {
            working,
            usable,
            advance,
        }
    });
    let rank = |part: &Part| {
        let moves = part.advance.abs() > 1e-9;
        if moves {
            part.usable.governs.allows.rank()
        } else {
            f64::NEG_INFINITY
        }
    };
    parts.sort_by(|one, other| rank(other).total_cmp(&rank(one)));
    parts
}
