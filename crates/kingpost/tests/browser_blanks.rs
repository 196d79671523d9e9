//! Every kind of machine that has a blank, and one that has none, walked round in a real browser the size of a phone, from the yard page to its verdict.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::drive,
    first_round::walk,
    inspect::{complaints, listen},
    own_yard::{Machine, adopt, adopt_text, begin, blanks, enter, told},
    page::Page,
    program::{Folder, Server, run},
};
use std::path::Path;

/// What the guide says about describing a machine.
const GUIDE: &str = include_str!("../../../docs/guide/02-describing-a-machine.md");

/// One machine of each kind, all in one yard, one after the other; the kinds are those that the program lists.
#[test]
fn every_blank_is_walked_to_its_verdict() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let token = begin(&data);
    let kinds = blanks(&data);
    let machines: Vec<Machine> = kinds.iter().map(|kind| adopt(&data, kind)).collect();
    let server = Server::start(&data);
    drive(async move |page: Page| {
        listen(&page).await;
        page.without_scripts().await;
        enter(&page, &server, &token).await;
        let mut wrong = Vec::new();
        for machine in &machines {
            page.goto(&server.home()).await;
            walk(&page, machine, &mut wrong).await;
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        assert_eq!(complaints(&page).await, "");
    });
}

/// Whoever has a machine of no known kind, and only reads the guide: the whole book that it shows, each command that it gives.
#[test]
fn a_machine_with_no_blank_is_described_by_the_guide() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let token = begin(&data);
    let text = book_of_the_guide();
    let file = data.join("log-splitter.toml");
    std::fs::write(&file, &text).unwrap();
    let checked = told(&data, &["book", "check", file.to_str().unwrap()]);
    assert_eq!(checked["files"][0]["troubles"], serde_json::json!([]));
    let gaps = told(&data, &["book", "gaps", file.to_str().unwrap()]);
    let mut gaps = gaps["gaps"].as_array().unwrap().iter();
    assert!(gaps.all(|gap| gap["bears_on_safety"] == false));
    let machine = adopt_text(&data, text);
    for paper in ["round-sheet", "greasing-chart"] {
        print(&data, paper, machine.id());
    }
    let server = Server::start(&data);
    drive(async move |page: Page| {
        listen(&page).await;
        page.without_scripts().await;
        enter(&page, &server, &token).await;
        page.goto(&server.home()).await;
        let mut wrong = Vec::new();
        walk(&page, &machine, &mut wrong).await;
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        assert_eq!(complaints(&page).await, "");
    });
}

/// The book that stands whole in the guide, as one copies it: the indented lines from the format's line on.
fn book_of_the_guide() -> String {
    let (_, rest) = GUIDE.split_once("\n    kingpost = 1\n").unwrap();
    let lines = rest
        .lines()
        .take_while(|line| line.is_empty() || line.starts_with("    "));
    let lines = lines.map(|line| line.strip_prefix("    ").unwrap_or(line));
    let text: Vec<&str> = std::iter::once("kingpost = 1").chain(lines).collect();
    text.join("\n") + "\n"
}

/// The paper is a PDF of its own.
fn print(data: &Path, paper: &str, machine: &str) {
    let file = data.join(format!("{paper}.pdf"));
    let to = file.to_str().unwrap();
    let said = run(data, &["papers", paper, machine, "--output", to]);
    let error = String::from_utf8_lossy(&said.stderr);
    assert!(said.status.success(), "{paper}: {error}");
    let made = std::fs::read(&file).unwrap();
    assert!(made.starts_with(b"%PDF-") && made.len() > 5000, "{paper}");
}
