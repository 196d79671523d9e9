//! Sign-ins: fresh each time, ending by themselves, to be seen and ended from elsewhere; their cookies.

use super::{
    browser::Browser,
    fixture::{PIN, Place},
};
use axum::http::StatusCode;

#[tokio::test]
async fn a_secret_brought_along_is_never_taken_over() {
    let place = Place::new();
    let planted = "0123456789abcdef0123456789abcdef";
    let mut browser = Browser::at(&place, "192.168.1.7");
    for name in ["kingpost", "kingpost-device"] {
        browser.jar.insert(name.to_owned(), planted.to_owned());
    }
    browser.sign_in(place.operator).await;
    assert_ne!(browser.jar["kingpost"], planted);
    assert_ne!(browser.jar["kingpost-device"], planted);
    let mut thief = Browser::at(&place, "192.168.1.8");
    thief.jar.insert("kingpost".to_owned(), planted.to_owned());
    assert!(!thief.signed_in().await);
}

#[tokio::test]
async fn signing_in_again_ends_the_sign_in_before() {
    let place = Place::new();
    let mut browser = Browser::at(&place, "192.168.1.7");
    browser.sign_in(place.operator).await;
    let mut before = Browser::at(&place, "192.168.1.7");
    before.jar = browser.jar.clone();
    let device = browser.jar["kingpost-device"].clone();
    browser.sign_in(place.learner).await;
    assert_ne!(browser.jar["kingpost"], before.jar["kingpost"]);
    assert_eq!(browser.jar["kingpost-device"], device, "the same device");
    assert!(browser.signed_in().await);
    assert!(!before.signed_in().await);
}

#[tokio::test]
async fn a_shared_device_signs_out_after_twenty_minutes_of_rest() {
    let place = Place::new();
    let mut tablet = Browser::at(&place, "192.168.1.7");
    tablet.sign_in(place.operator).await;
    for _ in 0..5 {
        place.later(19);
        assert!(tablet.signed_in().await, "each request counts");
    }
    let page = tablet.get(&place.home()).await;
    assert!(page.text.contains("I am done: sign out"), "{}", page.text);
    place.later(22);
    assert!(!tablet.signed_in().await);
    // Whoever signed in last stands first and is chosen; the browser holds nothing of it.
    let page = tablet.get(&format!("{}/sign-in", place.home())).await;
    let chosen = format!("value=\"{}\" checked", place.operator);
    assert!(page.text.contains(&chosen), "{}", page.text);
    let first = page.text.find("Tamsin").unwrap();
    assert!(first < page.text.find("Bram").unwrap());
    for value in tablet.jar.values() {
        assert!(value.len() == 32 && value.bytes().all(|b| b.is_ascii_hexdigit()));
    }
}

#[tokio::test]
async fn nobody_stays_signed_in_longer_than_a_working_day() {
    let place = Place::new();
    let mut tablet = Browser::at(&place, "192.168.1.7");
    tablet.sign_in(place.operator).await;
    for _ in 0..47 {
        place.later(15);
        assert!(tablet.signed_in().await);
    }
    place.later(16);
    assert!(!tablet.signed_in().await);
}

#[tokio::test]
async fn ones_own_phone_stays_signed_in_for_twelve_hours() {
    let place = Place::new();
    let mut phone = Browser::at(&place, "192.168.1.7");
    let path = format!("{}/sign-in", place.home());
    let who = place.operator.to_string();
    let fields = [("person", who.as_str()), ("pin", PIN), ("device", "own")];
    phone.post(&path, &fields).await;
    place.later(12 * 60 - 1);
    assert!(phone.signed_in().await);
    let page = phone.get(&place.home()).await;
    assert!(!page.text.contains("I am done"));
    place.later(2);
    assert!(!phone.signed_in().await);
    // A form sent after that asks to sign in and keeps nothing.
    let before = place.yard.entries().unwrap().len();
    let got = phone
        .post(&format!("{}/note", place.machine()), &[("text", "late")])
        .await;
    assert!(got.to.contains("/sign-in"), "{}", got.to);
    assert_eq!(place.yard.entries().unwrap().len(), before);
}

#[tokio::test]
async fn one_sees_ones_sign_ins_and_ends_them() {
    let place = Place::new();
    let mut phone = Browser::at(&place, "192.168.1.7");
    phone.sign_in(place.operator).await;
    let mut tablet = Browser::at(&place, "192.168.1.8");
    tablet.sign_in(place.operator).await;
    let mut other = Browser::at(&place, "192.168.1.9");
    other.sign_in(place.deputy).await;
    let me = format!("{}/me", place.home());
    let page = phone.get(&me).await;
    let ends: Vec<&str> = page
        .text
        .split("action=\"")
        .filter_map(|rest| rest.split('"').next())
        .filter(|action| action.ends_with("/end"))
        .collect();
    assert_eq!(ends.len(), 1, "all but this one: {}", page.text);
    // Somebody else cannot end it, and no part of an id will do.
    assert_eq!(other.post(ends[0], &[]).await.status, StatusCode::NOT_FOUND);
    let part = format!("{me}/sign-ins/a/end");
    assert_eq!(phone.post(&part, &[]).await.status, StatusCode::NOT_FOUND);
    assert!(tablet.signed_in().await);
    assert_eq!(phone.post(ends[0], &[]).await.status, StatusCode::SEE_OTHER);
    assert!(!tablet.signed_in().await && phone.signed_in().await && other.signed_in().await);
}

#[tokio::test]
async fn a_new_pin_signs_out_everywhere() {
    let place = Place::new();
    let mut phone = Browser::at(&place, "192.168.1.7");
    phone.sign_in(place.operator).await;
    let mut here = Browser::here(&place);
    here.sign_in(place.steward).await;
    let path = format!("{}/people/{}", place.home(), place.operator);
    let got = here.post(&path, &[("pin", "4711")]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    assert!(!phone.signed_in().await);
    assert_eq!(
        phone.try_pin(place.operator, "4711").await.status,
        StatusCode::SEE_OTHER
    );
}

#[tokio::test]
async fn a_pin_is_replaced_only_at_the_yards_own_computer() {
    let place = Place::new();
    let path = format!("{}/people/{}", place.home(), place.operator);
    let link = format!("{path}/pin-link");
    let proxied = ("x-forwarded-for", "10.0.0.9".to_owned());
    let mut afar = Browser::at(&place, "192.168.1.7");
    afar.headers = vec![("host", "127.0.0.1:4720".to_owned())];
    let mut through = Browser::here(&place);
    through.headers.push(proxied);
    let mut by_name = Browser::here(&place);
    by_name.headers = vec![("host", "yard.lan".to_owned())];
    for browser in [&mut afar, &mut through, &mut by_name] {
        browser.sign_in(place.steward).await;
        let got = browser.post(&link, &[]).await;
        assert_eq!(got.status, StatusCode::FORBIDDEN);
        let got = browser.post(&path, &[("pin", "4711")]).await;
        assert_eq!(got.status, StatusCode::FORBIDDEN);
        let page = browser.get(&format!("{}/people", place.home())).await;
        assert!(!page.text.contains(&link));
    }
    let mut here = Browser::here(&place);
    here.sign_in(place.steward).await;
    let got = here.post(&link, &[]).await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    let first = got.text.split("/first/").nth(1).unwrap();
    let first = format!("{}/first/{}", place.home(), &first[..32]);
    let mut phone = Browser::at(&place, "192.168.1.9");
    let new = [("pin", "4711"), ("again", "4711")];
    assert_eq!(phone.post(&first, &new).await.to, place.home());
    assert!(phone.signed_in().await);
    let again = phone.post(&first, &new).await;
    assert_eq!(again.status, StatusCode::NOT_FOUND, "once");
}

#[tokio::test]
async fn somebody_new_gets_a_first_link_from_anywhere() {
    let place = Place::new();
    let mut steward = Browser::at(&place, "192.168.1.7");
    steward.sign_in(place.steward).await;
    let people = format!("{}/people", place.home());
    let new = [("name", "Ilse"), ("role", "operator"), ("pin", "")];
    let got = steward.post(&people, &new).await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    assert!(
        got.text.contains("http://yard.lan/y/") && got.text.contains("/first/"),
        "{}",
        got.text
    );
    assert!(got.text.contains("Ilse"));
}

#[tokio::test]
async fn cookies_are_for_the_server_alone() {
    let place = Place::new();
    for tls in [false, true] {
        let mut browser = Browser::at(&place, "192.168.1.7");
        browser.tls = tls;
        let first = browser.get(&place.home()).await.set;
        assert_eq!(first.len(), 1, "the device's: {first:?}");
        let mut set = browser.try_pin(place.operator, PIN).await.set;
        assert_eq!(set.len(), 2);
        set.extend(first);
        for cookie in &set {
            assert!(cookie.contains("; HttpOnly; SameSite=Lax"), "{cookie}");
            assert!(cookie.contains("; Path=/;") && !cookie.contains("Domain"));
            assert_eq!(cookie.starts_with("__Host-"), tls, "{cookie}");
            assert_eq!(cookie.ends_with("; Secure"), tls, "{cookie}");
        }
        assert!(browser.signed_in().await);
        // What came in the open does not count over TLS, nor the other way round.
        browser.tls = !tls;
        assert!(!browser.signed_in().await);
    }
}
