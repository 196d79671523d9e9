//! Tokens: shown once, no more than their person, ended in every way there is.

use super::fixture::{Got, PIN, Place};
use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use jiff::SignedDuration;
use yard::{
    entry::{AccessWhat, Body as Said, RoleGiven},
    id::PersonId,
    people::Role,
    world::World,
};

async fn with_token(place: &Place, method: &str, path: &str, token: &str, body: &str) -> Got {
    let request = Request::builder()
        .method(method)
        .uri(path)
        .header(header::AUTHORIZATION, format!("Bearer {token}"))
        .header(header::CONTENT_TYPE, "application/json")
        // A program may run in a page of another site: the token alone counts.
        .header(header::ORIGIN, "https://elsewhere.example")
        .body(Body::from(body.to_owned()))
        .unwrap();
    place.send(request).await
}

async fn made(place: &Place, who: PersonId, scope: &str, days: &str) -> (String, String) {
    let cookie = place.sign_in(who).await;
    let fields = [
        ("name", "hours in a spreadsheet"),
        ("scope", scope),
        ("days", days),
    ];
    let got = place
        .post(&cookie, &format!("{}/tokens", place.home()), &fields)
        .await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    let at = got
        .text
        .find("kingpost-")
        .unwrap_or_else(|| panic!("{}", got.text));
    (cookie, got.text[at..at + 41].to_owned())
}

async fn status(place: &Place, token: &str) -> u16 {
    let path = format!("/api{}/me", place.home());
    with_token(place, "GET", &path, token, "")
        .await
        .status
        .as_u16()
}

fn noted(place: &Place) -> Vec<(AccessWhat, Option<PersonId>)> {
    let all = place.yard.entries().unwrap().into_iter();
    let notes = all.filter_map(|entry| match entry.body {
        Said::Access(access) => Some((access.what, access.of)),
        _ => None,
    });
    notes
        .filter(|(what, _)| matches!(what, AccessWhat::TokenMade | AccessWhat::TokenEnded))
        .collect()
}

#[tokio::test]
async fn a_token_does_what_it_was_made_for_and_no_more() {
    let place = Place::new();
    let api = format!("/api{}", place.home());
    let (_, reads) = made(&place, place.operator, "read", "30").await;
    let (_, delivers) = made(&place, place.operator, "deliver", "30").await;
    let (_, both) = made(&place, place.operator, "both", "30").await;
    for (token, read, deliver) in [(&reads, 200, 403), (&delivers, 403, 200), (&both, 200, 200)] {
        let got = with_token(&place, "GET", &format!("{api}/yard"), token, "").await;
        assert_eq!(got.status.as_u16(), read, "{}", got.text);
        let empty = "{\"entries\":[]}";
        let got = with_token(&place, "POST", &format!("{api}/deliveries"), token, empty).await;
        assert_eq!(got.status.as_u16(), deliver, "{}", got.text);
        assert_eq!(status(&place, token).await, 200);
    }
    for wrong in ["", "kingpost-", PIN, &reads[..40], &reads.to_uppercase()] {
        assert_eq!(status(&place, wrong).await, 401, "{wrong:?}");
    }
}

#[tokio::test]
async fn a_token_opens_no_page_and_is_kept_only_as_its_hash() {
    let place = Place::new();
    let (cookie, token) = made(&place, place.steward, "both", "30").await;
    let habits = format!("{}/habits", place.home());
    let got = with_token(&place, "GET", &habits, &token, "").await;
    assert!(got.to.contains("/sign-in"), "{} {}", got.status, got.text);
    let page = place
        .get(&cookie, &format!("{}/tokens", place.home()))
        .await;
    assert!(page.text.contains("hours in a spreadsheet"));
    assert!(!page.text.contains("kingpost-"), "shown twice");
    for row in place.yard.rows_since(0, 1000).unwrap() {
        assert!(!String::from_utf8_lossy(&row.bytes).contains(&token));
    }
}

#[tokio::test]
async fn a_token_ends_by_hand_by_time_by_erasing_and_with_the_role() {
    let place = Place::new();
    let (cookie, by_hand) = made(&place, place.operator, "read", "30").await;
    let id = place.yard.tokens_of(place.operator).unwrap()[0].id;
    let end = format!("{}/tokens/{id}/end", place.home());
    let other = place.sign_in(place.steward).await;
    assert_eq!(
        place.post(&other, &end, &[]).await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(status(&place, &by_hand).await, 200);
    assert_eq!(
        place.post(&cookie, &end, &[]).await.status,
        StatusCode::SEE_OTHER
    );
    assert_eq!(status(&place, &by_hand).await, 401);

    let (_, by_time) = made(&place, place.operator, "read", "1").await;
    place.later(24 * 60 - 1);
    assert_eq!(status(&place, &by_time).await, 200);
    place.later(1);
    assert_eq!(status(&place, &by_time).await, 401);

    let (_, by_erasing) = made(&place, place.learner, "both", "366").await;
    place.yard.erase_person(place.learner).unwrap();
    assert_eq!(status(&place, &by_erasing).await, 401);

    let (_, by_role) = made(&place, place.deputy, "both", "366").await;
    let give = |role| {
        place.later(1);
        place.write(
            place.steward,
            None,
            Said::RoleGiven(RoleGiven {
                person: place.deputy,
                role,
                machines: vec![],
            }),
        );
    };
    give(Some(Role::Learner));
    let me = with_token(
        &place,
        "GET",
        &format!("/api{}/me", place.home()),
        &by_role,
        "",
    )
    .await;
    assert!(me.text.contains("\"role\":\"learner\""), "{}", me.text);
    give(None);
    assert_eq!(status(&place, &by_role).await, 401);
    // Ended, not asleep: the role given again does not wake it.
    give(Some(Role::Deputy));
    assert_eq!(status(&place, &by_role).await, 401);

    let person = Some(place.operator);
    assert_eq!(
        noted(&place),
        [
            (AccessWhat::TokenMade, person),
            (AccessWhat::TokenEnded, person),
            (AccessWhat::TokenMade, person),
            (AccessWhat::TokenMade, Some(place.learner)),
            (AccessWhat::TokenMade, Some(place.deputy)),
            (AccessWhat::TokenEnded, Some(place.deputy)),
        ]
    );
}

#[tokio::test]
async fn a_token_holds_for_a_year_at_most_and_needs_a_purpose() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let path = format!("{}/tokens", place.home());
    let long = "x".repeat(61);
    for (name, scope, days) in [
        ("", "read", "30"),
        (long.as_str(), "read", "30"),
        ("hours", "", "30"),
        ("hours", "steward", "30"),
        ("hours", "read", "0"),
        ("hours", "read", "367"),
        ("hours", "read", "-1"),
        ("hours", "read", "99999999999999999999"),
    ] {
        let fields = [("name", name), ("scope", scope), ("days", days)];
        let got = place.post(&cookie, &path, &fields).await;
        assert!(!got.text.contains("kingpost-"), "{name} {scope} {days}");
        assert!(got.text.contains("role=\"alert\""), "{name} {scope} {days}");
    }
    let (_, token) = made(&place, place.operator, "read", "366").await;
    let kept = place.yard.tokens_of(place.operator).unwrap();
    assert_eq!(
        kept[0].expires.duration_since(kept[0].made),
        SignedDuration::from_hours(24 * 366)
    );
    assert_eq!(status(&place, &token).await, 200);
    assert!(place.post("", &path, &[]).await.to.contains("/sign-in"));
}

/// Whoever gives themselves a new PIN because somebody knew the old one is rid of what that one made as well.
#[tokio::test]
async fn a_new_pin_ends_every_token() {
    let place = Place::new();
    let (_, token) = made(&place, place.operator, "both", "30").await;
    assert_eq!(status(&place, &token).await, 200);
    let secret = server::session::secret(place.clock.as_ref());
    let link = store::Link {
        purpose: "forgotten-pin".to_owned(),
        person: Some(place.operator.0),
        expires: place.clock.now() + SignedDuration::from_hours(1),
        used: None,
    };
    place
        .yard
        .keep_link(&server::session::hash(&secret), &link)
        .unwrap();
    let first = format!("{}/first/{secret}", place.home());
    let chosen = place
        .post("", &first, &[("pin", "83461"), ("again", "83461")])
        .await;
    assert_eq!(chosen.status, StatusCode::SEE_OTHER, "{}", chosen.text);
    assert_eq!(status(&place, &token).await, 401);
    let ended = (AccessWhat::TokenEnded, Some(place.operator));
    assert!(noted(&place).contains(&ended));
}
