//! What the rams carry and what the tooth can do: virtual work, limits, tipping, sliding.

mod allowed;
mod footing;
mod hard_part;
mod ladder;
mod lift;
mod pins;
mod standard;
mod thrust;
mod usable;
mod weights;

pub use allowed::{Allowed, allowed};
pub use footing::{Edge, Footing, LoadPoint, Stance, Wrench};
pub use hard_part::{Part, hard_part_first};
pub use ladder::Ladder;
pub use lift::{Lift, LiftLimit, lift};
pub use pins::{PinForces, pin_bearing, pin_forces, pin_shear};
pub use standard::{StandardForce, standard_crowd, standard_curl};
pub use thrust::{LinkPoint, Statics};
pub use usable::{Cut, Governs, Limit, Usable, usable};
pub use weights::{gravity_moments, weights_of, whole_arm};
