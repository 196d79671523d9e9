//! Whose engine stays off in a round and at the start: a book that does not say how to stop it, a person who may not.

use super::fixture::{BOOK, Place};
use yard::entry::{Body, BookAdopted, SignOff, StandDown};

const OFF: &str = "The engine is not started in this round.";

#[tokio::test]
async fn a_book_that_does_not_say_how_to_stop_keeps_the_engine_off() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let list = format!("{}/round?list=1", place.machine());
    let before = place.get(&cookie, &list).await.text;
    assert!(before.contains("/round/idle") && !before.contains(OFF));
    let from = BOOK.find("[stop]").unwrap();
    let to = from + BOOK[from..].find("\n\n").unwrap();
    place.write(
        place.steward,
        Some("marigold"),
        Body::BookAdopted(BookAdopted {
            text: format!("{}{}", &BOOK[..from], &BOOK[to..]),
            why: None,
        }),
    );
    let after = place.get(&cookie, &list).await.text;
    assert!(after.contains(OFF), "{after}");
    assert!(after.contains("Nobody knows how. Find out first."));
    let pocket = format!("{}/pocket", place.machine());
    let pocket = place.get(&cookie, &pocket).await.text;
    assert!(pocket.contains("&#34;stoodDown&#34;:true") || pocket.contains("\"stoodDown\":true"));
}

#[tokio::test]
async fn whoever_is_not_signed_off_starts_nothing_in_a_round() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    place.write(
        place.steward,
        Some("marigold"),
        Body::SignOff(SignOff {
            person: place.operator,
            given: false,
            until: None,
            limits: None,
            in_sight: false,
        }),
    );
    let list = format!("{}/round?list=1", place.machine());
    assert!(place.get(&cookie, &list).await.text.contains(OFF));
    // A learner walks it with somebody looking on.
    let learner = place.sign_in(place.learner).await;
    let list = place.get(&learner, &list).await.text;
    assert!(!list.contains(OFF));
    assert!(list.contains("has you in sight. Without them the engine stays off."));
}

#[tokio::test]
async fn the_start_of_a_run_says_no_first_and_offers_nothing() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    place.write(
        place.deputy,
        Some("marigold"),
        Body::StandDown(StandDown {
            why: "crack in the boom".to_owned(),
        }),
    );
    let run = format!("{}/run", place.machine());
    let page = place.get(&cookie, &run).await.text;
    assert!(page.contains("crack in the boom"), "{page}");
    assert!(!page.contains("name=\"hours\"") && !page.contains("Press the button"));
    // Pressed all the same, as from a page that was open: still no.
    let pressed = place.post(&cookie, &run, &[("hours", "")]).await;
    assert!(pressed.text.contains("crack in the boom"));
    let started = place.yard.entries().unwrap();
    assert!(
        !started
            .iter()
            .any(|entry| matches!(entry.body, Body::Run(_)))
    );
}

/// An invented machine in a real yard makes nobody's PIN known.
#[tokio::test]
async fn the_demos_pin_is_told_in_the_demo_only() {
    let place = Place::new();
    let sign_in = format!("{}/sign-in", place.home());
    assert!(place.get("", &sign_in).await.text.contains("2580"));
    let one = place.yard.person(place.operator).unwrap().unwrap();
    let real = store::Person {
        invented: false,
        ..one
    };
    place.yard.keep_person(&real).unwrap();
    assert!(!place.get("", &sign_in).await.text.contains("2580"));
}
