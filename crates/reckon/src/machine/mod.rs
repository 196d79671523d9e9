//! The machine at rest: measured spans and levels, limits, and the way round it.

pub mod conformity_probability;
pub mod guard_band_risk;
pub mod lap_length;
pub mod level_at_reference;
pub mod level_drop_from_rods;
pub mod sag_tension;
pub mod sag_tension_ratio;
pub mod span_mean;
pub mod walk_between;
