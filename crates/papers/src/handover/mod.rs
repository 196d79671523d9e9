//! Papers of the handover.

mod finding_sheet;
mod stand_down_tag;

pub use finding_sheet::{MOST_PHOTOS, PrintedFinding, PrintedPhoto, finding_sheet};
pub use stand_down_tag::{stand_down_tag, stand_down_tag_to};
