//! What the rams carry and what the tooth can do: virtual work, limits, tipping, sliding.

mod allowed;
mod asked;
pub mod crowd_force;
pub mod curl_force;
mod footing;
pub mod force_by_ram;
mod hard_part;
mod ladder;
mod lift;
pub mod lift_at_pin;
pub mod pin_loads;
pub mod pin_stress;
mod pins;
pub mod ram_thrusts;
pub mod rated_lift;
mod stance_listed;
mod standard;
pub mod standing;
mod thrust;
pub mod tips_at;
pub mod tooth_per_ram;
mod usable;
pub mod usable_force;
mod weights;

pub use allowed::{Allowed, allowed};
pub(crate) use asked::{hanging, joint, placed};
pub use footing::{Edge, Footing, LoadPoint, Stance, Wrench};
pub use hard_part::{Part, hard_part_first};
pub use ladder::Ladder;
pub use lift::{Lift, LiftLimit, lift};
pub use pins::{PinForces, pin_bearing, pin_forces, pin_shear};
pub use standard::{StandardForce, standard_crowd, standard_curl};
pub use thrust::{LinkPoint, Statics};
pub use usable::{Cut, Governs, Limit, Usable, usable};
pub use weights::{gravity_moments, weights_of, whole_arm};
