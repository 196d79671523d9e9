//! 250 phones that come back into range at once, each with 40 entries: over real sockets into the program itself, a process of
//! its own, beside the same entries put straight into the store.

#[path = "../tests/running/mod.rs"]
mod running;

use jiff::{Timestamp, tz::TimeZone};
use kingpost::demo::{Script, fill};
use running::Running;
use server::session;
use std::{
    path::Path,
    process::Command,
    sync::Arc,
    time::{Duration, Instant},
};
use store::{Delivery, NewEntry, Session, Store, Yard, fresh_id, write_entry};
use tokio::{
    io::{AsyncReadExt, AsyncWriteExt},
    net::TcpStream,
};
use yard::{
    entry::{Body, Note},
    id::{DeviceId, EntryId, MachineId, PersonId},
    world::StillWorld,
};

const PHONES: usize = 250;
const ENTRIES: usize = 40;

fn main() {
    // Cargo asks benches for their tests too; there are none here.
    if std::env::args().any(|arg| arg == "--test") {
        return;
    }
    // The program's own clock is the real one, and so is its sign-in's.
    let now = Timestamp::now();
    let world = Arc::new(StillWorld::at(now));
    let (straight, delivered) = (
        tempfile::tempdir().expect("a folder"),
        tempfile::tempdir().expect("a folder"),
    );
    let anchor = yard_in(straight.path(), now);
    let batches = batches(&anchor, &world, now);
    let begun = Instant::now();
    for batch in &batches {
        let taken = anchor
            .accept_all(batch, Delivery::here(now))
            .expect("a sound store");
        assert!(taken.iter().all(Result::is_ok));
    }
    let alone = begun.elapsed();

    let yard = yard_in(delivered.path(), now);
    let before = yard.tip().expect("a sound store").seq;
    let secret = signed_in(&yard, &world, now);
    drop(yard);
    let mut took = over_sockets(delivered.path(), &secret, now, &batches);
    let store = Store::open(delivered.path()).expect("the store as it was left");
    let after = store.yard().and_then(|yard| yard.tip());
    assert_eq!(
        after.expect("a sound store").seq - before,
        (PHONES * ENTRIES) as u64,
        "an entry was lost or came twice"
    );
    took.latencies.sort();
    let at = |share: usize| took.latencies[(took.latencies.len() - 1) * share / 100];
    println!("{PHONES} phones with {ENTRIES} entries each, all at once");
    println!("straight into the store:  {alone:?}");
    println!(
        "over sockets:             {:?} ({:.1} times)",
        took.whole,
        took.whole.as_secs_f64() / alone.as_secs_f64()
    );
    println!(
        "until a phone has its answer: half {:?}, 95 % {:?}, last {:?}",
        at(50),
        at(95),
        at(100)
    );
    println!(
        "memory of the program: {} before, {} at most",
        took.memory.0, took.memory.1
    );
}

/// The demo's yard; the same ids each time, so that entries of one fit the other.
fn yard_in(dir: &std::path::Path, now: Timestamp) -> Yard {
    let store = Store::open(dir).expect("an empty folder");
    fill(&store, &Script::as_of(now, TimeZone::UTC)).expect("a fresh store")
}

/// What each phone holds.
fn batches(yard: &Yard, world: &StillWorld, now: Timestamp) -> Vec<Vec<Vec<u8>>> {
    let by = operator(yard);
    let one = |phone: usize, counter: usize| {
        write_entry(&NewEntry {
            id: EntryId(fresh_id(world)),
            yard: yard.id(),
            machine: MachineId::new("marigold"),
            at: now,
            by,
            device: DeviceId(format!("phone {phone:08x}")),
            counter: counter as u64,
            body: Body::Note(Note {
                point: None,
                text: format!(
                    "Phone {phone}, entry {counter}: the left track wants looking at tomorrow"
                ),
            }),
        })
    };
    (0..PHONES)
        .map(|phone| (1..=ENTRIES).map(|counter| one(phone, counter)).collect())
        .collect()
}

fn operator(yard: &Yard) -> PersonId {
    let people = yard.people().expect("a sound store");
    let tamsin = people
        .iter()
        .find(|person| person.name.as_deref() == Some("Tamsin"));
    tamsin.expect("the demo has an operator").id
}

struct Took {
    whole: Duration,
    latencies: Vec<Duration>,
    memory: (String, String),
}

/// A sign-in of the operator that holds for today.
fn signed_in(yard: &Yard, world: &Arc<StillWorld>, now: Timestamp) -> String {
    let secret = session::secret(world.as_ref());
    let signed = Session {
        person: Some(operator(yard).0),
        expires: now + jiff::SignedDuration::from_hours(12),
        since: Some(now),
        device: String::new(),
        shared: false,
    };
    yard.keep_session(&session::hash(&secret), &signed)
        .expect("a sound store");
    secret
}

/// Every phone on a connection of its own, all begun together, against the program serving this folder.
fn over_sockets(dir: &Path, secret: &str, now: Timestamp, batches: &[Vec<Vec<u8>>]) -> Took {
    let mut command = Command::new(env!("CARGO_BIN_EXE_kingpost"));
    let running = Running::start(command.arg("--data").arg(dir), 0, &[]);
    let path = format!("/api/y/{}/deliveries", running.text("tag"));
    let host = running
        .text("address")
        .strip_prefix("http://")
        .expect("plain http")
        .to_owned();
    let before = memory(&running, "VmRSS:");
    let runtime = tokio::runtime::Runtime::new().expect("threads");
    let (whole, latencies) = runtime.block_on(async {
        let begun = Instant::now();
        let phones: Vec<_> = batches
            .iter()
            .map(|batch| {
                let (request, host) = (request(&path, secret, now, batch), host.clone());
                tokio::spawn(async move {
                    let begun = Instant::now();
                    let answer = ask(&host, &request).await;
                    assert!(answer.starts_with("HTTP/1.1 200"), "{answer:.300}");
                    begun.elapsed()
                })
            })
            .collect();
        let mut latencies = Vec::new();
        for phone in phones {
            latencies.push(phone.await.expect("a phone gets its answer"));
        }
        (begun.elapsed(), latencies)
    });
    let most = memory(&running, "VmHWM:");
    running.stop();
    Took {
        whole,
        latencies,
        memory: (before, most),
    }
}

fn request(path: &str, secret: &str, now: Timestamp, batch: &[Vec<u8>]) -> Vec<u8> {
    let entries: Vec<String> = batch
        .iter()
        .map(|bytes| String::from_utf8_lossy(bytes).into_owned())
        .collect();
    let body = serde_json::json!({ "clock": now.to_string(), "entries": entries }).to_string();
    let head = format!(
        "POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: {}={secret}\r\nContent-Type: application/json\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        session::COOKIE,
        body.len()
    );
    [head.into_bytes(), body.into_bytes()].concat()
}

async fn ask(to: &str, request: &[u8]) -> String {
    let mut socket = TcpStream::connect(to).await.expect("the server listens");
    socket.write_all(request).await.expect("it reads");
    let mut answer = Vec::new();
    socket.read_to_end(&mut answer).await.expect("it answers");
    String::from_utf8_lossy(&answer).into_owned()
}

/// What the program holds of memory, where the system tells.
fn memory(running: &Running, what: &str) -> String {
    let status = std::fs::read_to_string(format!("/proc/{}/status", running.child.id()));
    let status = status.unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix(what));
    line.map_or_else(|| "not told here".to_owned(), |line| line.trim().to_owned())
}
