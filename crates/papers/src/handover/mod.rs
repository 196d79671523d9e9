//! Papers of the handover.

mod stand_down_tag;

pub use stand_down_tag::{stand_down_tag, stand_down_tag_to};
