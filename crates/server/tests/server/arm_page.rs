//! The arm's page and the answer to a drag: four poses first, nonsense told and survived, a guess never shown as a force.

use super::fixture::Place;
use axum::http::StatusCode;
use serde_json::Value;
use words::{Words, plain_runs, visible_text};
use yard::entry::{Body, BookAdopted};

/// An invented machine with everything known of its arm.
const REFERENCE: &str = include_str!("../../../../cases/arm/reference-machine-book.toml");
const MACHINE: &str = "reference-machine";

/// A yard in which this book was adopted for the machine.
fn with(place: Place, text: &str) -> Place {
    let adopted = BookAdopted {
        text: text.to_owned(),
        why: None,
    };
    place.write(place.steward, Some(MACHINE), Body::BookAdopted(adopted));
    place
}

fn reference() -> Place {
    with(Place::new(), REFERENCE)
}

fn arm(place: &Place) -> String {
    format!("{}/m/{MACHINE}/arm", place.home())
}

async fn page(place: &Place, asked: &str) -> String {
    let got = place.get("", &format!("{}{asked}", arm(place))).await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    got.text
}

/// The answer to a drag.
async fn pose(place: &Place, asked: &str) -> Value {
    let got = place.get("", &format!("{}/pose?{asked}", arm(place))).await;
    assert_eq!(got.status, StatusCode::OK, "{asked}: {}", got.text);
    serde_json::from_str(&got.text).unwrap()
}

fn out(pose: &Value) -> [f64; 3] {
    [0, 1, 2].map(|ram| pose["out"][ram].as_f64().unwrap())
}

fn tooth(pose: &Value) -> [f64; 2] {
    [0, 1].map(|at| pose["tooth"][at].as_f64().unwrap())
}

fn said(pose: &Value) -> String {
    let now = [0, 1].map(|at| pose["now"][at].as_str().unwrap().to_owned());
    format!(
        "{} {}",
        now.join(" "),
        visible_text(pose["lines"].as_str().unwrap())
    )
}

/// The third of the percentages of the reference table's pose 0: rams 1.29, 1.2045 and 0.96554 m long.
const POSE_0: &str = "boom=50&dipper=34&bucket=21.2";

#[tokio::test]
async fn four_poses_come_before_anything_that_moves() {
    let place = reference();
    let page = page(&place, "").await;
    let at = |what: &str| page.find(what).unwrap_or_else(|| panic!("{what}"));
    assert_eq!(page.matches("Use this").count(), 2);
    assert_eq!(page.matches("Avoid this").count(), 2);
    assert!(at("Four poses to know") < at("Move the arm"));
    assert!(at("Never strike or sweep with the swing.") < at("Move the arm"));
    assert!(page.contains("Live until bled and gauged."));
    // Without scripts there is a form with numbers and a button.
    assert!(page.contains("<form method=\"get\"") && page.contains("name=\"boom\""));
    assert!(!page.contains("style="));
}

#[tokio::test]
async fn a_pose_says_what_governs_and_never_the_lever_alone() {
    let place = reference();
    // The tables beside the book: this pose curls with 26.72 kN, and sliding governs; the lever alone would promise more.
    let answer = pose(&place, &format!("{POSE_0}&way=curl")).await;
    let [r, z] = tooth(&answer);
    assert!(
        (r - 4.203).abs() < 0.01 && (z + 0.326).abs() < 0.01,
        "{r} {z}"
    );
    let lines = said(&answer);
    assert!(
        lines.contains("Curling the bucket: up to 26.7 kN"),
        "{lines}"
    );
    assert!(lines.contains("The machine slides first."), "{lines}");
    assert!(!answer["arm"].as_str().unwrap().contains("style="));
    assert!(answer.get("map").is_none());
    let with_map = pose(&place, &format!("{POSE_0}&way=curl&map=1")).await;
    assert!(with_map["map"].as_str().unwrap().matches("<circle").count() > 100);
    // Held down it is the rams' own limit, and that is more.
    let held = said(&pose(&place, &format!("{POSE_0}&way=curl&on=held-down")).await);
    assert!(
        held.contains("gives out first") || held.contains("gives way first"),
        "{held}"
    );
}

#[tokio::test]
async fn the_tooth_goes_where_it_is_dragged_and_no_further_than_it_can() {
    let place = reference();
    let from = pose(&place, POSE_0).await;
    let there = pose(&place, &format!("{POSE_0}&r=3.9&z=-0.5")).await;
    let [r, z] = tooth(&there);
    assert!(
        (r - 3.9).abs() < 0.002 && (z + 0.5).abs() < 0.002,
        "{r} {z}"
    );
    assert_eq!(out(&there)[2], out(&from)[2], "the bucket stays as it was");
    assert!(!said(&there).contains("As far as it goes"));
    let beyond = pose(&place, &format!("{POSE_0}&r=9&z=0.2")).await;
    assert!(
        said(&beyond).contains("As far as it goes"),
        "{}",
        said(&beyond)
    );
    assert!(tooth(&beyond)[0] > r, "it stretches towards the finger");
    for share in out(&beyond) {
        assert!((0.0..=100.0).contains(&share), "{share}");
    }
}

#[tokio::test]
async fn nonsense_is_told_and_survived() {
    let place = reference();
    for asked in [
        "boom=x&dipper=50&bucket=50",
        "boom=-1&dipper=50&bucket=50",
        "boom=NaN&dipper=50&bucket=50",
        "boom=1e999&dipper=50&bucket=50",
        "boom=50",
        "boom=50&dipper=101&bucket=50",
    ] {
        let answer = pose(&place, asked).await;
        assert!(
            said(&answer).contains("not a number from 0 to 100"),
            "{asked}"
        );
        assert!(out(&answer).iter().all(|out| out.is_finite()), "{asked}");
    }
    for asked in [
        "r=nan&z=1",
        "r=1e400&z=1",
        "r=0.24&z=0.66",
        "way=sideways&on=stilts",
        "boom=50,5&dipper=50&bucket=50",
        "boom=0&dipper=0&bucket=0",
        "boom=100&dipper=100&bucket=100",
    ] {
        let answer = pose(&place, asked).await;
        assert!(out(&answer).iter().all(|out| out.is_finite()), "{asked}");
        page(&place, &format!("?{asked}")).await;
    }
}

#[tokio::test]
async fn a_blanks_guess_is_said_first_and_gives_no_force() {
    let guessed = REFERENCE.replacen("known = \"drawing\"", "known = \"guess\"", 1);
    assert_ne!(guessed, REFERENCE);
    let place = with(Place::new(), &guessed);
    let page = page(&place, "").await;
    let first = page.find("rest on a blank&#39;s first guess");
    let first = first
        .or_else(|| page.find("rest on a blank's first guess"))
        .unwrap();
    assert!(first < page.find("Four poses to know").unwrap());
    let main = visible_text(page.split("<main").nth(1).unwrap());
    assert!(!main.contains(" kN"), "{main}");
    assert!(!said(&pose(&place, POSE_0).await).contains(" kN"));
    let figure = format!("{}/figure?{POSE_0}", arm(&place));
    assert_eq!(place.get("", &figure).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_is_missing_is_named_with_how_one_comes_by_it() {
    // Without one pin there is no shape: nothing to move, and the page says which pin.
    let pin = REFERENCE.find("[[pin]]").unwrap();
    let next = REFERENCE[pin + 7..].find("[[pin]]").unwrap() + pin + 7;
    let without = format!("{}{}", &REFERENCE[..pin], &REFERENCE[next..]);
    let place = with(Place::new(), &without);
    let text = visible_text(&page(&place, "").await);
    assert!(text.contains("place of the boom foot pin"), "{text}");
    assert!(text.contains("by measuring it"), "{text}");
    assert!(!text.contains("Move the arm"));
    assert!(text.contains("The pins and their names") && text.contains("A sketch of a usual arm"));
    let got = place
        .get("", &format!("{}/pose?{POSE_0}", arm(&place)))
        .await;
    assert_eq!(got.status, StatusCode::NOT_FOUND);
    // Without a weight there is a shape and a pose, and no force.
    let mass = REFERENCE.find("[[mass]]").unwrap();
    let after = REFERENCE[mass + 8..].find("[[").unwrap() + mass + 8;
    let light = format!("{}{}", &REFERENCE[..mass], &REFERENCE[after..]);
    let place = with(Place::new(), &light);
    let text = visible_text(&page(&place, "").await);
    assert!(
        text.contains("Move the arm") && text.contains("weight of the"),
        "{text}"
    );
    assert!(text.contains("One of the four cannot be picked."), "{text}");
    assert!(said(&pose(&place, POSE_0).await).contains("the force is not known"));
}

#[tokio::test]
async fn it_is_no_lifting_machine_until_its_book_says_so() {
    let recorded = reference();
    assert!(
        !page(&recorded, "")
            .await
            .contains("This is not a lifting machine.")
    );
    let table = REFERENCE.find("[lifting]").unwrap();
    let after = REFERENCE[table + 1..].find("\n[").unwrap() + table + 1;
    let without = format!("{}{}", &REFERENCE[..table], &REFERENCE[after..]);
    let text = page(&with(Place::new(), &without), "").await;
    assert!(text.contains("This is not a lifting machine."), "{text}");
}

#[tokio::test]
async fn a_machine_without_an_arm_says_so_and_has_no_link() {
    let bare = "kingpost = 1\n[machine]\nid = \"reference-machine\"\nname = \"Saw\"\nkind = \"chainsaw\"\n";
    let place = with(Place::new(), bare);
    let text = visible_text(&page(&place, "").await);
    assert!(
        text.contains("What is missing") || text.contains("no arm"),
        "{text}"
    );
    let machine = place
        .get("", &format!("{}/m/{MACHINE}", place.home()))
        .await;
    assert!(!machine.text.contains("/arm\""));
    let full = reference();
    let machine = full.get("", &format!("{}/m/{MACHINE}", full.home())).await;
    assert!(machine.text.contains("/arm\"") && machine.text.contains("survey-sheet.pdf"));
}

#[tokio::test]
async fn handing_over_leads_to_how_it_is_parked() {
    let place = reference();
    let signed = place.sign_in(place.steward).await;
    let handover = format!("{}/m/{MACHINE}/handover", place.home());
    let got = place.get(&signed, &handover).await;
    assert!(
        got.text.contains(&format!("{}#parked", arm(&place))),
        "{}",
        got.text
    );
    assert!(page(&place, "").await.contains("id=\"parked\""));
}

#[tokio::test]
async fn the_figure_opens_and_its_papers_are_made() {
    let place = reference();
    let figure = format!("{}/figure?{POSE_0}&way=curl", arm(&place));
    let got = place.get("", &figure).await;
    assert_eq!(got.status, StatusCode::OK, "{}", got.text);
    let text = visible_text(&got.text);
    assert!(text.contains("26.7") && text.contains("ISO 6015"), "{text}");
    assert!(text.contains("numbers of the machine book"), "{text}");
    for paper in ["arm-sheet", "survey-sheet", "teaching-strips"] {
        let file = format!("{}/m/{MACHINE}/papers/{paper}.pdf", place.home());
        let got = place.get("", &file).await;
        assert_eq!(got.status, StatusCode::OK, "{paper}");
        assert!(got.text.starts_with("%PDF"), "{paper}");
    }
}

#[tokio::test]
async fn no_sentence_of_the_page_bypasses_words() {
    let place = with(Place::speaking(Words::pseudo()), REFERENCE);
    let text = page(&place, "").await;
    let own = [
        "Reference machine (invented)",
        "Reference",
        "machine",
        "invented",
        "Invented",
        "yard",
    ];
    // Units are the same in every language.
    let units = ["kN", "lbf", "bar", "psi", "mm", "ft", "in", "m"];
    let allowed: Vec<&str> = own.iter().chain(&units).copied().collect();
    let found = plain_runs(&visible_text(&text), &allowed);
    assert!(found.is_empty(), "{found:?}");
}
