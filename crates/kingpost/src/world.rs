//! The real world: the system's clock, its time zone, its chance.

use jiff::{Timestamp, tz::TimeZone};
use yard::world::World;

/// The outside world as this computer shows it.
#[derive(Debug)]
pub struct RealWorld {
    zone: TimeZone,
}

impl RealWorld {
    /// The world of this computer; UTC where the system names no time zone.
    pub fn new() -> Self {
        Self {
            zone: TimeZone::system(),
        }
    }
}

impl Default for RealWorld {
    fn default() -> Self {
        Self::new()
    }
}

impl World for RealWorld {
    fn now(&self) -> Timestamp {
        Timestamp::now()
    }
    fn zone(&self) -> TimeZone {
        self.zone.clone()
    }
    fn chance(&self) -> [u8; 16] {
        let mut bytes = [0u8; 16];
        getrandom::fill(&mut bytes).expect(
            "every system we run on gives random bytes; without them no id and no link is safe",
        );
        bytes
    }
}
