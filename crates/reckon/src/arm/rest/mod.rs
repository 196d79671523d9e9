//! The arm at rest: what is shut in, what bleeding does, how the oil stands in the tank, when a ram would buckle.
//!
//! Every pressure here is an estimate of statics. A circuit is live until it was bled and gauged.

mod bled;
pub mod bled_circuit;
mod column;
mod flat;
pub mod locked_heat;
pub mod oil_level;
mod parked;
pub mod ram_column;
pub mod shut_in_pressures;
pub mod slack_rest;
mod tank;

pub use bled::{Bled, bled};
pub use column::{RamColumn, rankine};
pub use flat::{FlatRest, flat_on_the_ground};
pub use parked::{Parked, ShutIn, heat_pressure, least_shut_in};
pub use tank::{Tank, TankRams, tank_level};
