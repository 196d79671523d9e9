//! Guessing PINs: slowed, stopped, locked; for a person from many devices, for many people from one device.

use super::{browser::Browser, fixture::Place};
use axum::http::StatusCode;
use yard::{
    entry::{AccessWhat, Body},
    id::PersonId,
};

/// What the journal says of signing in: what, of whom.
fn noted(place: &Place) -> Vec<(AccessWhat, Option<PersonId>)> {
    let entries = place.yard.entries().unwrap();
    let access = |body: &Body| match body {
        Body::Access(access) => Some((access.what, access.of)),
        _ => None,
    };
    entries.iter().filter_map(|e| access(&e.body)).collect()
}

/// Five wrong PINs, each as soon as it is looked at.
async fn five_wrong(place: &Place, browser: &mut Browser<'_>, who: PersonId) {
    for wait in [0, 0, 0, 1, 1] {
        place.later(wait);
        let got = browser.try_pin(who, "0000").await;
        assert_eq!(got.status, StatusCode::OK, "{}", got.text);
        assert!(got.text.contains("not the right one"), "{}", got.text);
        assert!(!browser.jar.contains_key("kingpost"));
    }
}

#[tokio::test]
async fn from_the_third_one_waits_and_the_page_says_how_long() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    for _ in 0..2 {
        let got = browser.try_pin(place.operator, "0000").await;
        assert!(!got.text.contains("Wait"), "{}", got.text);
    }
    let got = browser.try_pin(place.operator, "0000").await;
    assert!(got.text.contains("Wait 15 seconds"), "{}", got.text);
    // The right one is not even looked at.
    let got = browser.try_pin(place.operator, "2580").await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(got.text.contains("Wait 15 seconds"), "{}", got.text);
    place.later(1);
    let got = browser.try_pin(place.operator, "0000").await;
    assert!(got.text.contains("Wait 30 seconds"), "{}", got.text);
    place.later(1);
    browser.sign_in(place.operator).await;
    assert_eq!(noted(&place), []);
}

#[tokio::test]
async fn five_stop_for_ten_minutes_and_the_journal_says_so() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    five_wrong(&place, &mut browser, place.operator).await;
    let got = browser.try_pin(place.operator, "2580").await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(got.text.contains("Try again at 7:12"), "{}", got.text);
    assert_eq!(
        noted(&place),
        [
            (AccessWhat::Locked, Some(place.operator)),
            (AccessWhat::Locked, None)
        ]
    );
    // Nothing of the network's addresses is kept for ever.
    for row in place.yard.rows_since(0, 1000).unwrap() {
        assert!(!String::from_utf8(row.bytes).unwrap().contains("192.168"));
    }
    place.later(10);
    browser.sign_in(place.operator).await;
}

#[tokio::test]
async fn fifteen_a_day_lock_until_somebody_at_the_computer_unlocks() {
    let place = Place::new();
    let addresses = ["192.168.1.7", "192.168.1.8", "192.168.1.9"];
    for address in addresses {
        // A new device each time: the person is counted all the same.
        let mut browser = Browser::at(&place, address);
        five_wrong(&place, &mut browser, place.operator).await;
        place.later(11);
    }
    let mut browser = Browser::at(&place, "192.168.1.10");
    place.later(12 * 60);
    let got = browser.try_pin(place.operator, "2580").await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(got.text.contains("unlock it"), "{}", got.text);
    place.later(48 * 60);
    let got = browser.try_pin(place.operator, "2580").await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS, "not even later");
    // The steward elsewhere cannot; at this computer they can.
    let path = format!("{}/people/{}/unlock", place.home(), place.operator);
    let mut afar = Browser::at(&place, "192.168.1.20");
    afar.sign_in(place.steward).await;
    assert_eq!(afar.post(&path, &[]).await.status, StatusCode::FORBIDDEN);
    let mut here = Browser::here(&place);
    here.sign_in(place.steward).await;
    let people = here.get(&format!("{}/people", place.home())).await;
    assert!(people.text.contains("signing in is locked"));
    assert!(people.text.contains(&path), "{}", people.text);
    assert_eq!(here.post(&path, &[]).await.status, StatusCode::SEE_OTHER);
    assert_eq!(
        noted(&place).last(),
        Some(&(AccessWhat::Unlocked, Some(place.operator)))
    );
    browser.sign_in(place.operator).await;
}

#[tokio::test]
async fn throwing_cookies_away_or_making_them_up_does_not_help() {
    let place = Place::new();
    // One wrong PIN for each of many people, from one address.
    let mut tried = 0;
    for n in 0..40 {
        let who = [place.steward, place.deputy, place.operator, place.learner][n % 4];
        let mut browser = Browser::at(&place, "192.168.1.7");
        if n % 2 == 0 {
            let made_up = format!("{n:032x}");
            browser.jar.insert("kingpost-device".to_owned(), made_up);
        }
        let got = browser.try_pin(who, "0000").await;
        tried += usize::from(got.status == StatusCode::OK);
        place.later(1);
    }
    assert!(tried <= 20, "{tried} PINs were looked at");
    // Elsewhere nobody notices.
    Browser::at(&place, "192.168.1.8")
        .sign_in(place.deputy)
        .await;
}

#[tokio::test]
async fn many_addresses_of_one_household_are_one() {
    let place = Place::new();
    let addresses = ["2001:db8::1", "2001:db8::2", "2001:db8::3", "2001:db8::4"];
    let mut last = StatusCode::OK;
    for (n, address) in addresses.into_iter().enumerate() {
        let who = [place.steward, place.deputy, place.operator, place.learner][n];
        last = Browser::at(&place, address)
            .try_pin(who, "0000")
            .await
            .status;
    }
    assert_eq!(last, StatusCode::TOO_MANY_REQUESTS);
}

#[tokio::test]
async fn strangers_do_not_lock_somebody_out_of_their_own_phone() {
    let place = Place::new();
    let mut own = Browser::at(&place, "192.168.1.30");
    own.sign_in(place.operator).await;
    own.post(&format!("{}/sign-out", place.home()), &[]).await;
    for address in ["192.168.1.7", "192.168.1.8", "192.168.1.9"] {
        let mut stranger = Browser::at(&place, address);
        five_wrong(&place, &mut stranger, place.operator).await;
        place.later(11);
    }
    own.sign_in(place.operator).await;
    // But guessing on that phone is counted there.
    own.post(&format!("{}/sign-out", place.home()), &[]).await;
    five_wrong(&place, &mut own, place.operator).await;
    let got = own.try_pin(place.operator, "2580").await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS);
}

#[tokio::test]
async fn signing_in_oneself_does_not_forgive_guessing_at_others() {
    let place = Place::new();
    let mut tablet = Browser::at(&place, "192.168.1.7");
    tablet.sign_in(place.learner).await;
    let mut looked_at = 0;
    for _ in 0..30 {
        let got = tablet.try_pin(place.steward, "0000").await;
        looked_at += usize::from(got.status == StatusCode::OK);
        tablet.try_pin(place.learner, "2580").await;
        place.later(1);
    }
    assert!(looked_at <= 15, "{looked_at}");
    // Nor do one's own slips add up over a day, each made good.
    let mut phone = Browser::at(&place, "192.168.1.8");
    for _ in 0..20 {
        phone.try_pin(place.deputy, "0000").await;
        phone.sign_in(place.deputy).await;
        place.later(30);
    }
}

#[tokio::test]
async fn nobody_learns_who_is_here() {
    let place = Place::new();
    let nobody: PersonId = "01890000-0000-7000-8000-0000000000ff".parse().unwrap();
    let (mut one, mut other) = (
        Browser::at(&place, "192.168.1.7"),
        Browser::at(&place, "192.168.1.8"),
    );
    // The same pages at the same tries, but for the name that stays chosen.
    let plain = |text: String| text.replace(" checked", "");
    for n in 0..8 {
        let known = one.try_pin(place.operator, "0000").await;
        let unknown = other.try_pin(nobody, "0000").await;
        assert_eq!(known.status, unknown.status, "{n}");
        assert_eq!(plain(known.text), plain(unknown.text), "{n}");
        if n > 2 {
            place.later(1);
        }
    }
    // A made-up person from ever new addresses is slowed as a real one is.
    let fresh = Browser::at(&place, "192.168.1.9")
        .try_pin(nobody, "0000")
        .await;
    assert_eq!(fresh.status, StatusCode::TOO_MANY_REQUESTS);
    for odd in ["", "x", "00000000-0000-0000-0000-000000000000"] {
        let path = format!("{}/sign-in", place.home());
        let mut browser = Browser::at(&place, "192.168.1.10");
        let got = browser
            .post(&path, &[("person", odd), ("pin", "2580")])
            .await;
        assert_eq!(got.status, StatusCode::OK, "{odd}");
        assert!(got.text.contains("not the right one"), "{odd}");
    }
}
