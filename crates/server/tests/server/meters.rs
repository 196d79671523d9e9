//! Pages of the hour meters: several on one machine, one said to be broken and settled, none at all.

use super::fixture::{BOOK, Place};
use axum::http::StatusCode;
use yard::{
    entry::{Body, BookAdopted},
    state::{MachineState, fold_machine, fold_yard},
    upkeep,
};

/// The demo machine's book with its meter said otherwise.
fn adopt(place: &Place, meters: &str) {
    let (before, rest) = BOOK.split_once("[meter]").unwrap();
    let (_, after) = rest.split_once("\n[").unwrap();
    let body = Body::BookAdopted(BookAdopted {
        text: format!("{before}{meters}\n[{after}"),
        why: None,
    });
    let machine = place.machine();
    let (_, id) = machine.rsplit_once('/').unwrap();
    place.write(place.steward, Some(id), body);
}

fn folded(place: &Place) -> MachineState {
    let machine = place.machine();
    let (_, id) = machine.rsplit_once('/').unwrap();
    let entries = place.yard.entries().unwrap();
    let id = yard::id::MachineId::new(id).unwrap();
    fold_machine(
        &id,
        &entries,
        &fold_yard(&entries),
        &quantity::Habits::default(),
    )
}

const TWO: &str = "[meter]\nkind = \"running\"\n\n[[further-meter]]\nid = \"dash-clock\"\nname = \"dash clock\"\nkind = \"key-on\"\n";

#[tokio::test]
async fn several_meters_are_read_on_one_page_and_at_the_end_of_a_run() {
    let place = Place::new();
    adopt(&place, TWO);
    let operator = place.sign_in(place.operator).await;
    let hours = format!("{}/hours", place.machine());
    let page = place.get(&operator, &hours).await;
    for field in ["name=\"shows\"", "name=\"m.dash-clock\"", "name=\"since\""] {
        assert!(page.text.contains(field), "{field}: {}", page.text);
    }
    assert!(!page.text.contains("name=\"ran\""), "the meter counts");
    let read = [
        ("what", "read"),
        ("shows", "700.4"),
        ("m.dash-clock", "910.2"),
    ];
    let got = place.post(&operator, &hours, &read).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    place.later(60);
    let end = format!("{}/run/end", place.machine());
    let ended = [("hours", "701.0"), ("m.dash-clock", "911.0")];
    let got = place.post(&operator, &end, &ended).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let shown = upkeep::hours_shown(&folded(&place));
    let lives: Vec<f64> = shown
        .iter()
        .map(|meter| meter.life.as_ref().unwrap().hours.to_f64())
        .collect();
    assert_eq!(lives, [701.0, 911.0]);
    let page = place.get(&operator, &hours).await;
    assert!(page.text.contains("dash clock") || page.text.contains("Dash clock"));
    assert!(page.text.contains("<svg"), "one line of hours");
    for figure in ["meter-0", "meter-1"] {
        let opened = place
            .get(&operator, &format!("{}/figure/{figure}", place.machine()))
            .await;
        assert_eq!(opened.status, StatusCode::OK, "{figure}");
    }
}

#[tokio::test]
async fn a_broken_meter_is_told_by_the_operator_and_settled_by_the_steward() {
    let place = Place::new();
    adopt(&place, TWO);
    let (operator, steward) = (
        place.sign_in(place.operator).await,
        place.sign_in(place.steward).await,
    );
    let hours = format!("{}/hours", place.machine());
    place
        .post(&operator, &hours, &[("what", "read"), ("shows", "700.4")])
        .await;
    place.later(60);
    let without_why = [("what", "broken"), ("why", "")];
    assert_eq!(
        place.post(&operator, &hours, &without_why).await.status,
        StatusCode::OK
    );
    let said = [("what", "broken"), ("why", "sticks on a 9")];
    let got = place.post(&operator, &hours, &said).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let state = folded(&place);
    let entry = *state.questions.keys().next().unwrap();
    let questions = format!("{}/questions", place.home());
    let asked = place.get(&steward, &questions).await;
    assert!(asked.text.contains("value=\"is-broken\""), "{}", asked.text);
    let settled = [("says", "is-broken"), ("why", "looked at it")];
    place
        .post(&steward, &format!("{questions}/{entry}"), &settled)
        .await;
    assert!(folded(&place).questions.is_empty());
    // From now on hours are told, on this page and at handover.
    let page = place.get(&operator, &hours).await;
    assert!(page.text.contains("name=\"ran\""), "{}", page.text);
    place.later(300);
    let told = [("what", "read"), ("ran", "3 h ± 1 h")];
    let got = place.post(&operator, &hours, &told).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let life = upkeep::life_hours(&folded(&place)).unwrap();
    assert_eq!(
        (life.hours.to_f64(), life.plus_minus.to_f64()),
        (703.4, 1.0)
    );
}

#[tokio::test]
async fn a_machine_without_a_meter_is_never_asked_for_a_reading() {
    let place = Place::new();
    adopt(&place, "[meter]\nkind = \"none\"\n");
    let operator = place.sign_in(place.operator).await;
    for page in ["round", "run", "run/end", "handover", "hours"] {
        let got = place
            .get(&operator, &format!("{}/{page}", place.machine()))
            .await;
        assert_eq!(got.status, StatusCode::OK, "{page}");
        for field in ["name=\"hours\"", "name=\"shows\"", "name=\"new\""] {
            assert!(!got.text.contains(field), "{page} asks for a reading");
        }
    }
    let end = format!("{}/run/end", place.machine());
    let got = place.post(&operator, &end, &[("ran", "2 h ± 0.5 h")]).await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let life = upkeep::life_hours(&folded(&place)).unwrap();
    assert_eq!((life.hours.to_f64(), life.plus_minus.to_f64()), (2.0, 0.5));
}
