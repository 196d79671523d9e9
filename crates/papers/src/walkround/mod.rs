//! Papers of the walk-round.

mod found;
mod pairs;
mod round_sheet;

pub use round_sheet::round_sheet;

pub(crate) use found::{Line, Piece};
pub(crate) use pairs::{Row, rows};
