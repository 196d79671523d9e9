//! A photo kept through the server comes through backup, restore, export and import byte for byte, and damage to it is noticed.

use super::{
    fixture::Place,
    photo_made::{exif, jpeg, quarters, with_exif},
};
use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use std::path::{Path, PathBuf};
use store::{Store, Yard, restore};
use yard::{
    entry::{Body as Said, PhotoNote},
    id::PhotoId,
};

fn photo(n: u128) -> PhotoId {
    PhotoId(uuid::Uuid::from_u128(n))
}

/// Two photos kept, of which an entry names the first; a third named whose picture is still on its way.
async fn kept() -> Place {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    for n in [1_u32, 2] {
        let sent = with_exif(&jpeg(&quarters(100 * n, 80)), &exif(6, true));
        let put = Request::put(format!("/api{}/photos/{}", place.home(), photo(n.into())))
            .header(header::COOKIE, &cookie)
            .body(Body::from(sent))
            .unwrap();
        assert_eq!(place.send(put).await.status, StatusCode::CREATED);
    }
    for n in [1, 3] {
        let note = PhotoNote {
            photo: photo(n),
            of: None,
            point: None,
            text: None,
        };
        place.write(place.operator, Some("marigold"), Said::Photo(note));
    }
    place
}

/// An empty folder of this test's own, among what is built.
fn folder(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&dir);
    std::fs::create_dir_all(&dir).unwrap();
    dir
}

fn pictures(yard: &Yard) -> Vec<Option<Vec<u8>>> {
    let picture = |n| yard.picture(photo(n)).unwrap().map(|picture| picture.bytes);
    [1, 2, 3].map(picture).to_vec()
}

#[tokio::test]
async fn photos_come_through_byte_for_byte() {
    let place = kept().await;
    let before = pictures(&place.yard);
    assert!(before[0].is_some() && before[1].is_some() && before[2].is_none());
    let dir = folder("photos-come-through");
    let [backup, data, plain] = ["backup", "data", "plain"].map(|name| dir.join(name));
    let now = jiff::Timestamp::UNIX_EPOCH;
    assert_eq!(place.store.backup(&backup, now).unwrap().pictures, 2);
    assert!(restore(&backup, &data).unwrap().sound());
    let restored = Store::open(&data).unwrap();
    let yard = restored.yard().unwrap();
    assert_eq!(pictures(&yard), before);
    yard.export(&plain, "About this.", now).unwrap();
    let moved = Store::open_memory();
    let yard = moved.import(&plain).unwrap();
    assert_eq!(
        pictures(&yard),
        before,
        "the one that no entry names as well"
    );
    let found = moved.verify().unwrap();
    assert!(found.sound(), "a photo that has not arrived is no damage");
    assert_eq!(found.awaited, [photo(3)]);
}

#[tokio::test]
async fn a_damaged_photo_is_noticed() {
    let place = kept().await;
    let dir = folder("a-damaged-photo");
    let [backup, data] = ["backup", "data"].map(|name| dir.join(name));
    place
        .store
        .backup(&backup, jiff::Timestamp::UNIX_EPOCH)
        .unwrap();
    restore(&backup, &data).unwrap();
    let store = Store::open(&data).unwrap();
    let (_, sha256, _) = store.yard().unwrap().pictures().unwrap()[0].clone();
    let file = data.join("photos").join(&sha256);
    let mut bytes = std::fs::read(&file).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&file, bytes).unwrap();
    let found = store.verify().unwrap();
    assert_eq!(found.pictures, [sha256]);
    assert!(!found.sound());
}
