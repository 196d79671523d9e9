//! The steward checks and adopts a changed book; mistakes point at their line.

use super::fixture::{BOOK, Place};
use axum::http::StatusCode;

#[tokio::test]
async fn mistakes_are_shown_with_their_line_and_nothing_is_adopted() {
    let place = Place::new();
    let cookie = place.sign_in(place.steward).await;
    let path = format!("{}/book", place.machine());
    let before = place.yard.entries().unwrap().len();
    let broken = BOOK.replacen("[machine]", "[machine]\nnmae = \"x\"", 1);
    let got = place
        .post(&cookie, &path, &[("text", &broken), ("do", "adopt")])
        .await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(got.text.contains("nmae"), "{}", got.text);
    assert_eq!(before, place.yard.entries().unwrap().len());
}

#[tokio::test]
async fn a_sound_change_is_adopted_as_a_new_revision() {
    let place = Place::new();
    let cookie = place.sign_in(place.steward).await;
    let path = format!("{}/book", place.machine());
    let changed = format!("{BOOK}\n# one more line\n");
    let got = place
        .post(
            &cookie,
            &path,
            &[("text", &changed), ("why", "a line"), ("do", "adopt")],
        )
        .await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let got = place.get(&cookie, &path).await;
    assert!(got.text.contains("one more line"));
}

#[tokio::test]
async fn a_point_that_vanishes_without_a_word_is_asked_about() {
    let place = Place::new();
    let cookie = place.sign_in(place.steward).await;
    let path = format!("{}/book", place.machine());
    let before = place.yard.entries().unwrap().len();
    let renamed = BOOK.replace("\"engine-oil\"", "\"oil-of-the-engine\"");
    assert_ne!(renamed, BOOK);
    let got = place
        .post(&cookie, &path, &[("text", &renamed), ("do", "adopt")])
        .await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(got.text.contains("engine-oil"), "{}", got.text);
    assert_eq!(before, place.yard.entries().unwrap().len());
}
