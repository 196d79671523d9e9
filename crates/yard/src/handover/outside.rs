//! A measure outside its limit.

use super::{Seen, What};
use crate::walkround::says;

/// What to say of a measure that is outside; none where it is inside, not known, or no measure.
pub(super) fn outside(seen: &Seen) -> Option<What> {
    says(seen.point?, seen.answer()?).filter(|what| matches!(what, What::Outside { .. }))
}
