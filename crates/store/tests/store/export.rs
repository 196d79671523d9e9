//! Export and import: plain files out, the same chain in again.

use crate::{
    made::{entry, id, note, time},
    samples,
};
use std::fs;
use store::{Delivery, Person, Picture, Store, StoreError, Yard, write_entry};
use yard::id::{PersonId, PhotoId, YardId};

fn filled(store: &Store) -> Yard {
    let yard = store.add_yard(YardId(id(1)), "Invented é").unwrap();
    for (n, body) in samples::version_1().into_iter().enumerate() {
        yard.accept(
            &write_entry(&entry(yard.id(), 10 + n as u128, body)),
            Delivery::here(time(n as i64)),
        )
        .unwrap();
    }
    // Bytes that do not fit on a line as they are.
    let spread = String::from_utf8(note(&yard, 300, "spread"))
        .unwrap()
        .replace(",\"", ",\r\n  \"");
    yard.accept(spread.as_bytes(), Delivery::here(time(1)))
        .unwrap();
    let padded = format!(
        " {} ",
        String::from_utf8(note(&yard, 301, "padded")).unwrap()
    );
    yard.accept(padded.as_bytes(), Delivery::here(time(1)))
        .unwrap();
    yard.accept(&note(&yard, 10, "rival"), Delivery::here(time(2)))
        .unwrap();
    yard.keep_person(&Person {
        id: PersonId(id(8)),
        name: Some("Jo".into()),
        pin_hash: Some("$secret$".into()),
        active: true,
        invented: true,
    })
    .unwrap();
    yard.keep_setting("paper", Some(&serde_json::json!("A4")))
        .unwrap();
    yard.keep_picture(
        PhotoId(id(200)),
        &Picture {
            media_type: "image/png".into(),
            bytes: b"png".to_vec(),
        },
    )
    .unwrap();
    yard
}

#[test]
fn an_exported_yard_moves_in_with_its_envelopes() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    let yard = filled(&Store::open_memory());
    yard.export(&out, "What this is.\n", time(0)).unwrap();
    assert_eq!(
        fs::read_to_string(out.join("README.txt")).unwrap(),
        "What this is.\n"
    );
    assert_eq!(
        fs::read_to_string(out.join("books/digger-1.toml")).unwrap(),
        "name = \"Invented digger\"\n"
    );
    assert!(
        !fs::read_to_string(out.join("people.json"))
            .unwrap()
            .contains("secret")
    );

    let store = Store::open(&dir.path().join("data")).unwrap();
    let moved = store.import(&out).unwrap();
    assert_eq!((moved.id(), moved.name()), (yard.id(), yard.name()));
    assert_eq!(
        moved.rows_since(0, usize::MAX).unwrap(),
        yard.rows_since(0, usize::MAX).unwrap()
    );
    assert_eq!(moved.conflicts().unwrap(), yard.conflicts().unwrap());
    assert_eq!(
        moved.picture(PhotoId(id(200))).unwrap(),
        yard.picture(PhotoId(id(200))).unwrap()
    );
    assert_eq!(
        moved.setting("paper").unwrap(),
        yard.setting("paper").unwrap()
    );
    let jo = moved.person(PersonId(id(8))).unwrap().unwrap();
    assert_eq!((jo.name.as_deref(), jo.pin_hash), (Some("Jo"), None));
    assert!(store.verify().unwrap().sound());
    assert!(
        matches!(store.import(&out), Err(StoreError::NotEmpty { .. })),
        "two yards are never merged"
    );
    assert!(matches!(
        yard.export(&out, "", time(0)),
        Err(StoreError::NotEmpty { .. })
    ));
}

#[test]
fn a_changed_export_is_refused_with_its_line() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    filled(&Store::open_memory())
        .export(&out, "", time(0))
        .unwrap();
    let journal = fs::read_to_string(out.join("journal.jsonl")).unwrap();
    let tried = |text: &str| {
        fs::write(out.join("journal.jsonl"), text).unwrap();
        let store = Store::open_memory();
        let refused = store.import(&out).unwrap_err();
        assert!(store.yard().is_err(), "nothing is left of it");
        refused
    };
    let damaged = |what: &str| StoreError::BackupDamaged {
        what: what.to_owned(),
    };
    assert_eq!(
        tried(&journal.replace("Nobody knows", "Nobody cares")),
        damaged("journal.jsonl:2")
    );
    let without_last: String = journal
        .lines()
        .rev()
        .skip(1)
        .collect::<Vec<_>>()
        .into_iter()
        .rev()
        .map(|line| format!("{line}\n"))
        .collect();
    assert_eq!(tried(&without_last), damaged("journal.jsonl"));
    let without_third: String = journal
        .lines()
        .enumerate()
        .filter(|(n, _)| *n != 2)
        .map(|(_, line)| format!("{line}\n"))
        .collect();
    assert_eq!(tried(&without_third), damaged("journal.jsonl:4"));
    assert_eq!(tried("{\n"), damaged("journal.jsonl:1"));
    fs::remove_file(out.join("yard.json")).unwrap();
    assert_eq!(
        Store::open_memory().import(&out).unwrap_err(),
        StoreError::NothingThere {
            dir: out.display().to_string()
        }
    );
}

#[test]
fn an_empty_yard_moves_too() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    let yard = Store::open_memory()
        .add_yard(YardId(id(1)), "Invented")
        .unwrap();
    yard.export(&out, "", time(0)).unwrap();
    assert_eq!(
        Store::open_memory()
            .import(&out)
            .unwrap()
            .entries()
            .unwrap(),
        []
    );
}

#[test]
fn an_import_that_fails_leaves_nothing_in_a_new_folder() {
    let dir = tempfile::tempdir().unwrap();
    let (out, into) = (dir.path().join("out"), dir.path().join("into"));
    filled(&Store::open_memory())
        .export(&out, "", time(0))
        .unwrap();
    let journal = fs::read_to_string(out.join("journal.jsonl")).unwrap();
    let beside = || fs::read_dir(dir.path()).unwrap().count();
    let nothing = StoreError::NothingThere {
        dir: dir.path().join("none").display().to_string(),
    };
    assert_eq!(
        store::import(&dir.path().join("none"), &into).unwrap_err(),
        nothing
    );
    fs::write(out.join("journal.jsonl"), "{\n").unwrap();
    assert!(store::import(&out, &into).is_err());
    assert_eq!(beside(), 1, "only what was exported");

    fs::write(out.join("journal.jsonl"), journal).unwrap();
    let moved = store::import(&out, &into).unwrap();
    assert!(!moved.entries().unwrap().is_empty());
    assert_eq!(beside(), 2);
    drop(moved);
    fs::create_dir(dir.path().join("full")).unwrap();
    fs::write(dir.path().join("full/letter"), "x").unwrap();
    assert!(matches!(
        store::import(&out, &dir.path().join("full")),
        Err(StoreError::NotEmpty { .. })
    ));
    // Into a store that is there: a yard of its own beside the others, or none.
    assert!(matches!(
        store::import(&out, &into),
        Err(StoreError::NotEmpty { .. })
    ));
}
