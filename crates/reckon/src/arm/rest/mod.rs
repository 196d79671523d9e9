//! The arm at rest: what is shut in, what bleeding does, how the oil stands in the tank, when a ram would buckle.
//!
//! Every pressure here is an estimate of statics. A circuit is live until it was bled and gauged.

mod bled;
mod column;
mod flat;
mod parked;
mod tank;

pub use bled::{Bled, bled};
pub use column::{RamColumn, rankine};
pub use flat::{FlatRest, flat_on_the_ground};
pub use parked::{Parked, ShutIn, heat_pressure, least_shut_in};
pub use tank::{Tank, TankRams, tank_level};
