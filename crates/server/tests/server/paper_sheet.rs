//! A filled sheet comes back: exceptions and values by number, the rest as ticked, marked "from paper".

use super::fixture::{BOOK, Place};
use axum::http::StatusCode;
use yard::{book::read, entry::Body, walkround::numbers};

#[tokio::test]
async fn exceptions_are_typed_and_the_rest_counts_as_ticked() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let book = read(BOOK, &quantity::Habits::default()).book.unwrap();
    let numbers = numbers(&book);
    let clip = book
        .points
        .iter()
        .find(|p| matches!(p.kind, yard::book::PointKind::PinClip))
        .unwrap();
    let line = format!("{}: missing", numbers[&clip.id]);
    let fields = [
        ("walker", place.operator.to_string()),
        ("when", "2026-03-02T06:40".to_owned()),
        ("hours", "812.3".to_owned()),
        ("answers", line),
        ("rest", "well".to_owned()),
    ];
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let got = place
        .post(&cookie, &format!("{}/sheet", place.machine()), &fields)
        .await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let entries = place.yard.entries().unwrap();
    let last = entries.last().unwrap();
    let Body::WalkRound(round) = &last.body else {
        panic!("{last:?}")
    };
    assert!(round.from_paper && round.closes.is_some());
    assert_eq!(last.by, place.operator);
    assert!(last.device.0.contains("typed by"));
    assert_eq!(round.closes.as_ref().unwrap().verdict, "stand-down");
    assert!(round.answers.iter().any(|a| a.point == clip.id));
    assert!(round.answers.len() > 10);
}

#[tokio::test]
async fn a_line_that_does_not_read_is_asked_about_and_nothing_is_kept() {
    let place = Place::new();
    let cookie = place.sign_in(place.deputy).await;
    let before = place.yard.entries().unwrap().len();
    let who = place.operator.to_string();
    let fields = [
        ("walker", who.as_str()),
        ("when", "2026-03-02T06:40"),
        ("hours", "812.3"),
        ("answers", "999: missing\nnonsense\n"),
    ];
    let got = place
        .post(&cookie, &format!("{}/sheet", place.machine()), &fields)
        .await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(
        got.text.contains("999: missing") && got.text.contains("nonsense"),
        "{}",
        got.text
    );
    assert_eq!(before, place.yard.entries().unwrap().len());
}
