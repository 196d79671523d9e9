//! The arm swung: torque of the swing rams, the energy in the moving arm, and what stopping it does.

mod boom_box;
pub mod boom_stress;
mod inertia;
mod rams;
mod stopping;
pub mod swing_mass;
pub mod swing_stop;
pub mod swing_torque;

pub use boom_box::{BoomBox, SideStress};
pub use inertia::{Inertias, swing_inertia};
pub use rams::{SwingPose, SwingRams};
pub use stopping::{energy, spring_force, stop_forces};
