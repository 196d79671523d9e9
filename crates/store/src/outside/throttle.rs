//! Counters against guessing PINs: when the misses of a key were, and whether it is locked until somebody unlocks it.

use crate::{Drawer, StoreError, Yard};
use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};
use uuid::Uuid;
use yard::id::PersonId;

/// Misses older than this are forgotten.
const KEPT: SignedDuration = SignedDuration::from_hours(24);
/// No more than these are kept for a key: whoever asks has long been stopped.
const MOST: usize = 100;

/// The misses of one key within a day. Its own stored form; what an older program wrote counts as nothing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Misses {
    /// When they were, and as whom.
    #[serde(default)]
    pub at: Vec<Miss>,
    /// Locked until somebody unlocks it.
    #[serde(default)]
    pub locked: bool,
}

/// One wrong PIN.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Miss {
    /// When.
    pub at: Timestamp,
    /// Whose PIN it was to be.
    pub person: Option<Uuid>,
    /// From where: a key of its own.
    pub from: String,
}

impl Misses {
    /// How many there were within `span` before now. A clock set back does not open the door: what seems to lie ahead counts.
    pub fn within(&self, now: Timestamp, span: SignedDuration) -> usize {
        let counts = |miss: &&Miss| now.duration_since(miss.at) < span;
        self.at.iter().filter(counts).count()
    }

    /// The last of them.
    pub fn last(&self) -> Option<Timestamp> {
        self.at.iter().map(|miss| miss.at).max()
    }

    fn nothing(&self) -> bool {
        self.at.is_empty() && !self.locked
    }
}

impl Yard {
    /// The misses of a key within the last day.
    ///
    /// # Errors
    /// The engine's own.
    pub fn misses(&self, key: &str, now: Timestamp) -> Result<Misses, StoreError> {
        let misses = self.kept::<Misses>(Drawer::Throttle, key)?;
        Ok(recent(misses.unwrap_or_default(), now))
    }

    /// Every key with misses within the last day, or locked.
    ///
    /// # Errors
    /// The engine's own.
    pub fn all_misses(&self, now: Timestamp) -> Result<Vec<(String, Misses)>, StoreError> {
        let all = self.all_kept::<Misses>(Drawer::Throttle)?.into_iter();
        let all = all.map(|(key, misses)| (key, recent(misses, now)));
        Ok(all.filter(|(_, misses)| !misses.nothing()).collect())
    }

    /// Counts a miss and says all of them; with `lock_at` of them within a day the key is locked.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn count_miss(&self, key: &str, miss: &Miss, lock_at: usize) -> Result<Misses, StoreError> {
        self.change(Drawer::Throttle, key, |old: Option<Misses>| {
            let mut misses = recent(old.unwrap_or_default(), miss.at);
            misses.at.push(miss.clone());
            let over = misses.at.len().saturating_sub(MOST);
            misses.at.drain(..over);
            misses.locked |= misses.at.len() >= lock_at;
            (Some(misses.clone()), misses)
        })
    }

    /// Forgets the misses of a key that were by this person from there, as after signing in. A lock stays.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn forgive_misses(
        &self,
        key: &str,
        person: PersonId,
        from: &str,
    ) -> Result<(), StoreError> {
        self.change(Drawer::Throttle, key, |old: Option<Misses>| {
            let left = old.map(|mut old| {
                old.at
                    .retain(|miss| miss.person != Some(person.0) || miss.from != from);
                old
            });
            (left.filter(|left| !left.nothing()), ())
        })
    }

    /// Forgets all misses of the keys that `which` says, and unlocks them. Says whether any was locked.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn unlock(&self, which: impl Fn(&str) -> bool) -> Result<bool, StoreError> {
        let mut any = false;
        for (key, misses) in self.all_kept::<Misses>(Drawer::Throttle)? {
            if which(&key) {
                any |= misses.locked;
                self.change(Drawer::Throttle, &key, |_: Option<Misses>| (None, ()))?;
            }
        }
        Ok(any)
    }

    /// Takes away counters that count nothing any more.
    ///
    /// # Errors
    /// [`StoreError::LookOnly`]; the engine's own.
    pub fn clear_misses(&self, now: Timestamp) -> Result<(), StoreError> {
        self.clear(Drawer::Throttle, |misses: &Misses| {
            recent(misses.clone(), now).nothing()
        })
    }
}

fn recent(mut misses: Misses, now: Timestamp) -> Misses {
    misses.at.retain(|miss| now.duration_since(miss.at) < KEPT);
    misses
}
