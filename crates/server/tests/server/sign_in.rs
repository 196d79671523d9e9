//! Signing in, signing out, and what only some may set.

use super::fixture::{PIN, Place};
use axum::http::StatusCode;

#[tokio::test]
async fn signing_in_goes_back_to_where_one_was_and_out_again() {
    let place = Place::new();
    let round = format!("{}/round", place.machine());
    let got = place.get("", &round).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER);
    let back = format!("/sign-in?back={}", server::session::encode(&round));
    assert!(got.to.ends_with(&back), "{}", got.to);
    let got = place
        .post(
            "",
            &format!("{}/sign-in", place.home()),
            &[
                ("person", &place.operator.to_string()),
                ("pin", PIN),
                ("back", &round),
            ],
        )
        .await;
    assert_eq!(got.to, round);
    let cookie = got.cookie;
    assert_eq!(place.get(&cookie, &round).await.status, StatusCode::OK);
    place
        .post(&cookie, &format!("{}/sign-out", place.home()), &[])
        .await;
    assert_eq!(
        place.get(&cookie, &round).await.status,
        StatusCode::SEE_OTHER
    );
}

#[tokio::test]
async fn another_site_cannot_post() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let request = axum::http::Request::post(format!("{}/stand-down", place.machine()))
        .header("cookie", &cookie)
        .header("sec-fetch-site", "cross-site")
        .header("content-type", "application/x-www-form-urlencoded")
        .body(axum::body::Body::from("text=mischief"))
        .unwrap();
    assert_eq!(place.send(request).await.status, StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn the_yards_habits_are_the_stewards_and_change_what_is_read() {
    let place = Place::new();
    let path = format!("{}/habits", place.home());
    let operator = place.sign_in(place.operator).await;
    assert_eq!(
        place.get(&operator, &path).await.status,
        StatusCode::FORBIDDEN
    );
    let steward = place.sign_in(place.steward).await;
    let odd = [("holds", "0"), ("relief", "no"), ("comma", "yes")];
    assert_eq!(
        place.post(&steward, &path, &odd).await.status,
        StatusCode::OK
    );
    let kept = [
        ("holds", "10"),
        ("refused", "8"),
        ("relief", "yes"),
        ("comma", "yes"),
        ("gun", "1.28"),
    ];
    assert_eq!(
        place.post(&steward, &path, &kept).await.status,
        StatusCode::SEE_OTHER
    );
    let habits = place.yard.habits().unwrap();
    assert!(habits.relief_allowed && habits.decimal_comma);
    assert_eq!(habits.round_holds_hours, 10);
    let page = place.get(&steward, &path).await;
    assert!(page.text.contains("value=\"1.28\""), "{}", page.text);
    // With the comma as decimal sign a meter reading with a comma is plain.
    let hours = format!("{}/hours", place.machine());
    let got = place.post(&operator, &hours, &[("shows", "812,3 h")]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
}
