//! Every page answers, and in the made-up language no sentence bypasses `words`.

use super::fixture::{BOOK, Place};
use axum::http::StatusCode;
use std::collections::BTreeSet;
use words::{Words, plain_runs, visible_text};

/// Follows every link of our own from the yard page, signed in as the steward; gives path and text.
async fn crawl(place: &Place) -> Vec<(String, String)> {
    let cookie = place.sign_in(place.steward).await;
    let mut waiting = vec![
        place.home(),
        format!("{}/sign-in", place.home()),
        format!("{}/nowhere", place.home()),
    ];
    let (mut seen, mut pages) = (BTreeSet::new(), Vec::new());
    while let Some(path) = waiting.pop() {
        if !seen.insert(path.clone()) || seen.len() > 400 {
            continue;
        }
        let got = place.get(&cookie, &path).await;
        if got.status == StatusCode::SEE_OTHER {
            waiting.push(got.to);
            continue;
        }
        let expected = if path.ends_with("/nowhere") {
            StatusCode::NOT_FOUND
        } else {
            StatusCode::OK
        };
        assert_eq!(got.status, expected, "{path}: {}", got.text);
        let data = [".pdf", ".json", ".webmanifest", "/photos/"];
        if data.iter().any(|kind| path.contains(kind)) || path.starts_with("/static") {
            continue;
        }
        let links = got
            .text
            .split("href=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next());
        waiting.extend(
            links
                .filter(|l| l.starts_with('/'))
                .map(|l| l.replace("&#38;", "&").replace("&amp;", "&")),
        );
        pages.push((path, got.text));
    }
    pages
}

#[tokio::test]
async fn every_page_answers() {
    let place = Place::new();
    let pages = crawl(&place).await;
    assert!(pages.len() > 60, "only {} pages found", pages.len());
    for (path, text) in &pages {
        // Scripts only as files of our own.
        let text = text.replace("<script type=\"module\" src=\"/static/", "");
        assert!(
            !text.contains("style=\"")
                && !text.contains("<script")
                && !text.contains("http://") | text.contains("http://www.w3.org/2000/svg"),
            "{path}"
        );
        assert!(!text.contains('⟦'), "{path}: a sentence is missing");
    }
}

#[tokio::test]
async fn no_sentence_bypasses_words() {
    let place = Place::speaking(Words::pseudo());
    let pages = crawl(&place).await;
    // What the book says is the steward's own words, and so are names and ids.
    let mut own: Vec<String> = BOOK
        .split(|c: char| !c.is_alphabetic())
        .map(str::to_owned)
        .collect();
    own.extend(
        [
            "Odalys", "Bram", "Tamsin", "Jory", "Vesna", "Invented", "yard", "marigold", "toml",
            "kingpost", "serve", "https", "papers", "trust", "pdf", "in", "mm", "cm", "US", "gal",
            "psi", "bar", "kPa", "MPa", "kN", "lbf", "ft",
        ]
        .map(str::to_owned),
    );
    // A choice begins with a large letter.
    own.extend(own.clone().iter().filter_map(|word| {
        Some(
            word.chars()
                .next()?
                .to_uppercase()
                .chain(word.chars().skip(1))
                .collect(),
        )
    }));
    let allowed: Vec<&str> = own.iter().map(String::as_str).collect();
    for (path, text) in &pages {
        // Sources of formulas and the book's text are data; the reckoner's units too.
        let figure = path.contains("/figure/") || path.contains("/arm/figure?");
        if path.starts_with("/reckoner") || path.ends_with("/book") || figure {
            continue;
        }
        let runs = plain_runs(&visible_text(text), &allowed);
        assert!(runs.is_empty(), "{path}: {runs:?}");
    }
}
