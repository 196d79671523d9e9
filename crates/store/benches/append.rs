//! Durable appends beside plain SQLite doing the same statements, interleaved in one run; and reading 100,000 entries back.
//!
//! Disks differ; the ratio of the two carries over. Each benchmark makes its own yard in a temporary folder and uses the store only from
//! outside.

use divan::{Bencher, counter::ItemsCount};
use rusqlite::{Connection, TransactionBehavior, params};
use sha2::{Digest, Sha256};
use std::{
    sync::OnceLock,
    time::{Duration, Instant},
};
use store::{Delivery, NewEntry, Store, Yard, write_entry};
use tempfile::TempDir;
use uuid::Uuid;
use yard::{
    entry::{Answer, Answered, Body, LookState, RoundPurpose, WalkRound},
    id::{DeviceId, EntryId, MachineId, PersonId, PointId, RoundId, YardId},
};

fn main() {
    interleaved();
    divan::main();
}

/// A walk-round of one station, about 700 bytes: the commonest entry.
fn round_of(yard: YardId, n: u128) -> Vec<u8> {
    let answered = |point: &str| Answered {
        point: PointId::new(point).expect("a well-formed id"),
        answer: Answer::Look(LookState::Well),
        note: None,
        photos: vec![],
    };
    let body = Body::WalkRound(WalkRound {
        round: RoundId(Uuid::from_u128(n)),
        book: EntryId(Uuid::from_u128(1)),
        purpose: RoundPurpose::Start,
        from_paper: false,
        answers: ["hoses", "glass", "steps", "lamps", "belt", "horn"]
            .map(answered)
            .to_vec(),
        hours: None,
        closes: None,
        no_photo: None,
    });
    write_entry(&NewEntry {
        id: EntryId(Uuid::from_u128(1_000 + n)),
        yard,
        machine: MachineId::new("digger"),
        at: now(),
        by: PersonId(Uuid::from_u128(2)),
        device: DeviceId("bench".into()),
        counter: n as u64,
        body,
    })
}

fn now() -> jiff::Timestamp {
    "2024-05-01T07:00:00Z".parse().expect("a time")
}

fn our_yard() -> (TempDir, Yard) {
    let dir = tempfile::tempdir().expect("a temporary folder");
    let store = Store::open(dir.path()).expect("a fresh store");
    let yard = store.add_yard(YardId(Uuid::from_u128(3)), "Bench");
    (dir, yard.expect("a fresh yard"))
}

/// The anchor: the same file, the same settings and the same statements, without the rest of the store.
struct Plain {
    connection: Connection,
    yard: Yard,
    _dir: TempDir,
}

impl Plain {
    fn new() -> Self {
        let (dir, yard) = our_yard();
        let connection = Connection::open(dir.path().join("kingpost.db")).expect("the same file");
        for (name, value) in [
            ("synchronous", "FULL"),
            ("foreign_keys", "ON"),
            ("secure_delete", "ON"),
        ] {
            connection
                .pragma_update(None, name, value)
                .expect("a setting SQLite knows");
        }
        Self {
            connection,
            yard,
            _dir: dir,
        }
    }

    /// Look for the id, find the end, insert, commit.
    fn append(&mut self, n: u128) -> rusqlite::Result<()> {
        let yard = self.yard.id().0;
        let bytes = round_of(self.yard.id(), n);
        let step = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let last: i64 = step
            .prepare_cached(
                "SELECT seq, hash FROM entry WHERE yard = ?1 ORDER BY seq DESC LIMIT 1",
            )?
            .query_row([yard.as_bytes()], |row| row.get(0))
            .unwrap_or(0);
        let id = Uuid::from_u128(1_000 + n);
        let there = step
            .prepare_cached("SELECT seq, bytes FROM entry WHERE yard = ?1 AND id = ?2")?
            .exists(params![yard.as_bytes(), id.as_bytes()])?;
        assert!(!there, "every entry of the benchmark is new");
        let hash: [u8; 32] = Sha256::digest(&bytes).into();
        step.prepare_cached(
            "INSERT INTO entry (yard, seq, id, machine, kind, written, ordered_at, corrected, hash, bytes) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        )?
        .execute(params![yard.as_bytes(), last + 1, id.as_bytes(), "digger", "walk-round", 1, 1, false, hash, bytes])?;
        step.commit()
    }
}

/// Ours and the anchor by turns, so that whatever else the machine does weighs on both alike.
fn interleaved() {
    const APPENDS: u128 = 2_000;
    if !std::env::args().any(|arg| arg == "--bench") {
        return;
    }
    let ((_dir, ours), mut plain) = (our_yard(), Plain::new());
    let (mut our_time, mut plain_time) = (Duration::ZERO, Duration::ZERO);
    for n in 0..APPENDS {
        let start = Instant::now();
        ours.accept(&round_of(ours.id(), n), Delivery::here(now()))
            .expect("an entry of this yard");
        our_time += start.elapsed();
        let start = Instant::now();
        plain.append(n).expect("the same statements");
        plain_time += start.elapsed();
    }
    let each = |time: Duration| time.as_secs_f64() * 1e6 / APPENDS as f64;
    println!(
        "durable appends, interleaved: ours {:.1} us, plain SQLite {:.1} us, ratio {:.2}",
        each(our_time),
        each(plain_time),
        our_time.as_secs_f64() / plain_time.as_secs_f64()
    );
}

#[divan::bench]
fn append_ours(bencher: Bencher<'_, '_>) {
    let (_dir, yard) = our_yard();
    let mut n = 0;
    bencher.counter(ItemsCount::new(1_u32)).bench_local(|| {
        n += 1;
        yard.accept(&round_of(yard.id(), n), Delivery::here(now()))
    });
}

#[divan::bench]
fn append_plain(bencher: Bencher<'_, '_>) {
    let mut plain = Plain::new();
    let mut n = 0;
    bencher.counter(ItemsCount::new(1_u32)).bench_local(|| {
        n += 1;
        plain.append(n)
    });
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn append_1000_together(bencher: Bencher<'_, '_>) {
    let (_dir, yard) = our_yard();
    let mut n = 0;
    bencher.counter(ItemsCount::new(1_000_u32)).bench_local(|| {
        let batch: Vec<_> = (0..1_000).map(|of| round_of(yard.id(), n + of)).collect();
        n += 1_000;
        yard.accept_all(&batch, Delivery::here(now()))
    });
}

const MANY: u128 = 100_000;

fn full_yard() -> &'static (TempDir, Yard) {
    static FULL: OnceLock<(TempDir, Yard)> = OnceLock::new();
    FULL.get_or_init(|| {
        let (dir, yard) = our_yard();
        let all: Vec<_> = (0..MANY).map(|n| round_of(yard.id(), n)).collect();
        for batch in all.chunks(10_000) {
            yard.accept_all(batch, Delivery::here(now()))
                .expect("entries of this yard");
        }
        (dir, yard)
    })
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn read_back_100_000(bencher: Bencher<'_, '_>) {
    let (_, yard) = full_yard();
    bencher
        .counter(ItemsCount::new(MANY as u32))
        .bench(|| yard.entries().map(|entries| entries.len()));
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn verify_100_000(bencher: Bencher<'_, '_>) {
    let (_, yard) = full_yard();
    bencher
        .counter(ItemsCount::new(MANY as u32))
        .bench(|| yard.verify());
}
