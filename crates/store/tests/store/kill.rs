//! The kill loop: a program that appends is killed at random points; nothing it acknowledged is lost.

use crate::made::{note, time};
use std::{
    env,
    io::{BufRead, BufReader, Write as _},
    path::Path,
    process::{Child, Command, Stdio},
};
use store::{Delivery, Store, Yard};
use uuid::Uuid;
use yard::{id::EntryId, world::StillWorld};

/// Tells this very test, run again as the program to be killed, which folder to fill.
const FOLDER: &str = "KINGPOST_TEST_APPENDS_INTO";
const ROUNDS: u64 = 40;

#[test]
fn nothing_acknowledged_is_lost() {
    if let Ok(folder) = env::var(FOLDER) {
        return append_for_ever(Path::new(&folder));
    }
    let dir = tempfile::tempdir().unwrap();
    let mut acknowledged = Vec::new();
    for round in 0..ROUNDS {
        acknowledged.extend(append_until_killed(dir.path(), scattered(round)));
        let Ok(yard) = Store::open(dir.path()).unwrap().yard() else {
            assert_eq!(acknowledged, [], "killed before there was a yard");
            continue;
        };
        assert_eq!(yard.verify().unwrap().broken, None, "round {round}");
        let lost = acknowledged
            .iter()
            .find(|id| yard.row(**id).unwrap().is_none());
        assert_eq!(lost, None, "round {round}");
    }
    assert!(
        acknowledged.len() as u64 > ROUNDS,
        "too little was appended to tell"
    );
    assert!(Store::open(dir.path()).unwrap().verify().unwrap().sound());
}

/// How many lines to read before the kill: from none to sixty, scattered (a multiplicative hash).
fn scattered(round: u64) -> usize {
    (round.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 40) as usize % 61
}

/// Runs the program, kills it after so many acknowledgements, and gives all it printed, the last ones in the pipe too.
fn append_until_killed(dir: &Path, lines: usize) -> Vec<EntryId> {
    let mut child = start(dir);
    let mut out = BufReader::new(child.stdout.take().unwrap())
        .lines()
        .map_while(Result::ok);
    let before: Vec<_> = out
        .by_ref()
        .filter_map(|line| acknowledgement(&line))
        .take(lines)
        .collect();
    child.kill().unwrap();
    let rest: Vec<_> = out.filter_map(|line| acknowledgement(&line)).collect();
    assert!(!child.wait().unwrap().success(), "it ended by itself");
    before.into_iter().chain(rest).collect()
}

fn start(dir: &Path) -> Child {
    let mut program = Command::new(env::current_exe().unwrap());
    program.args([
        "--exact",
        "kill::nothing_acknowledged_is_lost",
        "--nocapture",
        "--test-threads=1",
    ]);
    program
        .env(FOLDER, dir)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// A whole line `ack ID;`: one cut short by the kill does not count.
fn acknowledgement(line: &str) -> Option<EntryId> {
    line.strip_prefix("ack ")?.strip_suffix(';')?.parse().ok()
}

/// The program to be killed: single entries and batches by turns, each told only once it is kept.
fn append_for_ever(dir: &Path) {
    let store = Store::open(dir).unwrap();
    let yard = store.yard().unwrap_or_else(|_| {
        store
            .create_yard("Invented", &StillWorld::at(time(0)))
            .unwrap()
    });
    let begun = u128::from(yard.tip().unwrap().seq) * 100;
    for n in 0.. {
        let size = if n % 3 == 0 { 5 } else { 1 };
        append(
            &yard,
            (0..size).map(|of| 1_000 + begun + n * 10 + of).collect(),
        );
    }
}

fn append(yard: &Yard, numbers: Vec<u128>) {
    let entries: Vec<_> = numbers
        .iter()
        .map(|n| note(yard, *n, &"x".repeat((*n % 700) as usize)))
        .collect();
    let taken = yard.accept_all(&entries, Delivery::here(time(0))).unwrap();
    assert!(taken.iter().all(Result::is_ok));
    let ids = numbers.iter().map(|n| crate::made::id(*n));
    let told: String = ids.map(|id: Uuid| format!("\nack {id};\n")).collect();
    let mut out = std::io::stdout().lock();
    out.write_all(told.as_bytes()).unwrap();
    out.flush().unwrap();
}
