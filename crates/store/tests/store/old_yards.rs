//! Every released version leaves a small yard in `tests/yards`, which must be read for ever.
//!
//! To lay one down for a new version: `KINGPOST_LAY_DOWN=1 cargo test -p store --test store old_yards`, once, before the release.

use crate::{
    made::{entry, id, time},
    samples,
};
use std::{
    collections::BTreeSet,
    env, fs,
    path::{Path, PathBuf},
};
use store::{
    Delivery, Store, Yard,
    form::{KINDS, kind_of},
    write_entry,
};
use yard::{entry::Body, id::YardId};

/// The released versions: folder, and what its journal says as today's program reads it.
fn released() -> Vec<(&'static str, Vec<Body>)> {
    vec![
        ("v1", samples::version_1()),
        ("v2", samples::version_2()),
        ("v3", samples::version_3()),
        ("v4", samples::version_4()),
    ]
}

fn folder(version: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/yards")
        .join(version)
}

#[test]
fn every_released_yard_is_read() {
    for (version, bodies) in released() {
        let store = Store::open_memory();
        let yard = store.import(&folder(version)).unwrap();
        let read: Vec<_> = yard
            .entries()
            .unwrap()
            .into_iter()
            .map(|entry| entry.body)
            .collect();
        assert_eq!(read, bodies, "{version}");
        assert!(store.verify().unwrap().sound());
    }
}

#[test]
fn the_newest_yard_is_what_is_written_today() {
    let (version, bodies) = released().pop().unwrap();
    let kinds: BTreeSet<_> = bodies
        .iter()
        .map(|body| kind_of(body).0.to_owned())
        .collect();
    assert_eq!(
        kinds,
        KINDS.iter().map(|(word, _)| (*word).to_owned()).collect(),
        "a kind without a sample"
    );
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    lay_down(&bodies)
        .export(
            &out,
            "An invented yard, one entry of every kind, kept to be read by every later version.\n",
            time(0),
        )
        .unwrap();
    if env::var_os("KINGPOST_LAY_DOWN").is_some() {
        copy(&out, &folder(version));
    }
    let (now, then) = (journal(&out), journal(&folder(version)));
    for (line, (now, then)) in now.lines().zip(then.lines()).enumerate() {
        assert_eq!(
            now,
            then,
            "line {}: a stored form changed; give its kind a new version",
            line + 1
        );
    }
    assert_eq!(now.lines().count(), then.lines().count());
}

fn lay_down(bodies: &[Body]) -> Yard {
    let yard = Store::open_memory()
        .add_yard(YardId(id(1)), "Invented yard")
        .unwrap();
    for (n, body) in bodies.iter().enumerate() {
        let bytes = write_entry(&entry(yard.id(), 10 + n as u128, body.clone()));
        yard.accept(
            &bytes,
            Delivery {
                written: time(10_000_000),
                writers_clock_now: Some(time(10_000_000 + n as i64)),
            },
        )
        .unwrap();
    }
    yard
}

fn journal(dir: &Path) -> String {
    fs::read_to_string(dir.join("journal.jsonl")).unwrap()
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for file in fs::read_dir(from).unwrap().map(Result::unwrap) {
        let to = to.join(file.file_name());
        if file.path().is_dir() {
            copy(&file.path(), &to);
        } else {
            fs::copy(file.path(), to).unwrap();
        }
    }
}
