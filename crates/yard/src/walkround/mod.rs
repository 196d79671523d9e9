//! What must be looked at now, along the lap, and what an answer means.

mod plan;

pub use plan::*;
