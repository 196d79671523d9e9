//! A learner's run begins with the PIN of whoever has them in sight, typed on that device; without it nothing is written.

use super::{
    fixture::{Got, PIN, Place},
    loop_of_a_round::{demo, walk},
};
use axum::http::StatusCode;
use std::collections::BTreeMap;
use yard::{
    entry::{Body, RoleGiven, Run, RunPart},
    id::{MachineId, PersonId},
    people::Role,
};

/// The learner's browser, after a round of their own.
async fn walked(place: &Place) -> String {
    let cookie = place.sign_in(place.learner).await;
    walk(place, &cookie, &demo(), &BTreeMap::new()).await;
    let close = format!("{}/round/close", place.machine());
    let closed = place.post(&cookie, &close, &[("hours", "812.3")]).await;
    assert_eq!(closed.status, StatusCode::SEE_OTHER, "{}", closed.text);
    cookie
}

async fn start(place: &Place, cookie: &str, leader: &str, pin: &str) -> Got {
    let path = format!("{}/run", place.machine());
    let fields = [("work", "drain"), ("sight", leader), ("pin", pin)];
    place.post(cookie, &path, &fields).await
}

fn runs(place: &Place) -> Vec<Run> {
    let entries = place.yard.entries().unwrap().into_iter();
    entries
        .filter_map(|entry| match entry.body {
            Body::Run(run) => Some(run),
            _ => None,
        })
        .collect()
}

fn give(place: &Place, person: PersonId, machine: &str) {
    let given = RoleGiven {
        person,
        role: Some(Role::Deputy),
        machines: vec![MachineId::new(machine).unwrap()],
    };
    place.write(place.steward, None, Body::RoleGiven(given));
}

#[tokio::test]
async fn the_leaders_word_is_their_pin_here() {
    let place = Place::new();
    let cookie = walked(&place).await;
    let form = place
        .get(&cookie, &format!("{}/run", place.machine()))
        .await;
    assert!(form.text.contains("name=\"pin\"") && form.text.contains("type=\"password\""));
    assert!(form.text.contains("<span>Odalys</span>") && form.text.contains("<span>Bram</span>"));
    assert!(!form.text.contains("<span>Jory</span>") && !form.text.contains("<span>Tamsin</span>"));
    let steward = place.steward.to_string();
    let got = start(&place, &cookie, &steward, PIN).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let written = runs(&place);
    assert_eq!(written.len(), 1);
    assert_eq!(written[0].part, RunPart::Start);
    assert_eq!(written[0].in_sight_of, Some(place.steward));
    // Ending it needs nobody's word, and claims none.
    let end = format!("{}/run/end", place.machine());
    place.later(30);
    let ended = place.post(&cookie, &end, &[("sight", &*steward)]).await;
    assert_eq!(ended.status, StatusCode::SEE_OTHER, "{}", ended.text);
    assert_eq!(runs(&place)[1].in_sight_of, None);
}

#[tokio::test]
async fn without_it_nothing_is_written() {
    let place = Place::new();
    let cookie = walked(&place).await;
    let (steward, learner) = (place.steward.to_string(), place.learner.to_string());
    let (operator, visitor) = (place.operator.to_string(), place.visitor.to_string());
    give(&place, place.visitor, "other-machine");
    let seq = place.yard.tip().unwrap().seq;
    for (leader, pin, says) in [
        (
            "",
            "",
            "A learner runs with the steward or the deputy in sight",
        ),
        (
            "nobody",
            PIN,
            "A learner runs with the steward or the deputy in sight",
        ),
        (&*learner, PIN, "You cannot have yourself in sight"),
        (
            &*operator,
            PIN,
            "Tamsin may not do that for this machine now",
        ),
        (&*visitor, PIN, "Vesna may not do that for this machine now"),
        (&*steward, "", "The PIN of Odalys is missing"),
        (&*steward, "0000", "That PIN is not the right one"),
    ] {
        let got = start(&place, &cookie, leader, pin).await;
        assert_eq!(got.status, StatusCode::OK, "{leader}");
        assert!(got.text.contains(says), "{says}: {}", got.text);
        // The learner's other words come back; a PIN never does.
        assert!(got.text.contains("value=\"drain\"") && !got.text.contains("value=\"0000\""));
        assert_eq!(place.yard.tip().unwrap().seq, seq, "{says}");
    }
    // As deputy of this very machine it is theirs to say.
    give(&place, place.visitor, "marigold");
    let got = start(&place, &cookie, &visitor, PIN).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    assert_eq!(runs(&place)[0].in_sight_of, Some(place.visitor));
}

#[tokio::test]
async fn wrong_pins_count_against_the_leader_as_at_the_sign_in() {
    let place = Place::new();
    let cookie = walked(&place).await;
    let steward = place.steward.to_string();
    for _ in 0..3 {
        let got = start(&place, &cookie, &steward, "0000").await;
        assert!(
            got.text.contains("That PIN is not the right one"),
            "{}",
            got.text
        );
    }
    // The right one is not looked at now, neither here nor at the sign-in.
    let got = start(&place, &cookie, &steward, PIN).await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS, "{}", got.text);
    assert!(got.text.contains("Too many wrong tries"));
    let sign_in = format!("{}/sign-in", place.home());
    let fields = [("person", &*steward), ("pin", PIN)];
    let got = place.post("", &sign_in, &fields).await;
    assert_eq!(got.status, StatusCode::TOO_MANY_REQUESTS, "{}", got.text);
    assert!(runs(&place).is_empty());
    place.later(11);
    let got = start(&place, &cookie, &steward, PIN).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
}

#[tokio::test]
async fn nobody_claims_it_without_a_pin_not_even_who_needs_none() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    walk(&place, &cookie, &demo(), &BTreeMap::new()).await;
    let close = format!("{}/round/close", place.machine());
    place.post(&cookie, &close, &[("hours", "812.3")]).await;
    let got = start(&place, &cookie, &place.steward.to_string(), "").await;
    assert!(
        got.text.contains("The PIN of Odalys is missing"),
        "{}",
        got.text
    );
    assert!(runs(&place).is_empty());
    let got = start(&place, &cookie, "", "").await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    assert_eq!(runs(&place)[0].in_sight_of, None);
}
