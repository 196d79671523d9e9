//! Every blank's machine on the pages: all of them open, and none speaks of what the machine has not.

use super::fixture::Place;
use quantity::Habits;
use words::Words;
use yard::{
    book::{Book, Without, read},
    entry::{Body, BookAdopted},
};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../blanks");

/// What is said only of a machine that has it.
const SAID_OF: [(Without, &[&str]); 4] = [
    (
        Without::Engine,
        &["caution-engine-off", "engine-off", "engine-working"],
    ),
    (Without::Starter, &["engine-off", "safeguard-key-out"]),
    (Without::SeatBelt, &["caution-seat", "safeguard-belt-on"]),
    (Without::Rams, &["caution-pressure"]),
];

/// Each page of the round, of leaving it and of the pocket.
const PAGES: [&str; 5] = ["", "/round?list=1", "/handover", "/pocket", "/service"];

fn blanks() -> Vec<(String, Book)> {
    let files = std::fs::read_dir(FOLDER).unwrap();
    let read = |path: std::path::PathBuf| {
        let text = std::fs::read_to_string(path).unwrap();
        let book = read(&text, &Habits::default()).book.unwrap();
        (text, book)
    };
    let toml = files
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"));
    toml.map(read).collect()
}

/// As a page shows it, in small letters; what an engine does stands before the pose. A load's own engine may well be spoken of.
fn shown(words: &Words, key: &str) -> String {
    let said = words.text(key).to_lowercase();
    if key.starts_with("engine-") {
        format!("{said} · ")
    } else {
        said
    }
}

#[tokio::test]
async fn no_page_speaks_of_what_the_machine_has_not() {
    let (place, words) = (Place::new(), Words::english());
    let mut seen_without = 0;
    for (text, book) in blanks() {
        let id = book.machine.id.to_string();
        place.write(
            place.steward,
            Some(&id),
            Body::BookAdopted(BookAdopted { text, why: None }),
        );
        let cookie = place.sign_in(place.steward).await;
        for page in PAGES {
            let page = format!("{}/m/{id}{page}", place.home());
            let got = place.get(&cookie, &page).await;
            assert!(got.status.is_success(), "{page}: {}", got.status);
            for (what, keys) in SAID_OF.iter().filter(|(what, _)| book.lacks(*what)) {
                seen_without += 1;
                for said in keys.iter().map(|key| shown(&words, key)) {
                    let says = got.text.to_lowercase().contains(&said);
                    assert!(!says, "{page} has no {what:?} and says: {said}");
                }
            }
        }
    }
    assert!(seen_without > 0);
}

/// The other way round: a loader-backhoe is spoken of with its seat, its key and its oil.
#[tokio::test]
async fn a_loader_backhoe_is_spoken_of_with_all_it_has() {
    let (place, words) = (Place::new(), Words::english());
    let cookie = place.sign_in(place.steward).await;
    let pocket = format!("{}/pocket", place.machine());
    let pocket = place.get(&cookie, &pocket).await.text.to_lowercase();
    for (_, keys) in SAID_OF {
        let keys = keys.iter().filter(|key| **key != "caution-engine-off");
        for said in keys.map(|key| shown(&words, key)) {
            assert!(pocket.contains(&said), "{said}");
        }
    }
}
