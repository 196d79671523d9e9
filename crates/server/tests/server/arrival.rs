//! Taking in a machine: by the forms, to what the pages and the verdict say.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::{
    entry::{ArrivalStep, Body, FluidNow},
    id::MachineId,
    state::{Arrived, fold_machine, fold_yard},
};

fn arrived(place: &Place) -> Option<Arrived> {
    let entries = place.yard.entries().unwrap();
    let yard = fold_yard(&entries);
    let id = MachineId::new("marigold").unwrap();
    fold_machine(&id, &entries, &yard, &quantity::Habits::default()).arrival
}

fn adopt(place: &Place, more: &str) {
    let adopted = yard::entry::BookAdopted {
        text: format!("{}\n{more}", super::fixture::BOOK),
        why: None,
    };
    place.write(place.steward, Some("marigold"), Body::BookAdopted(adopted));
}

const MORE: &str = "[[fluid]]\nid = \"final-oil\"\nname = \"Final oil\"\n\
    [[weakness]]\nid = \"ears\"\nwhat = \"Ears crack at the weld\"\n";

async fn kept(place: &Place, cookie: &str, fields: &[(&str, &str)]) {
    let path = format!("{}/arrival", place.machine());
    let got = place.post(cookie, &path, fields).await;
    assert_eq!(
        got.status,
        StatusCode::SEE_OTHER,
        "{fields:?}: {}",
        got.text
    );
}

async fn asked(place: &Place, cookie: &str, fields: &[(&str, &str)], says: &str) {
    let path = format!("{}/arrival", place.machine());
    let before = place.yard.entries().unwrap().len();
    let got = place.post(cookie, &path, fields).await;
    assert_eq!(got.status, StatusCode::OK, "{fields:?}");
    assert!(got.text.contains(says), "{fields:?}: {}", got.text);
    assert_eq!(place.yard.entries().unwrap().len(), before);
}

#[tokio::test]
async fn a_machine_is_taken_in_step_by_step() {
    let place = Place::new();
    adopt(&place, MORE);
    let deputy = place.sign_in(place.deputy).await;
    let path = format!("{}/arrival", place.machine());
    let page = place.get(&deputy, &path).await.text;
    assert!(
        page.contains("Nobody wrote down yet that it came."),
        "{page}"
    );
    assert!(page.contains("name=\"step\" value=\"came\""));
    assert!(
        !page.contains("name=\"step\" value=\"fluids\""),
        "first that it came"
    );
    let plates = [("step", "plates"), ("says", "77-4411")];
    asked(
        &place,
        &deputy,
        &plates,
        "Nobody wrote down yet that it came.",
    )
    .await;
    let came = [("step", "came"), ("says", "from a farm sale")];
    kept(&place, &deputy, &came).await;
    kept(&place, &deputy, &plates).await;
    asked(&place, &deputy, &[("step", "plates")], "What did you see?").await;
    asked(
        &place,
        &deputy,
        &[("step", "fluids"), ("f.final-oil", "")],
        "Which fluid is known now?",
    )
    .await;
    let machine = place.get(&deputy, &place.machine()).await.text;
    let unknown = "Nobody knows what is in it";
    assert!(machine.contains(unknown), "{machine}");
    kept(
        &place,
        &deputy,
        &[("step", "fluids"), ("f.final-oil", "changed")],
    )
    .await;
    let state = arrived(&place).unwrap();
    let id = yard::id::ItemId::new("final-oil").unwrap();
    assert_eq!(state.fluids_known[&id].0, FluidNow::Changed);
    for wrong in ["", "some", "-1", "10001"] {
        let fields = [("step", "fittings-first"), ("count", wrong)];
        asked(&place, &deputy, &fields, "How many fittings are there?").await;
    }
    let first = [("step", "fittings-first"), ("count", "900")];
    kept(&place, &deputy, &first).await;
    let second = [("step", "fittings-second"), ("count", "901")];
    kept(&place, &deputy, &second).await;
    let weak = [("step", "weaknesses"), ("w.ears", "left one welded")];
    kept(&place, &deputy, &weak).await;
    let page = place.get(&deputy, &path).await.text;
    for said in [
        "from a farm sale",
        "77-4411",
        "901 counted",
        "left one welded",
    ] {
        assert!(page.contains(said), "{said}: {page}");
    }
    asked(
        &place,
        &deputy,
        &[("step", "over")],
        "Something is left to do.",
    )
    .await;
    let typed = [
        ("step", "fittings-first"),
        ("count", "x"),
        ("says", "twelve, or so"),
    ];
    let again = place.post(&deputy, &path, &typed).await.text;
    assert_eq!(again.matches("value=\"twelve, or so\"").count(), 1);
    let over = [("step", "over"), ("says", "both sides next week")];
    kept(&place, &deputy, &over).await;
    let state = arrived(&place).unwrap();
    assert!(state.over.is_some());
    assert_eq!(state.counted(ArrivalStep::FittingsSecond), Some(901));
    let page = place.get(&deputy, &path).await.text;
    assert!(page.contains("It was taken in on"), "{page}");
}

#[tokio::test]
async fn an_unknown_fluid_is_named_while_it_is_taken_in_and_an_unknown_step_is_refused() {
    let place = Place::new();
    adopt(&place, MORE);
    let deputy = place.sign_in(place.deputy).await;
    kept(&place, &deputy, &[("step", "came")]).await;
    let machine = place.get(&deputy, &place.machine()).await.text;
    assert!(machine.contains("Final oil"), "{machine}");
    let path = format!("{}/arrival", place.machine());
    let got = place.post(&deputy, &path, &[("step", "sideways")]).await;
    assert_eq!(got.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn every_gap_stands_on_the_page_with_what_it_blocks_and_the_paper_is_made() {
    let place = Place::new();
    adopt(&place, MORE);
    let deputy = place.sign_in(place.deputy).await;
    let path = format!("{}/arrival", place.machine());
    let page = place.get(&deputy, &path).await.text;
    let entries = place.yard.entries().unwrap();
    let id = MachineId::new("marigold").unwrap();
    let yard = fold_yard(&entries);
    let state = fold_machine(&id, &entries, &yard, &quantity::Habits::default());
    let gaps = yard::book::gaps(&state.book().unwrap().book);
    assert!(!gaps.is_empty());
    for rank in 1..=gaps.len() {
        let place = format!("<li><b>{rank} · ");
        assert_eq!(page.matches(&place).count(), 1, "{rank}");
    }
    assert!(page.contains("The first month") && page.contains("0 of 10 rounds in a row"));
    let paper = format!("{}/papers/arrival-sheet.pdf?size=letter", place.machine());
    let got = place.get(&deputy, &paper).await;
    assert_eq!(got.status, StatusCode::OK);
}
