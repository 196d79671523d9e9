//! The work that is recorded: every way in which the store keeps something, and what is there after each.

use crate::{
    disk::{Fate, Image, Replay},
    layer::{Call, record},
};
use jiff::Timestamp;
use rusqlite::Connection;
use serde_json::{Value, json};
use std::{
    fs,
    hash::{DefaultHasher, Hash as _, Hasher as _},
    path::{Path, PathBuf},
};
use store::{Delivery, Link, NewEntry, Person, Picture, Row, Session, Store, Yard, write_entry};
use uuid::Uuid;
use yard::{
    entry::{Body, Note},
    id::{DeviceId, EntryId, MachineId, PersonId, PhotoId, YardId},
};

/// How much work.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Size {
    /// Enough for every kind of step, several times over.
    Usual,
    /// That, and until the log has been folded back by itself and begun anew.
    Long,
}

/// One acknowledged step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Step {
    /// The store is opened; opened again where it was open.
    Open,
    AddYard,
    /// One entry, with so many characters.
    Entry(u128, usize),
    /// Many at once; all or none.
    Entries(u128, usize),
    /// Other bytes under an id that is taken.
    Rival(u128),
    Person(u128, &'static str),
    Erase(u128),
    Setting(u32),
    SignIn(u128),
    Link(u128),
    UseLink(u128),
    Photo(u128, usize),
    /// Another connection folds the log back into the file; the log is then begun anew over its old pages.
    Fold,
}

/// Everything that can be seen of a store.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Seen {
    pub(crate) yards: Vec<String>,
    pub(crate) rows: Vec<Row>,
    pub(crate) aside: Vec<Vec<u8>>,
    pub(crate) people: Vec<Person>,
    pub(crate) setting: Option<Value>,
    pub(crate) sessions: Vec<Option<Session>>,
    pub(crate) links: Vec<Option<Link>>,
    pub(crate) photos: Vec<(PhotoId, Option<Picture>)>,
}

/// A step that was acknowledged.
#[derive(Clone, Debug)]
pub(crate) struct Mark {
    pub(crate) step: Step,
    /// How many calls there were by then.
    pub(crate) calls: usize,
    pub(crate) after: Seen,
    /// What lay on the disk.
    lay: u64,
}

/// What was done, and what it asked of the disk.
pub(crate) struct Work {
    pub(crate) below: PathBuf,
    pub(crate) calls: Vec<Call>,
    pub(crate) marks: Vec<Mark>,
}

/// The data folder, two levels below what was there before.
pub(crate) fn data(below: &Path) -> PathBuf {
    below.join("var").join("yard")
}

/// Does the work, recorded.
pub(crate) fn do_work(size: Size) -> Work {
    let dir = tempfile::tempdir().unwrap();
    let below = dir.path().canonicalize().unwrap();
    let (calls, marks) = record(&below, |calls_so_far| {
        let mut open = None;
        let step = |step| {
            do_step(&mut open, &below, step);
            let calls = calls_so_far();
            Mark {
                step,
                calls,
                after: seen(open.as_ref().unwrap()),
                lay: fingerprint(&lying(&below)),
            }
        };
        steps(size).into_iter().map(step).collect::<Vec<_>>()
    });
    Work {
        below,
        calls,
        marks,
    }
}

impl Work {
    /// Fails where the record, played back, is not what lay on the disk after some step: then it missed something.
    pub(crate) fn assert_misses_nothing(&self) {
        let mut replay = Replay::new(&self.calls);
        for mark in &self.marks {
            let disk = replay.cut_after(mark.calls, Fate::All);
            let back = fingerprint(&disk.reachable(&self.below));
            assert_eq!(back, mark.lay, "after {:?}", mark.step);
        }
    }
}

/// What lies below a folder.
fn lying(below: &Path) -> Image {
    let mut found = Image::new();
    let mut folders = vec![below.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(below).unwrap().to_owned();
            if path.is_dir() {
                folders.push(path);
                found.insert(name, None);
            } else if !is_passing(&name) {
                found.insert(name, Some(fs::read(path).unwrap()));
            }
        }
    }
    found
}

/// The memory that SQLite shares between programs is no record: it is made anew after a power cut.
pub(crate) fn is_passing(name: &Path) -> bool {
    name.to_string_lossy().ends_with("-shm")
}

/// A short name for what a disk holds.
pub(crate) fn fingerprint(image: &Image) -> u64 {
    let mut hasher = DefaultHasher::new();
    for kept in image.iter().filter(|(name, _)| !is_passing(name)) {
        kept.hash(&mut hasher);
    }
    hasher.finish()
}

// --- The steps -------------------------------------------------------------------------------------------------------

fn steps(size: Size) -> Vec<Step> {
    let mut steps = vec![Step::Open, Step::AddYard];
    for n in [100, 200, 300] {
        steps.extend(round(n));
        if size == Size::Long {
            // The log is folded back by itself once it is 1,000 pages long; each of these is 200, and what follows begins it anew.
            steps.extend((0..6).map(|more| Step::Entry(n + 70 + more, 800_000)));
            steps.extend((0..9).map(|more| Step::Entry(n + 80 + more, 3_000)));
        }
        steps.extend([Step::Open, Step::Entry(n + 60, 100)]);
    }
    steps
}

/// Something of everything, for a person and entries numbered from `n`.
fn round(n: u128) -> Vec<Step> {
    vec![
        Step::Person(n, "Tamsin"),
        Step::Entry(n, 60),
        Step::SignIn(n),
        Step::Entries(n + 10, 3),
        Step::Photo(n, 3_000),
        Step::Setting(n as u32),
        Step::Rival(n),
        Step::Link(n),
        Step::Fold,
        Step::Entry(n + 20, 6_000),
        Step::UseLink(n),
        Step::Person(n, "Tamsin Oake"),
        Step::Entries(n + 30, 6),
        Step::Entry(n + 40, 200),
        Step::Erase(n),
        Step::Entry(n + 50, 200),
        Step::Photo(n + 1, 700),
    ]
}

/// Does a step. Each may be done again without harm, as whoever had no answer would.
pub(crate) fn do_step(open: &mut Option<Store>, below: &Path, step: Step) {
    if step == Step::Open {
        drop(open.take());
        *open = Some(Store::open(&data(below)).unwrap());
        return;
    }
    let store = open.as_ref().unwrap();
    if step == Step::AddYard {
        if store.yards().unwrap().is_empty() {
            store.add_yard(YardId(id(1)), "Invented yard").unwrap();
        }
    } else {
        do_in_yard(&store.yard().unwrap(), below, step);
    }
}

fn do_in_yard(yard: &Yard, below: &Path, step: Step) {
    match step {
        Step::Open | Step::AddYard => {}
        Step::Entry(n, length) => {
            yard.accept(&entry(yard, n, &"x".repeat(length)), now())
                .unwrap();
        }
        Step::Entries(n, count) => {
            let of = |n| entry(yard, n, &format!("one of {count}"));
            let many: Vec<_> = (n..n + count as u128).map(of).collect();
            let taken = yard.accept_all(&many, now()).unwrap();
            assert!(taken.iter().all(Result::is_ok));
        }
        Step::Rival(n) => {
            yard.accept(&entry(yard, n, "something else"), now())
                .unwrap();
        }
        Step::Person(n, name) => yard.keep_person(&person(n, name)).unwrap(),
        Step::Erase(n) => yard.erase_person(PersonId(id(n))).unwrap(),
        Step::Setting(n) => yard.keep_setting("paper", Some(&json!(n))).unwrap(),
        Step::SignIn(n) => yard.keep_session(&key(n), &session(n)).unwrap(),
        Step::Link(n) => yard.keep_link(&key(n), &link(n)).unwrap(),
        Step::UseLink(n) => {
            yard.use_link(&key(n), time(5)).unwrap();
        }
        Step::Photo(n, length) => {
            yard.keep_picture(PhotoId(id(n)), &picture(n, length))
                .unwrap();
        }
        Step::Fold => {
            let beside = Connection::open(data(below).join("kingpost.db")).unwrap();
            let folded = |row: &rusqlite::Row<'_>| Ok((row.get(0)?, row.get(1)?, row.get(2)?));
            let (busy, in_log, of_it): (i64, i64, i64) = beside
                .query_row("PRAGMA wal_checkpoint(PASSIVE)", [], folded)
                .unwrap();
            assert_eq!((busy, in_log), (0, of_it));
        }
    }
}

/// Everything that can be seen of a store.
pub(crate) fn seen(store: &Store) -> Seen {
    let yards = store.yards().unwrap();
    let mut seen = Seen {
        yards: yards.iter().map(|yard| yard.name().to_owned()).collect(),
        ..Seen::default()
    };
    let Some(yard) = yards.first() else {
        return seen;
    };
    seen.rows = yard.rows_since(0, usize::MAX).unwrap();
    seen.aside = yard
        .conflicts()
        .unwrap()
        .into_iter()
        .map(|conflict| conflict.bytes)
        .collect();
    seen.people = yard.people().unwrap();
    seen.setting = yard.setting("paper").unwrap();
    for person in &seen.people {
        let key = person.id.to_string();
        seen.sessions.push(yard.session(&key, time(0)).unwrap());
        seen.links.push(yard.link(&key).unwrap());
    }
    for (photo, ..) in yard.pictures().unwrap() {
        seen.photos.push((photo, yard.picture(photo).unwrap()));
    }
    seen
}

// --- What is kept: all made up ---------------------------------------------------------------------------------------

fn entry(yard: &Yard, n: u128, text: &str) -> Vec<u8> {
    write_entry(&NewEntry {
        id: EntryId(id(n)),
        yard: yard.id(),
        machine: MachineId::new("digger"),
        at: time(n as i64),
        by: PersonId(id(7)),
        device: DeviceId("desk".to_owned()),
        counter: n as u64,
        body: Body::Note(Note {
            point: None,
            text: format!("{n} {text}"),
        }),
    })
}

fn person(n: u128, name: &str) -> Person {
    Person {
        id: PersonId(id(n)),
        name: Some(name.to_owned()),
        pin_hash: Some("$hash$".to_owned()),
        active: true,
        invented: true,
    }
}

fn session(n: u128) -> Session {
    Session {
        person: Some(id(n)),
        since: None,
        device: "kept".to_owned(),
        shared: false,
        expires: time(1_000_000),
    }
}

fn link(n: u128) -> Link {
    Link {
        purpose: "first-steward".to_owned(),
        person: Some(id(n)),
        expires: time(1_000_000),
        used: None,
    }
}

fn picture(n: u128, length: usize) -> Picture {
    Picture {
        media_type: "image/png".to_owned(),
        bytes: (0..length).map(|at| (at as u128 * 31 + n) as u8).collect(),
    }
}

/// Sign-ins and links are kept under a hash; here under their person's id, which is as good.
fn key(n: u128) -> String {
    PersonId(id(n)).to_string()
}

fn id(n: u128) -> Uuid {
    Uuid::from_u128(0x018f_0000_0000_7000_8000_0000_0000_0000 + n)
}

fn time(seconds: i64) -> Timestamp {
    Timestamp::from_second(1_704_067_200 + seconds).unwrap()
}

fn now() -> Delivery {
    Delivery::here(time(100_000))
}
