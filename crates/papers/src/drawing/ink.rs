//! The colours and line weights of the workshop paper look: the only place they are written for drawings.

/// Page ground.
pub const PAPER: &str = "#EFE8DA";
/// A sheet lying on it.
pub const SHEET: &str = "#FBF8F1";
/// Text and outlines.
pub const INK: &str = "#211E19";
/// Notes in pencil.
pub const PENCIL: &str = "#625A4C";
/// Rules between rows.
pub const RULE: &str = "#CBBFA9";
/// Dimension and leader lines.
pub const DIMENSION: &str = "#1F4663";
/// Fit to run.
pub const FIT: &str = "#255B3B";
/// Run with care.
pub const CARE: &str = "#8A5A00";
/// Stand down.
pub const STAND_DOWN: &str = "#8C2A1C";
/// Hatch of the danger zone.
pub const HATCH: &str = "#B9854A";

/// Drawing units (hundredths of a metre) in one metre.
pub(super) const PER_METRE: f64 = 100.0;
