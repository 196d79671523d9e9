//! Backup and restore: what comes back is what was there, or it is refused.

use crate::made::{id, note, time};
use std::{
    fs,
    path::Path,
    sync::atomic::{AtomicBool, Ordering},
};
use store::{Delivery, Link, Person, Picture, Session, Store, StoreError, Yard, restore};
use yard::id::{PersonId, PhotoId, YardId};

/// A yard with something of everything.
fn fill(yard: &Yard) {
    for n in 0..20 {
        yard.accept(
            &note(yard, 100 + n, &format!("note {n}")),
            Delivery::here(time(n as i64)),
        )
        .unwrap();
    }
    yard.accept(&note(yard, 100, "rival"), Delivery::here(time(50)))
        .unwrap();
    yard.keep_person(&Person {
        id: PersonId(id(8)),
        name: Some("Jo".into()),
        pin_hash: Some("$h$".into()),
        active: true,
        invented: true,
    })
    .unwrap();
    yard.keep_setting("paper", Some(&serde_json::json!("A4")))
        .unwrap();
    for n in 0..3_u8 {
        let picture = Picture {
            media_type: "image/png".into(),
            bytes: vec![n; 100],
        };
        yard.keep_picture(PhotoId(id(200 + u128::from(n))), &picture)
            .unwrap();
    }
    yard.keep_session(
        "secret",
        &Session {
            person: None,
            expires: time(1_000_000),
            since: None,
            device: String::new(),
            shared: false,
        },
    )
    .unwrap();
    yard.keep_link(
        "secret",
        &Link {
            purpose: "p".into(),
            person: None,
            expires: time(1_000_000),
            used: None,
        },
    )
    .unwrap();
}

fn same(one: &Yard, other: &Yard) {
    assert_eq!(
        one.rows_since(0, usize::MAX).unwrap(),
        other.rows_since(0, usize::MAX).unwrap()
    );
    assert_eq!(one.conflicts().unwrap(), other.conflicts().unwrap());
    assert_eq!(one.people().unwrap(), other.people().unwrap());
    assert_eq!(
        one.setting("paper").unwrap(),
        other.setting("paper").unwrap()
    );
    let pictures = one.pictures().unwrap();
    assert_eq!(pictures, other.pictures().unwrap());
    for (photo, ..) in pictures {
        assert_eq!(one.picture(photo).unwrap(), other.picture(photo).unwrap());
    }
}

#[test]
fn a_backup_comes_back_whole() {
    let dir = tempfile::tempdir().unwrap();
    let (data, backup, fresh) = (
        dir.path().join("data"),
        dir.path().join("b.kingpost-backup"),
        dir.path().join("fresh"),
    );
    let store = Store::open(&data).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    fill(&yard);
    let made = store.backup(&backup, time(0)).unwrap();
    assert_eq!((made.yards[0].tip, made.pictures), (yard.tip().unwrap(), 3));
    assert_eq!(listing(dir.path()), ["b.kingpost-backup", "data"]);
    assert_eq!(listing(&backup), ["backup.json", "kingpost.db", "photos"]);
    assert!(restore(&backup, &fresh).unwrap().sound());
    let restored = Store::open(&fresh).unwrap().yard().unwrap();
    same(&yard, &restored);
    assert_eq!(
        restored.session("secret", time(0)).unwrap(),
        None,
        "sign-ins stay out of backups"
    );
    assert_eq!(restored.link("secret").unwrap(), None);
    assert!(restored.goes_through(&made.yards[0].tip).unwrap());
}

/// A store on another engine is backed up into the same kind of file.
pub(crate) fn other_engines_back_up_too(store: &Store) {
    let dir = tempfile::tempdir().unwrap();
    let (backup, fresh) = (dir.path().join("b"), dir.path().join("fresh"));
    store.backup(&backup, time(0)).unwrap();
    restore(&backup, &fresh).unwrap();
    let restored = Store::open(&fresh).unwrap();
    let (before, after) = (store.yards().unwrap(), restored.yards().unwrap());
    assert_eq!(before.len(), after.len());
    before
        .iter()
        .zip(&after)
        .for_each(|(one, other)| same(one, other));
}

#[test]
fn a_store_in_memory_backs_up_too() {
    let store = Store::open_memory();
    fill(&store.add_yard(YardId(id(1)), "Invented").unwrap());
    other_engines_back_up_too(&store);
}

#[test]
fn a_backup_is_consistent_while_others_write() {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(&dir.path().join("data")).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    let done = AtomicBool::new(false);
    let tips = std::thread::scope(|scope| {
        let writer = scope.spawn(|| {
            let mut n = 0;
            while !done.load(Ordering::Relaxed) {
                yard.accept(
                    &note(&yard, 100 + n, &"x".repeat(500)),
                    Delivery::here(time(0)),
                )
                .unwrap();
                n += 1;
            }
            n as u64
        });
        let mut tips = Vec::new();
        for n in 0..5 {
            // On to the next one only when the writer has gone on, so that each is made under way.
            let before = yard.tip().unwrap().seq;
            while yard.tip().unwrap().seq < before + 20 {}
            tips.push(
                store
                    .backup(&dir.path().join(format!("b{n}")), time(0))
                    .unwrap()
                    .yards[0]
                    .tip,
            );
        }
        done.store(true, Ordering::Relaxed);
        assert_eq!(writer.join().unwrap(), yard.tip().unwrap().seq);
        tips
    });
    for (n, tip) in tips.iter().enumerate() {
        assert!(yard.goes_through(tip).unwrap());
        let fresh = dir.path().join(format!("fresh{n}"));
        assert!(
            restore(&dir.path().join(format!("b{n}")), &fresh)
                .unwrap()
                .sound()
        );
        assert_eq!(
            Store::open(&fresh).unwrap().yard().unwrap().tip().unwrap(),
            *tip
        );
    }
    assert!(tips.windows(2).all(|pair| pair[0].seq < pair[1].seq));
}

#[test]
fn nothing_is_overwritten() {
    let dir = tempfile::tempdir().unwrap();
    let (data, backup) = (dir.path().join("data"), dir.path().join("b"));
    let store = Store::open(&data).unwrap();
    fill(&store.add_yard(YardId(id(1)), "Invented").unwrap());
    store.backup(&backup, time(0)).unwrap();
    let refused = |dir: &Path| StoreError::NotEmpty {
        dir: dir.display().to_string(),
    };
    assert_eq!(store.backup(&backup, time(0)), Err(refused(&backup)));
    assert_eq!(restore(&backup, &data), Err(refused(&data)));
    let empty = dir.path().join("empty");
    fs::create_dir(&empty).unwrap();
    assert_eq!(
        restore(&empty, &dir.path().join("x")),
        Err(StoreError::NothingThere {
            dir: empty.display().to_string()
        })
    );
    assert!(
        restore(&backup, &empty).unwrap().sound(),
        "an empty folder will do"
    );
}

#[test]
fn a_damaged_backup_is_refused_and_leaves_nothing_behind() {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(&dir.path().join("data")).unwrap();
    fill(&store.add_yard(YardId(id(1)), "Invented").unwrap());
    let photo = format!("photos/{}", store.yard().unwrap().pictures().unwrap()[0].1);
    for name in ["kingpost.db", &photo] {
        let backup = dir.path().join("b");
        store.backup(&backup, time(0)).unwrap();
        let mut bytes = fs::read(backup.join(name)).unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 4;
        fs::write(backup.join(name), bytes).unwrap();
        assert_eq!(
            restore(&backup, &dir.path().join("fresh")),
            Err(StoreError::BackupDamaged {
                what: name.to_owned()
            })
        );
        fs::remove_file(backup.join(name)).unwrap();
        assert_eq!(
            restore(&backup, &dir.path().join("fresh")),
            Err(StoreError::BackupDamaged {
                what: name.to_owned()
            })
        );
        fs::remove_dir_all(&backup).unwrap();
        assert_eq!(listing(dir.path()), ["data"]);
    }
}

#[test]
fn a_damaged_store_makes_no_backup_that_looks_whole() {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(&dir.path().join("data")).unwrap();
    fill(&store.add_yard(YardId(id(1)), "Invented").unwrap());
    let photo = store.yard().unwrap().pictures().unwrap()[0].1.clone();
    fs::write(dir.path().join("data/photos").join(&photo), "changed").unwrap();
    let what = format!("photos/{photo}");
    assert_eq!(
        store.backup(&dir.path().join("b"), time(0)),
        Err(StoreError::BackupDamaged { what })
    );
    assert_eq!(listing(dir.path()), ["data"]);
}

fn listing(dir: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(dir)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}
