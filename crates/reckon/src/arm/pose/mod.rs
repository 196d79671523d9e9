//! Where everything is: from ram lengths or angles to pins and tooth, and back.

pub mod bucket_capacity;
mod bucket_volume;
mod climb;
mod inverse;
mod placed;
pub mod ram_lengths;
mod reach;
pub mod reach_angles;
pub mod reach_extremes;
pub mod tooth_place;

pub use bucket_volume::{BucketVolume, bucket_volume};
pub(crate) use climb::highest;
pub use inverse::{Elbow, Reached, to_reach};
pub use placed::Placed;
pub use reach::{Extreme, ReachFigures, reach_figures};
