//! Work beside the rounds: greasing, parts fitted, things bought, lessons.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    entry::Body,
    id::ItemId,
    state::{MachineState, YardState, fold_machine, fold_yard},
};

const JOINT: &str = "grease-loader-arm-left";

fn states(place: &Place) -> (YardState, MachineState) {
    let entries = place.yard.entries().unwrap();
    let yard = fold_yard(&entries);
    let machine = yard.machines[0].clone();
    let machine = fold_machine(&machine, &entries, &yard, &quantity::Habits::default());
    (yard, machine)
}

fn last(place: &Place) -> Body {
    place.yard.entries().unwrap().pop().unwrap().body
}

/// The form is shown, and comes back with what is missing where it is sent empty: nothing is written.
async fn asks_back(place: &Place, cookie: &str, path: &str, key: &str) {
    assert_eq!(place.get(cookie, path).await.status, StatusCode::OK);
    let before = place.yard.entries().unwrap().len();
    let got = place.post(cookie, path, &[]).await;
    assert_eq!(got.status, StatusCode::OK);
    let told = words::Words::english().text(key);
    assert!(got.text.contains(&told), "{told}: {}", got.text);
    assert_eq!(place.yard.entries().unwrap().len(), before, "{path}");
}

#[tokio::test]
async fn a_joint_that_takes_grease_again_closes_its_refusal_and_no_other() {
    let place = Place::new();
    let path = format!("{}/greasing", place.machine());
    let operator = place.sign_in(place.operator).await;
    asks_back(&place, &operator, &path, "ask-greasing").await;
    let (here, there) = (format!("a.{JOINT}"), "a.grease-loader-arm-right");
    let both = [(here.as_str(), "refused"), (there, "refused")];
    let got = place.post(&operator, &path, &both).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    assert_eq!(states(&place).1.findings.len(), 2);
    place.later(30);
    for (took, open) in [("refused", 2), ("seen", 1)] {
        let got = place.post(&operator, &path, &[(&here, took)]).await;
        assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
        let Body::Greasing(greasing) = last(&place) else {
            panic!("{:?}", last(&place))
        };
        assert_eq!(greasing.fittings.len(), 1, "only what was answered");
        let findings = states(&place).1.findings;
        let mut joints: Vec<_> = findings
            .values()
            .filter(|finding| finding.mended.is_empty())
            .filter_map(|finding| finding.id.point.as_ref())
            .collect();
        joints.sort();
        joints.dedup();
        assert_eq!(joints.len(), open, "{took}: {joints:?}");
    }
}

#[tokio::test]
async fn a_part_of_the_book_needs_no_words_and_begins_closer_checks() {
    let place = Place::new();
    let path = format!("{}/part", place.machine());
    let operator = place.sign_in(place.operator).await;
    asks_back(&place, &operator, &path, "ask-part").await;
    let belt = [("part", "fan-belt"), ("event", "frame-bolts-set")];
    let got = place.post(&operator, &path, &belt).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let Body::PartFitted(fitted) = last(&place) else {
        panic!("{:?}", last(&place))
    };
    assert_eq!(fitted.what, "Fan belt");
    assert_eq!(fitted.point.unwrap().as_str(), "fan-belt");
    let event = ItemId::new("frame-bolts-set").unwrap();
    assert!(states(&place).1.events.contains_key(&event));
    // A part that the book does not know is kept in its own words; so is none of the book's events.
    let own = [("what", "seat cushion"), ("event", "new-moon")];
    place.post(&operator, &path, &own).await;
    let Body::PartFitted(fitted) = last(&place) else {
        panic!("{:?}", last(&place))
    };
    assert_eq!((fitted.what.as_str(), fitted.event), ("seat cushion", None));
}

#[tokio::test]
async fn a_lesson_is_kept_with_the_learner_and_lets_nobody_run() {
    let place = Place::new();
    let path = format!("{}/lesson", place.machine());
    let deputy = place.sign_in(place.deputy).await;
    asks_back(&place, &deputy, &path, "ask-lesson-who").await;
    let before = states(&place).1.sign_offs;
    let (learner, visitor) = (place.learner.to_string(), place.visitor.to_string());
    for wrong in [
        [("person", visitor.as_str()), ("what", "levers")],
        [("person", &learner), ("what", " ")],
    ] {
        let got = place.post(&deputy, &path, &wrong).await;
        assert_eq!(got.status, StatusCode::OK, "{wrong:?}");
    }
    let right = [("person", learner.as_str()), ("what", "reading levels")];
    let got = place.post(&deputy, &path, &right).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let (yard, machine) = states(&place);
    let lessons = &yard.people[&place.learner].lessons;
    assert_eq!(lessons.len(), 1);
    assert_eq!(lessons[0].1, "reading levels");
    assert_eq!(machine.sign_offs, before);
}

#[tokio::test]
async fn what_was_bought_stands_in_the_journal_with_its_cost() {
    let place = Place::new();
    let path = format!("{}/purchase", place.machine());
    let steward = place.sign_in(place.steward).await;
    asks_back(&place, &steward, &path, "ask-purchase").await;
    let grease = [("what", "twelve cartridges of grease"), ("cost", "EUR 71")];
    let got = place.post(&steward, &path, &grease).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let journal = format!("{}/journal", place.machine());
    let page = place.get(&steward, &journal).await.text;
    assert!(page.contains("twelve cartridges of grease") && page.contains("EUR 71"));
}
