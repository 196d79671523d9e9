//! The photos' addresses: who may send and see them, what is answered, and that a refused one leaves nothing behind.

use super::{
    fixture::{Got, Place},
    photo_made::{file, jpeg, quarters},
};
use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use http_body_util::BodyExt as _;
use image::ImageFormat;
use server::photo::MOST_BYTES;
use tower::ServiceExt as _;

const PHOTO: &str = "0197a3a0-0000-7000-8000-000000000001";

async fn put(place: &Place, cookie: &str, photo: &str, bytes: Vec<u8>) -> Got {
    let request = Request::put(format!("/api{}/photos/{photo}", place.home()))
        .header(header::COOKIE, cookie)
        // What a program calls its file is not asked.
        .header(header::CONTENT_TYPE, "image/jpeg")
        .body(Body::from(bytes))
        .unwrap();
    place.send(request).await
}

fn why(got: &Got) -> String {
    let said: serde_json::Value = serde_json::from_str(&got.text).unwrap();
    assert!(
        said["told"].as_str().unwrap().ends_with('.'),
        "{}",
        got.text
    );
    said["why"].as_str().unwrap().to_owned()
}

#[tokio::test]
async fn new_then_known_then_another() {
    let place = Place::new();
    let cookie = place.sign_in(place.learner).await;
    let sent = jpeg(&quarters(60, 40));
    assert_eq!(
        put(&place, &cookie, PHOTO, sent.clone()).await.status,
        StatusCode::CREATED
    );
    assert_eq!(
        put(&place, &cookie, PHOTO, sent.clone()).await.status,
        StatusCode::OK
    );
    let other = put(&place, &cookie, PHOTO, jpeg(&quarters(40, 60))).await;
    assert_eq!(
        (other.status, why(&other)),
        (StatusCode::CONFLICT, "differs".to_owned())
    );
    let kept = place.yard.picture(PHOTO.parse().unwrap()).unwrap().unwrap();
    assert_eq!(kept.bytes, server::photo::clean(&sent).unwrap().bytes);
}

#[tokio::test]
async fn who_may_send_is_asked_first() {
    let place = Place::new();
    let sent = jpeg(&quarters(60, 40));
    let nobody = put(&place, "", PHOTO, sent.clone()).await;
    assert_eq!(
        (nobody.status, why(&nobody)),
        (StatusCode::UNAUTHORIZED, "sign-in".to_owned())
    );
    let visitor = place.sign_in(place.visitor).await;
    let visitor = put(&place, &visitor, PHOTO, sent.clone()).await;
    assert_eq!(
        (visitor.status, why(&visitor)),
        (StatusCode::FORBIDDEN, "may-not".to_owned())
    );
    let cookie = place.sign_in(place.operator).await;
    for odd in ["7", "../x", "0197a3a0-0000-7000-8000-00000000000g"] {
        assert_eq!(
            put(&place, &cookie, odd, sent.clone()).await.status,
            StatusCode::NOT_FOUND
        );
    }
    let elsewhere = Request::put(format!("/api/y/0123456789/photos/{PHOTO}"))
        .header(header::COOKIE, &cookie)
        .body(Body::from(sent))
        .unwrap();
    assert_eq!(place.send(elsewhere).await.status, StatusCode::NOT_FOUND);
    assert_eq!(place.yard.pictures().unwrap(), []);
}

#[tokio::test]
async fn what_is_refused_leaves_nothing_behind() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let whole = jpeg(&quarters(60, 40));
    let cases = [
        (Vec::new(), "empty", 422),
        (b"MZ\x90\0 a program".to_vec(), "not-a-picture", 422),
        (
            b"\0\0\0\x18ftypheic\0\0\0\0mif1heic".to_vec(),
            "other-kind",
            422,
        ),
        (whole[..whole.len() / 2].to_vec(), "cut-off", 422),
        (vec![0xFF; MOST_BYTES + 1], "too-large", 413),
    ];
    for (bytes, wanted, status) in cases {
        let got = put(&place, &cookie, PHOTO, bytes).await;
        assert_eq!((why(&got).as_str(), got.status.as_u16()), (wanted, status));
    }
    assert_eq!(place.yard.pictures().unwrap(), []);
    // Its id is still free.
    assert_eq!(
        put(&place, &cookie, PHOTO, whole).await.status,
        StatusCode::CREATED
    );
}

#[tokio::test]
async fn an_upload_just_within_the_limit_is_read() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let mut sent = jpeg(&quarters(60, 40));
    sent.resize(MOST_BYTES, 0);
    assert_eq!(
        put(&place, &cookie, PHOTO, sent).await.status,
        StatusCode::CREATED
    );
}

#[tokio::test]
async fn only_people_of_the_yard_see_it() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let address = format!("{}/photos/{PHOTO}", place.home());
    assert_eq!(
        place.get(&cookie, &address).await.status,
        StatusCode::NOT_FOUND
    );
    put(
        &place,
        &cookie,
        PHOTO,
        file(quarters(800, 600), ImageFormat::Png),
    )
    .await;
    let nobody = place.get("", &address).await;
    assert_eq!(nobody.status, StatusCode::SEE_OTHER);
    assert!(nobody.to.contains("/sign-in"));
    for (address, long) in [
        (address.clone(), 800),
        (format!("{address}?size=small"), 320),
    ] {
        let request = Request::get(&address)
            .header(header::COOKIE, &cookie)
            .body(Body::empty())
            .unwrap();
        let response = place.router.clone().oneshot(request).await.unwrap();
        let said = |name| {
            response
                .headers()
                .get(name)
                .unwrap()
                .to_str()
                .unwrap()
                .to_owned()
        };
        assert_eq!(said(header::CONTENT_TYPE), "image/jpeg");
        assert_eq!(said(header::X_CONTENT_TYPE_OPTIONS), "nosniff");
        assert_eq!(said(header::CONTENT_DISPOSITION), "inline");
        // The next person at a shared tablet finds nothing in the browser's store.
        assert_eq!(said(header::CACHE_CONTROL), "no-store");
        let bytes = response.into_body().collect().await.unwrap().to_bytes();
        assert_eq!(image::load_from_memory(&bytes).unwrap().width(), long);
    }
}
