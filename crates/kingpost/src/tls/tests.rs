//! Root, leaf, keeper and own files, held against other readers of certificates: webpki and openssl.
#![allow(clippy::unwrap_used)]

mod from_elsewhere;
mod judged;
mod kept_fresh;

use super::{Folder, Keeper, Name, Pair, Source};
use jiff::{SignedDuration, Timestamp, tz::TimeZone};
use std::{
    collections::BTreeSet,
    sync::{
        Arc, Mutex,
        atomic::{AtomicU64, Ordering},
    },
};
use tempfile::TempDir;
use yard::world::World;

/// A clock that the test moves, and counted chance.
struct Clock {
    now: Mutex<Timestamp>,
    drawn: AtomicU64,
}

impl Clock {
    fn new() -> Arc<Self> {
        Arc::new(Self {
            now: Mutex::new("2026-03-02T07:00:00Z".parse().unwrap()),
            drawn: AtomicU64::new(1),
        })
    }

    fn move_to(&self, at: Timestamp) {
        *self.now.lock().unwrap() = at;
    }
}

impl World for Clock {
    fn now(&self) -> Timestamp {
        *self.now.lock().unwrap()
    }
    fn zone(&self) -> TimeZone {
        TimeZone::UTC
    }
    fn chance(&self) -> [u8; 16] {
        let mut bytes = [7; 16];
        let drawn = self.drawn.fetch_add(1, Ordering::Relaxed);
        bytes[..8].copy_from_slice(&drawn.to_be_bytes());
        bytes
    }
}

fn days(n: i64) -> SignedDuration {
    SignedDuration::from_hours(24 * n)
}

fn names(texts: &[&str]) -> BTreeSet<Name> {
    texts.iter().map(|text| Name::read(text).unwrap()).collect()
}

/// A data folder with a clock.
struct Place {
    data: TempDir,
    clock: Arc<Clock>,
}

impl Place {
    fn new() -> Self {
        Self {
            data: tempfile::tempdir().unwrap(),
            clock: Clock::new(),
        }
    }

    fn folder(&self) -> Folder {
        Folder::of(self.data.path())
    }

    fn root(&self) -> Pair {
        let folder = self.folder();
        folder
            .root_or_new("Invented yard", &BTreeSet::new(), self.clock.as_ref())
            .unwrap()
    }

    fn source(&self, named: &[&str]) -> Source {
        Source::Root {
            folder: self.folder(),
            yard: "Invented yard".to_owned(),
            named: names(named),
        }
    }

    fn keeper(&self, named: &[&str]) -> Keeper {
        Keeper::begin(self.source(named), self.clock.clone()).unwrap()
    }
}
