//! The outside world as the domain sees it: one small trait, so that tests use a made-up one.

use jiff::{Timestamp, tz::TimeZone};

/// Clock, time zone and chance. The real one lives in the command; tests fix all three.
pub trait World: Send + Sync {
    /// The time now.
    fn now(&self) -> Timestamp;
    /// The yard's time zone: a day in the yard begins at its midnight.
    fn zone(&self) -> TimeZone;
    /// Sixteen unpredictable bytes, for ids and one-time links.
    fn chance(&self) -> [u8; 16];
}

/// A world that stands still: the same time, UTC, and counted "chance". For tests and for making the demo.
#[derive(Debug)]
pub struct StillWorld {
    now: Timestamp,
    zone: TimeZone,
    drawn: std::sync::atomic::AtomicU64,
}

impl StillWorld {
    /// A world whose clock shows `now` for ever.
    pub fn at(now: Timestamp) -> Self {
        Self {
            now,
            zone: TimeZone::UTC,
            drawn: std::sync::atomic::AtomicU64::new(0),
        }
    }
}

impl World for StillWorld {
    fn now(&self) -> Timestamp {
        self.now
    }
    fn zone(&self) -> TimeZone {
        self.zone.clone()
    }
    fn chance(&self) -> [u8; 16] {
        let n = self
            .drawn
            .fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        let mut bytes = [0u8; 16];
        bytes[8..].copy_from_slice(&n.to_be_bytes());
        bytes
    }
}
