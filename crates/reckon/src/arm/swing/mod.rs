//! The arm swung: torque of the swing rams, the energy in the moving arm, and what stopping it does.

mod boom_box;
mod inertia;
mod rams;
mod stopping;

pub use boom_box::{BoomBox, SideStress};
pub use inertia::{Inertias, swing_inertia};
pub use rams::{SwingPose, SwingRams};
pub use stopping::{energy, spring_force, stop_forces};
