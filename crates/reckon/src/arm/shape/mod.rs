//! The machine's arm as it was measured: pins of each link in the link's own frame, rams, linkage, weights.

mod arm_shape;
mod four_bar;
pub mod joint_angle;
mod listed;
mod ram;
pub mod ram_force;
pub mod ram_pressure;
mod ram_weight;
mod triangle;
mod trouble;
mod vector;

pub use arm_shape::{ArmShape, BucketShape, STANDARD_GRAVITY, Weight};
pub use four_bar::{BarPose, FourBar};
pub use listed::SHAPE_NUMBERS;
pub use ram::{Ram, Side, Stop};
pub use ram_weight::{RamSizes, RamWeights, about_weights};
pub use triangle::{Grip, Triangle, Turns};
pub use trouble::{Joint, ShapeTrouble};
pub use vector::{Vector, circles_meet, wrapped};
