//! What is kept about somebody: seen, downloaded, and the name erased.

use super::{
    browser::Browser,
    fixture::{PIN, Place},
};
use axum::http::StatusCode;
use yard::entry::{AccessWhat, Body};

#[tokio::test]
async fn one_sees_and_downloads_what_is_kept() {
    let place = Place::new();
    let mut phone = Browser::at(&place, "192.168.1.7");
    phone.try_pin(place.operator, "0000").await;
    phone.sign_in(place.operator).await;
    let me = format!("{}/me", place.home());
    let page = phone.get(&me).await;
    for part in ["Tamsin", "operator, given by Odalys", "May run it alone"] {
        assert!(page.text.contains(part), "{part}: {}", page.text);
    }
    let got = phone.get(&format!("{me}/data.json")).await;
    let data: serde_json::Value = serde_json::from_str(&got.text).unwrap();
    assert_eq!(data["name"], "Tamsin");
    assert_eq!(data["has_pin"], true);
    assert_eq!(data["sign_offs"][0]["machine"], "marigold");
    assert_eq!(data["roles"][0]["role"], "operator");
    assert_eq!(data["entries_naming"].as_array().unwrap().len(), 2);
    assert!(!got.text.contains("argon2") && !got.text.contains("Odalys"));
}

#[tokio::test]
async fn ones_name_is_erased_with_ones_pin_and_entries_stay() {
    let place = Place::new();
    let mut phone = Browser::at(&place, "192.168.1.7");
    phone.sign_in(place.operator).await;
    phone
        .post(&format!("{}/note", place.machine()), &[("text", "oiled")])
        .await;
    let entries = place.yard.entries().unwrap().len();
    let erase = format!("{}/me/erase", place.home());
    let got = phone.post(&erase, &[("pin", "0000")]).await;
    assert_eq!(got.status, StatusCode::OK);
    assert!(got.text.contains("not the right one"), "{}", got.text);
    assert!(phone.signed_in().await);
    let got = phone.post(&erase, &[("pin", PIN)]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER);
    assert!(!phone.signed_in().await);
    let all = place.yard.entries().unwrap();
    assert_eq!(all.len(), entries + 1);
    let Body::Access(access) = &all.last().unwrap().body else {
        panic!("{all:?}");
    };
    assert_eq!(access.what, AccessWhat::NameErased);
    assert_eq!(access.of, Some(place.operator));
    let id = place.operator.to_string();
    let short = format!("…{}", &id[id.len() - 4..]);
    let mut steward = Browser::at(&place, "192.168.1.8");
    steward.sign_in(place.steward).await;
    for path in ["journal", "people", "m/marigold", "m/marigold/sign-offs"] {
        let page = steward.get(&format!("{}/{path}", place.home())).await;
        assert!(!page.text.contains("Tamsin"), "{path}");
        assert!(path != "journal" || page.text.contains(&short), "{path}");
    }
    let got = phone.try_pin(place.operator, PIN).await;
    assert!(got.text.contains("not the right one"), "{}", got.text);
}

#[tokio::test]
async fn the_last_steward_stays_and_erases_others_with_their_own_pin() {
    let place = Place::new();
    let mut steward = Browser::at(&place, "192.168.1.8");
    steward.sign_in(place.steward).await;
    let own = format!("{}/me/erase", place.home());
    let got = steward.post(&own, &[("pin", PIN)]).await;
    assert!(
        got.text.contains("You are the only steward"),
        "{}",
        got.text
    );
    let of = |who| format!("{}/people/{who}/erase", place.home());
    let got = steward.post(&of(place.steward), &[("pin", PIN)]).await;
    assert!(got.text.contains("only steward"), "{}", got.text);
    let got = steward.post(&of(place.operator), &[("pin", "0000")]).await;
    assert!(got.text.contains("not the right one"), "{}", got.text);
    assert!(
        place
            .yard
            .person(place.operator)
            .unwrap()
            .unwrap()
            .name
            .is_some()
    );
    let got = steward.post(&of(place.operator), &[("pin", PIN)]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let gone = place.yard.person(place.operator).unwrap().unwrap();
    assert!(gone.name.is_none() && gone.pin_hash.is_none() && !gone.active);
}
