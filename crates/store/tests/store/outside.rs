//! Outside the chain: people, settings, links, sign-ins, counters, photos.

use crate::made::{id, note, time};
use jiff::SignedDuration;
use serde_json::json;
use store::{
    Delivery, Link, LinkUse, Miss, Person, Picture, PictureKept, Session, Store, StoreError, Yard,
};
use yard::{
    handover::YardHabits,
    id::{PersonId, PhotoId, YardId},
};

/// What every engine's drawers must do.
pub(crate) fn drawers_hold(yard: &Yard) {
    people(yard);
    settings(yard);
    links(yard);
    sessions(yard);
    throttle(yard);
    devices(yard);
    pictures(yard);
}

fn people(yard: &Yard) {
    let before = yard.changes().unwrap();
    let jo = Person {
        id: PersonId(id(8)),
        name: Some("Jo É.".into()),
        pin_hash: Some("$hash$".into()),
        active: true,
        invented: true,
    };
    let kim = Person {
        id: PersonId(id(9)),
        name: Some("Kim".into()),
        pin_hash: None,
        active: false,
        invented: false,
    };
    yard.keep_person(&kim).unwrap();
    yard.keep_person(&jo).unwrap();
    assert_eq!(yard.people().unwrap(), [jo.clone(), kim.clone()]);
    assert!(yard.changes().unwrap() > before);
    let session = Session {
        person: Some(jo.id.0),
        expires: time(1_000),
        since: Some(time(0)),
        device: "1a2b".into(),
        shared: true,
    };
    yard.keep_session("jo", &session).unwrap();
    yard.keep_session(
        "kim",
        &Session {
            person: Some(kim.id.0),
            ..session.clone()
        },
    )
    .unwrap();
    let settled = yard.changes().unwrap();
    yard.keep_session("jo", &session).unwrap();
    assert_eq!(
        yard.changes().unwrap(),
        settled,
        "a sign-in changes no page"
    );
    yard.erase_person(jo.id).unwrap();
    let erased = Person {
        name: None,
        pin_hash: None,
        active: false,
        ..jo
    };
    assert_eq!(yard.person(erased.id).unwrap(), Some(erased));
    assert_eq!(yard.session("jo", time(0)).unwrap(), None);
    assert!(yard.session("kim", time(0)).unwrap().is_some());
    assert_eq!(yard.person(PersonId(id(99))).unwrap(), None);
}

fn settings(yard: &Yard) {
    assert_eq!(yard.habits().unwrap(), YardHabits::default());
    let habits = YardHabits {
        round_holds_hours: 8,
        refused_runs_hours: Some(4),
        relief_allowed: true,
        decimal_comma: true,
        seasons: vec![(2, 28)],
        gun_grams: Some(1.2),
    };
    yard.keep_habits(&habits).unwrap();
    assert_eq!(yard.habits().unwrap(), habits);
    yard.keep_setting("paper", Some(&json!({ "size": "A4" })))
        .unwrap();
    assert_eq!(
        yard.setting("paper").unwrap(),
        Some(json!({ "size": "A4" }))
    );
    yard.keep_setting("paper", None).unwrap();
    assert_eq!(yard.setting("paper").unwrap(), None);
    // Settings of an older program lack what came later.
    yard.keep_setting("habits", Some(&json!({ "round_holds_hours": 6 })))
        .unwrap();
    assert_eq!(
        yard.habits().unwrap(),
        YardHabits {
            round_holds_hours: 6,
            ..YardHabits::default()
        }
    );
}

fn links(yard: &Yard) {
    let link = Link {
        purpose: "first-steward".into(),
        person: Some(id(8)),
        expires: time(1_000),
        used: None,
    };
    yard.keep_link("a", &link).unwrap();
    yard.keep_link("b", &link).unwrap();
    assert_eq!(yard.use_link("c", time(0)).unwrap(), LinkUse::NoSuch);
    assert_eq!(
        yard.use_link("a", time(500)).unwrap(),
        LinkUse::Opens(Link {
            used: Some(time(500)),
            ..link.clone()
        })
    );
    assert_eq!(yard.use_link("a", time(501)).unwrap(), LinkUse::Used);
    assert_eq!(yard.use_link("b", time(1_000)).unwrap(), LinkUse::Expired);
    let others = Link {
        person: Some(id(9)),
        ..link.clone()
    };
    yard.keep_link("of another", &others).unwrap();
    yard.end_links_of(PersonId(id(8))).unwrap();
    assert_eq!(yard.use_link("b", time(0)).unwrap(), LinkUse::NoSuch);
    assert_eq!(yard.use_link("a", time(0)).unwrap(), LinkUse::Used);
    assert_eq!(yard.link("of another").unwrap(), Some(others));
    yard.keep_link("race", &link).unwrap();
    let opened = std::thread::scope(|scope| {
        let tries: Vec<_> = (0..8)
            .map(|_| scope.spawn(|| yard.use_link("race", time(0)).unwrap()))
            .collect();
        tries
            .into_iter()
            .map(|tried| tried.join().unwrap())
            .filter(|tried| matches!(tried, LinkUse::Opens(_)))
            .count()
    });
    assert_eq!(opened, 1);
}

fn sessions(yard: &Yard) {
    let session = |person: u128, expires| Session {
        person: Some(id(person)),
        expires: time(expires),
        since: None,
        device: String::new(),
        shared: false,
    };
    for (key, session) in [
        ("s1", session(8, 100)),
        ("s2", session(8, 200)),
        ("s3", session(9, 200)),
    ] {
        yard.keep_session(key, &session).unwrap();
    }
    let held = |now| ["s1", "s2", "s3"].map(|key| yard.session(key, time(now)).unwrap().is_some());
    assert_eq!(held(99), [true, true, true]);
    assert_eq!(held(100), [false, true, true]);
    let of_eight: Vec<_> = yard.sessions_of(PersonId(id(8)), time(100)).unwrap();
    assert_eq!(of_eight, [("s2".to_owned(), session(8, 200))]);
    yard.prolong_session("s2", time(300)).unwrap();
    yard.prolong_session("nothing", time(300)).unwrap();
    assert!(yard.session("s2", time(299)).unwrap().is_some());
    assert_eq!(yard.session("nothing", time(0)).unwrap(), None);
    yard.clear_sessions(time(150)).unwrap();
    assert_eq!(held(0), [false, true, true]);
    yard.end_sessions_of(PersonId(id(8))).unwrap();
    assert_eq!(held(0), [false, false, true]);
    yard.end_session("s3").unwrap();
    assert_eq!(held(0), [false, false, false]);
}

fn throttle(yard: &Yard) {
    let day = SignedDuration::from_hours(24);
    let minute = SignedDuration::from_mins(1);
    let miss = |ms, person: u128| Miss {
        at: time(ms),
        person: Some(id(person)),
        from: "tablet".into(),
    };
    for ms in [0, 10, 59_999, 60_000] {
        yard.count_miss("jo", &miss(ms, 8), 15).unwrap();
    }
    let misses = yard.misses("jo", time(60_001)).unwrap();
    assert_eq!(misses.within(time(60_001), minute), 3);
    assert_eq!(misses.within(time(60_001), day), 4);
    assert_eq!(misses.last(), Some(time(60_000)));
    let back = time(-1_000_000);
    assert_eq!(
        yard.misses("jo", back).unwrap().within(back, minute),
        4,
        "a clock set back does not open the door"
    );
    let tomorrow = time(86_400_000 + 30_000);
    assert_eq!(yard.misses("jo", tomorrow).unwrap().at.len(), 2);
    // Only one's own misses from there are forgiven.
    yard.count_miss("tablet", &miss(0, 8), 15).unwrap();
    yard.count_miss("tablet", &miss(1, 9), 15).unwrap();
    let jo = PersonId(id(8));
    yard.forgive_misses("tablet", jo, "phone").unwrap();
    assert_eq!(yard.misses("tablet", time(1)).unwrap().at.len(), 2);
    yard.forgive_misses("tablet", jo, "tablet").unwrap();
    assert_eq!(yard.misses("tablet", time(1)).unwrap().at, [miss(1, 9)]);
    // The last one locks, and only unlocking opens.
    assert!(!yard.count_miss("tablet", &miss(2, 9), 3).unwrap().locked);
    assert!(yard.count_miss("tablet", &miss(3, 9), 3).unwrap().locked);
    let year = time(365 * 86_400_000);
    yard.clear_misses(year).unwrap();
    let left = yard.all_misses(year).unwrap();
    assert_eq!(left.len(), 1, "{left:?}");
    assert!(left[0].0 == "tablet" && left[0].1.locked);
    yard.forgive_misses("tablet", PersonId(id(9)), "tablet")
        .unwrap();
    assert!(yard.misses("tablet", year).unwrap().locked);
    assert!(!yard.unlock(|key| key == "jo").unwrap());
    assert!(yard.unlock(|key| key == "tablet").unwrap());
    assert_eq!(yard.all_misses(time(0)).unwrap(), []);
}

fn devices(yard: &Yard) {
    let (jo, kim) = (PersonId(id(18)), PersonId(id(19)));
    assert_eq!(yard.device("tablet").unwrap(), None);
    for (who, ms) in [(jo, 0), (kim, 1), (jo, 2)] {
        yard.note_device("tablet", who, time(ms)).unwrap();
    }
    yard.note_device("phone", jo, time(3)).unwrap();
    let tablet = yard.device("tablet").unwrap().unwrap();
    assert_eq!(tablet.people, [kim.0, jo.0], "the last one last");
    assert!(tablet.knows(kim) && tablet.seen == time(2));
    yard.forget_on_devices(jo).unwrap();
    assert_eq!(yard.device("tablet").unwrap().unwrap().people, [kim.0]);
    assert_eq!(yard.device("phone").unwrap(), None, "nobody is left on it");
    yard.clear_devices(time(3)).unwrap();
    assert_eq!(yard.device("tablet").unwrap(), None);
}

fn pictures(yard: &Yard) {
    let picture = |bytes: &[u8]| Picture {
        media_type: "image/jpeg".into(),
        bytes: bytes.to_vec(),
    };
    let photo = PhotoId(id(200));
    assert_eq!(yard.picture(photo).unwrap(), None);
    assert_eq!(
        yard.keep_picture(photo, &picture(b"jpeg")).unwrap(),
        PictureKept::New
    );
    assert_eq!(
        yard.keep_picture(photo, &picture(b"jpeg")).unwrap(),
        PictureKept::Known
    );
    assert_eq!(
        yard.keep_picture(photo, &picture(b"other")).unwrap(),
        PictureKept::Differs
    );
    assert_eq!(yard.picture(photo).unwrap(), Some(picture(b"jpeg")));
    assert_eq!(
        yard.keep_picture(PhotoId(id(201)), &picture(b"jpeg"))
            .unwrap(),
        PictureKept::New,
        "one picture under two ids"
    );
    let text = Picture {
        media_type: "text/html".into(),
        bytes: vec![],
    };
    assert_eq!(
        yard.keep_picture(photo, &text),
        Err(StoreError::MediaType {
            offered: "text/html".into()
        })
    );
    // SHA-256 of "jpeg", from coreutils' sha256sum.
    let sha256 = "41e5787e9f28562d07b891b1816b492309d646c0f2829743fa4963a9f9cc1d61";
    assert_eq!(
        yard.pictures().unwrap()[0],
        (photo, sha256.into(), "image/jpeg".into())
    );
}

#[test]
fn an_erased_name_is_gone_from_the_files() {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(dir.path()).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    let name = "Ottilie Unverwechselbar";
    let holds_name = || {
        let files = std::fs::read_dir(dir.path())
            .unwrap()
            .map(|file| file.unwrap().path())
            .filter(|path| path.is_file());
        files.into_iter().any(|path| {
            std::fs::read(path)
                .unwrap()
                .windows(name.len())
                .any(|part| part == name.as_bytes())
        })
    };
    let person = Person {
        id: PersonId(id(8)),
        name: Some(name.into()),
        pin_hash: None,
        active: true,
        invented: true,
    };
    yard.keep_person(&person).unwrap();
    yard.accept(&note(&yard, 1, "x"), Delivery::here(time(0)))
        .unwrap();
    assert!(holds_name());
    yard.erase_person(person.id).unwrap();
    assert!(!holds_name());
    assert_eq!(yard.entries().unwrap().len(), 1);
}

#[test]
fn a_photo_lost_or_changed_on_the_disk_is_told() {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(dir.path()).unwrap();
    let yard = store.add_yard(YardId(id(1)), "Invented").unwrap();
    yard.keep_picture(
        PhotoId(id(1)),
        &Picture {
            media_type: "image/png".into(),
            bytes: b"png".to_vec(),
        },
    )
    .unwrap();
    let sha256 = yard.pictures().unwrap()[0].1.clone();
    assert!(store.verify().unwrap().sound());
    std::fs::write(dir.path().join("photos").join(&sha256), b"pnG").unwrap();
    assert_eq!(store.verify().unwrap().pictures, [sha256]);
}
