//! Opening: what is refused, with the code its sentence goes by.

use crate::made::{id, note, time};
use rusqlite::Connection;
use std::fs;
use store::{Delivery, Store, StoreError, Yard, holds_store};
use yard::{id::YardId, world::StillWorld};

#[test]
fn a_folder_is_held_by_one_program_at_a_time() {
    let dir = tempfile::tempdir().unwrap();
    assert!(!holds_store(dir.path()));
    let store = Store::open(dir.path()).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    assert!(holds_store(dir.path()));
    let refused = Store::open(dir.path()).unwrap_err();
    assert_eq!(
        refused,
        StoreError::HeldByAnother {
            dir: dir.path().display().to_string()
        }
    );
    assert_eq!(
        (refused.code(), refused.args()[0].0),
        ("held-by-another", "dir")
    );
    drop(store);
    assert!(
        Store::open(dir.path()).is_err(),
        "a yard in hand keeps the store open"
    );
    drop(yard);
    assert!(Store::open(dir.path()).is_ok());
}

#[test]
fn looking_is_allowed_beside_the_holder_and_writing_is_not() {
    let dir = tempfile::tempdir().unwrap();
    let nothing = StoreError::NothingThere {
        dir: dir.path().display().to_string(),
    };
    assert_eq!(Store::open_to_look(dir.path()).unwrap_err(), nothing);
    let store = Store::open(dir.path()).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    let looking = Store::open_to_look(dir.path()).unwrap();
    yard.accept(&note(&yard, 1, "x"), Delivery::here(time(0)))
        .unwrap();
    let seen = looking.yard().unwrap();
    assert_eq!(seen.entries().unwrap(), yard.entries().unwrap());
    assert!(looking.verify().unwrap().sound());
    assert_eq!(
        seen.accept(&note(&yard, 2, "x"), Delivery::here(time(0))),
        Err(StoreError::LookOnly)
    );
    assert_eq!(
        seen.keep_setting("a", Some(&serde_json::json!(1))),
        Err(StoreError::LookOnly)
    );
}

#[test]
fn a_newer_store_is_refused_and_left_alone() {
    let dir = tempfile::tempdir().unwrap();
    drop(Store::open(dir.path()).unwrap());
    let file = dir.path().join("kingpost.db");
    Connection::open(&file)
        .unwrap()
        .pragma_update(None, "user_version", 2)
        .unwrap();
    let before = fs::read(&file).unwrap();
    let newer = StoreError::NewerSchema { found: 2, known: 1 };
    assert_eq!(Store::open(dir.path()).unwrap_err(), newer);
    assert_eq!(Store::open_to_look(dir.path()).unwrap_err(), newer);
    assert_eq!(fs::read(&file).unwrap(), before);
}

#[test]
fn another_programs_file_is_refused_and_left_alone() {
    let not_ours = |fill: &dyn Fn(&std::path::Path)| {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("kingpost.db");
        fill(&file);
        let before = fs::read(&file).unwrap();
        assert_eq!(
            Store::open(dir.path()).unwrap_err(),
            StoreError::NotOurs {
                path: file.display().to_string()
            }
        );
        assert_eq!(fs::read(&file).unwrap(), before);
    };
    not_ours(&|file| {
        fs::write(
            file,
            "a letter, much longer than the head of a database file would be ".repeat(20),
        )
        .unwrap()
    });
    not_ours(&|file| {
        Connection::open(file)
            .unwrap()
            .execute_batch("CREATE TABLE plants (name TEXT)")
            .unwrap()
    });
    not_ours(&|file| {
        Connection::open(file)
            .unwrap()
            .pragma_update(None, "application_id", 5)
            .unwrap()
    });
}

#[test]
fn a_folder_that_cannot_be_made_or_written_is_refused() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("file");
    fs::write(&file, "x").unwrap();
    assert!(matches!(
        Store::open(&file),
        Err(StoreError::CannotWrite { .. })
    ));
    assert!(matches!(
        Store::open(&file.join("under")),
        Err(StoreError::CannotWrite { .. })
    ));
    if cfg!(target_os = "linux") {
        assert!(matches!(
            Store::open("/proc/kingpost".as_ref()),
            Err(StoreError::CannotWrite { .. })
        ));
    }
}

#[test]
fn what_was_kept_is_there_after_opening_again() {
    let dir = tempfile::tempdir().unwrap();
    let yard = Store::open(dir.path())
        .unwrap()
        .add_yard(YardId(id(1)), "Invented")
        .unwrap();
    yard.accept(&note(&yard, 1, "x"), Delivery::here(time(0)))
        .unwrap();
    let before = (yard.entries().unwrap(), yard.tip().unwrap());
    drop(yard);
    let yard = Store::open(dir.path()).unwrap().yard().unwrap();
    assert_eq!((yard.entries().unwrap(), yard.tip().unwrap()), before);
}

#[test]
fn each_yard_made_here_has_an_id_of_its_own() {
    let (store, world) = (Store::open_memory(), StillWorld::at(time(0)));
    let one = store.create_yard("Invented", &world).unwrap();
    let two = store.create_yard("Another", &world).unwrap();
    assert_ne!(one.id(), two.id());
    let ids: Vec<_> = store.yards().unwrap().iter().map(Yard::id).collect();
    assert_eq!(ids, [one.id(), two.id()]);
}
