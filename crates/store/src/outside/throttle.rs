//! Counters against guessing PINs: misses by key within a span of time.

use crate::{Drawer, StoreError, Yard};
use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Serialize, Deserialize)]
struct Misses {
    count: u32,
    since: Timestamp,
}

impl Yard {
    /// Counts a miss and says how many there are in the span that began with the first of them.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn count_miss(
        &self,
        key: &str,
        now: Timestamp,
        span: SignedDuration,
    ) -> Result<u32, StoreError> {
        self.change(Drawer::Throttle, key, |old: Option<Misses>| {
            let misses = old.filter(|old| old.runs(now, span)).unwrap_or(Misses {
                count: 0,
                since: now,
            });
            let count = misses.count.saturating_add(1);
            (Some(Misses { count, ..misses }), count)
        })
    }

    /// Misses counted in the span.
    ///
    /// # Errors
    /// The engine's own.
    pub fn misses(
        &self,
        key: &str,
        now: Timestamp,
        span: SignedDuration,
    ) -> Result<u32, StoreError> {
        let misses = self.kept::<Misses>(Drawer::Throttle, key)?;
        Ok(misses
            .filter(|misses| misses.runs(now, span))
            .map_or(0, |misses| misses.count))
    }

    /// Forgets the misses of a key, as after signing in.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn forget_misses(&self, key: &str) -> Result<(), StoreError> {
        self.change(Drawer::Throttle, key, |_: Option<Misses>| (None, ()))
    }
}

impl Misses {
    /// Whether the span still runs. A clock set back does not open the door: the span then runs on.
    fn runs(&self, now: Timestamp, span: SignedDuration) -> bool {
        now.duration_since(self.since) < span
    }
}
