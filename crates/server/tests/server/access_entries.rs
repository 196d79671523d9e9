//! What the journal notes about signing in: written by the program alone, shown to all, corrected by nobody.

use super::fixture::Place;
use axum::{body::Body, http::StatusCode};
use store::{NewEntry, fresh_id, write_entry};
use yard::{
    entry::{Access, AccessWhat, Body as Said, Correction},
    id::{DeviceId, EntryId, PersonId},
    world::World,
};

fn locked(of: PersonId) -> Said {
    Said::Access(Access {
        what: AccessWhat::Locked,
        of: Some(of),
        note: Some("phone …1a2b".to_owned()),
    })
}

/// Offers an entry as a device would.
async fn offer(place: &Place, by: PersonId, body: Said) -> StatusCode {
    let cookie = place.sign_in(by).await;
    let bytes = write_entry(&NewEntry {
        id: EntryId(fresh_id(place.clock.as_ref())),
        yard: place.yard.id(),
        machine: None,
        at: place.clock.now(),
        by,
        device: DeviceId("phone 1a2b3c4d".to_owned()),
        counter: 1,
        body,
    });
    let request = axum::http::Request::post(format!("/api{}/entries", place.home()))
        .header("cookie", &cookie)
        .header("content-type", "application/json")
        .body(Body::from(bytes))
        .unwrap();
    place.send(request).await.status
}

#[tokio::test]
async fn nobody_writes_or_corrects_one() {
    let place = Place::new();
    let noted = place.write(PersonId::PROGRAM, None, locked(place.operator));
    let correction = |of, instead: Option<Said>| {
        Said::Correction(Correction {
            of,
            instead: instead.map(Box::new),
            why: "never was".to_owned(),
        })
    };
    let note = place.write(
        place.steward,
        None,
        Said::Note(yard::entry::Note {
            point: None,
            text: "gate".to_owned(),
        }),
    );
    // The way is open: what people write comes through.
    let hello = Said::Note(yard::entry::Note {
        point: None,
        text: "hello".to_owned(),
    });
    assert_eq!(
        offer(&place, place.steward, hello).await,
        StatusCode::CREATED
    );
    for body in [
        locked(place.operator),
        correction(noted, None),
        correction(note, Some(locked(place.operator))),
        correction(note, Some(correction(noted, None))),
    ] {
        let before = place.yard.entries().unwrap().len();
        let status = offer(&place, place.steward, body).await;
        assert!(status.is_client_error(), "{status}");
        assert_eq!(place.yard.entries().unwrap().len(), before);
    }
    // A page neither: no link, and the form is not there.
    let cookie = place.sign_in(place.steward).await;
    let path = format!("{}/correct/{noted}", place.home());
    assert_eq!(
        place.get(&cookie, &path).await.status,
        StatusCode::NOT_FOUND
    );
    let got = place.post(&cookie, &path, &[("why", "never was")]).await;
    assert_eq!(got.status, StatusCode::BAD_REQUEST);
}

#[tokio::test]
async fn the_journal_says_it_in_a_sentence() {
    let place = Place::new();
    let noted = place.write(PersonId::PROGRAM, None, locked(place.operator));
    let cookie = place.sign_in(place.steward).await;
    let page = place
        .get(&cookie, &format!("{}/journal", place.home()))
        .await;
    assert!(
        page.text
            .contains("Signing in as Tamsin was stopped after wrong PINs (phone …1a2b)"),
        "{}",
        page.text
    );
    assert!(page.text.contains("the program"), "{}", page.text);
    assert!(!page.text.contains(&format!("/correct/{noted}")));
}
