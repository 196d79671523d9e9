//! Every route with the least role that may use it: who is less is turned away and nothing is written.

use super::{browser::Browser, fixture::Place};
use axum::http::StatusCode;
use std::{collections::BTreeSet, fs, path::Path};
use yard::{
    entry::{Body, Note, StandDown},
    id::PersonId,
};

/// Least roles: anybody at all, then by rank.
const ANYBODY: usize = 0;
const VISITOR: usize = 1;
const LEARNER: usize = 2;
const OPERATOR: usize = 3;
const DEPUTY: usize = 4;
const STEWARD: usize = 5;

/// Path as `routes.rs` writes it; least role to look, least role to write. None: there is no such method, or it has tests of its own.
type Row = (&'static str, Option<usize>, Option<usize>);

const ROWS: &[Row] = &[
    // anybody
    ("/", Some(ANYBODY), None),
    ("/static/{mark}/{name}", None, None),
    ("/health", Some(ANYBODY), None),
    ("/worker.js", Some(ANYBODY), None),
    ("/pocket", Some(ANYBODY), None),
    ("/manifest.webmanifest", Some(ANYBODY), None),
    ("/m/{machine}/pocket", Some(LEARNER), None),
    ("/rules", Some(ANYBODY), None),
    ("/reckoner", Some(ANYBODY), None),
    ("/reckoner/{leaf}", Some(ANYBODY), None),
    ("/sign-in", Some(ANYBODY), None),
    ("/sign-out", None, None),
    ("/first/{token}", Some(ANYBODY), Some(ANYBODY)),
    ("/journal", Some(ANYBODY), None),
    ("/shopping", Some(ANYBODY), None),
    ("/documents", Some(ANYBODY), Some(DEPUTY)),
    ("/papers/{file}", Some(ANYBODY), None),
    ("/m/{machine}/parts", Some(ANYBODY), None),
    ("/m/{machine}/documents", Some(ANYBODY), Some(DEPUTY)),
    ("/m/{machine}", Some(ANYBODY), None),
    ("/m/{machine}/arm", Some(ANYBODY), None),
    ("/m/{machine}/arm/pose", Some(ANYBODY), None),
    ("/m/{machine}/arm/figure", Some(ANYBODY), None),
    ("/m/{machine}/journal", Some(ANYBODY), None),
    ("/m/{machine}/finding/{finding}", Some(ANYBODY), None),
    ("/m/{machine}/comes-back", Some(ANYBODY), None),
    ("/quiet-day", Some(ANYBODY), None),
    ("/m/{machine}/figure/{which}", Some(ANYBODY), None),
    ("/m/{machine}/papers/{file}", Some(ANYBODY), None),
    // signed in
    ("/me", Some(VISITOR), None),
    ("/me/data.json", Some(VISITOR), None),
    ("/me/erase", None, Some(VISITOR)),
    ("/me/sign-ins/{sign_in}/end", None, Some(VISITOR)),
    ("/people", Some(VISITOR), Some(STEWARD)),
    // who works here
    ("/m/{machine}/handover", None, Some(LEARNER)),
    ("/m/{machine}/fault", None, Some(LEARNER)),
    ("/m/{machine}/happened", None, Some(LEARNER)),
    ("/m/{machine}/note", None, Some(LEARNER)),
    ("/m/{machine}/stand-down", None, Some(LEARNER)),
    ("/m/{machine}/photo", None, Some(LEARNER)),
    ("/m/{machine}/greasing", Some(LEARNER), Some(LEARNER)),
    ("/m/{machine}/finding/{finding}/mend", None, Some(OPERATOR)),
    ("/m/{machine}/part", Some(OPERATOR), Some(OPERATOR)),
    ("/m/{machine}/shelf", Some(OPERATOR), Some(OPERATOR)),
    ("/m/{machine}/attachments", Some(OPERATOR), Some(OPERATOR)),
    // deputy and steward
    ("/questions", Some(DEPUTY), None),
    ("/questions/{entry}", None, Some(DEPUTY)),
    ("/correct/{entry}", Some(DEPUTY), Some(DEPUTY)),
    ("/m/{machine}/sheet", Some(DEPUTY), Some(DEPUTY)),
    ("/m/{machine}/permit", None, Some(DEPUTY)),
    ("/m/{machine}/lesson", Some(DEPUTY), Some(DEPUTY)),
    ("/m/{machine}/purchase", Some(DEPUTY), Some(DEPUTY)),
    ("/m/{machine}/sign-offs", Some(DEPUTY), Some(DEPUTY)),
    ("/m/{machine}/finding/{finding}/release", None, Some(DEPUTY)),
    ("/m/{machine}/arrival", Some(DEPUTY), Some(DEPUTY)),
    ("/signs", Some(STEWARD), None),
    ("/people/{person}", None, Some(STEWARD)),
    ("/people/{person}/erase", None, Some(STEWARD)),
    ("/people/{person}/pin-link", None, Some(STEWARD)),
    ("/people/{person}/unlock", None, Some(STEWARD)),
    ("/habits", Some(STEWARD), Some(STEWARD)),
    ("/m/{machine}/leaving", Some(STEWARD), Some(STEWARD)),
    ("/documents/{document}/end", None, Some(STEWARD)),
    ("/m/{machine}/documents/{document}/end", None, Some(STEWARD)),
    ("/m/{machine}/book", None, Some(STEWARD)),
    ("/m/{machine}/book/gap", None, Some(STEWARD)),
];

/// Routes whose roles depend on what is on the way, or that are no pages; each has tests of its own, named here.
const ELSEWHERE: &[(&str, &str)] = &[
    ("/m/{machine}/round", "loop_of_a_round"),
    ("/m/{machine}/round/begin", "loop_of_a_round"),
    ("/m/{machine}/round/close", "loop_of_a_round"),
    ("/m/{machine}/round/join", "together"),
    ("/m/{machine}/round/{leg}/{station}", "loop_of_a_round"),
    ("/m/{machine}/hours", "sign_in"),
    ("/m/{machine}/run", "loop_of_a_round"),
    ("/m/{machine}/run/end", "loop_of_a_round"),
    ("/m/{machine}/service", "every_page"),
    ("/photos/{photo}", "photo_address"),
    ("/take-in", "every_page"),
    ("/tokens", "tokens"),
    ("/tokens/{token}/end", "tokens"),
    ("/trust", "every_page"),
    ("/trust/{file}", "every_page"),
];

/// Every path named after `.route(` in the server's sources; the API has its own table.
fn written() -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = fs::read_to_string(&path).unwrap();
            let named = text.split(".route(").skip(1).filter_map(|rest| {
                let rest = rest.trim_start().strip_prefix('"')?;
                rest.split('"').next().map(str::to_owned)
            });
            all.extend(named.filter(|path| !path.starts_with("/api")));
        }
    }
    all
}

#[test]
fn every_route_is_in_the_table() {
    let known: BTreeSet<String> = ROWS
        .iter()
        .map(|(path, ..)| *path)
        .chain(ELSEWHERE.iter().map(|(path, _)| *path))
        .map(str::to_owned)
        .collect();
    let written = written();
    assert!(written.len() > 40, "{written:?}");
    let missing: Vec<_> = written.difference(&known).collect();
    assert!(missing.is_empty(), "say who may: {missing:?}");
    let gone: Vec<_> = known.difference(&written).collect();
    assert!(gone.is_empty(), "no such route any more: {gone:?}");
}

struct Scene {
    place: Place,
    finding: String,
    note: String,
    new: PersonId,
}

fn scene() -> Scene {
    let place = Place::new();
    let down = Body::StandDown(StandDown {
        why: "knock in the engine".to_owned(),
    });
    let note = Body::Note(Note {
        point: None,
        text: "gate".to_owned(),
    });
    let new = PersonId(store::fresh_id(place.clock.as_ref()));
    let ilse = store::Person {
        id: new,
        name: Some("Ilse".to_owned()),
        pin_hash: None,
        active: true,
        invented: true,
    };
    place.yard.keep_person(&ilse).unwrap();
    Scene {
        finding: place
            .write(place.operator, Some("marigold"), down)
            .to_string(),
        note: place.write(place.steward, None, note).to_string(),
        place,
        new,
    }
}

impl Scene {
    fn path(&self, row: &str) -> String {
        let whole = ["/rules", "/reckoner", "/reckoner/{leaf}", "/health"].contains(&row);
        let filled = row
            .replace("{machine}", "marigold")
            .replace("{finding}", &self.finding)
            .replace("{entry}", &self.note)
            .replace("{person}", &self.new.to_string())
            .replace("{leaf}", "due-hours")
            .replace("{token}", "0123456789abcdef0123456789abcdef")
            .replace("{sign_in}", "0123456789abcdef")
            .replace("{which}", "life-hours")
            .replace("{file}", "round-sheet.pdf");
        match (whole, filled.as_str()) {
            (true, _) => filled,
            (false, "/") => self.place.home(),
            (false, _) => format!("{}{filled}", self.place.home()),
        }
    }
}

/// Fields that the forms read.
const FIELDS: &[(&str, &str)] = &[
    ("text", "smoke"),
    ("what", "lamp"),
    ("severity", "note"),
    ("mended", "seen"),
    ("far", "40 m"),
    ("hours", "2"),
    ("why", "wrong"),
    ("gap", "x"),
    ("pin", "0000"),
];

#[tokio::test]
async fn who_may_less_is_turned_away_everywhere() {
    let scene = scene();
    let place = &scene.place;
    let mut browsers = vec![Browser::here(place)];
    for who in [
        place.visitor,
        place.learner,
        place.operator,
        place.deputy,
        place.steward,
    ] {
        let mut browser = Browser::here(place);
        browser.sign_in(who).await;
        browsers.push(browser);
    }
    let mut wrong = Vec::new();
    for (row, look, write) in ROWS {
        let path = scene.path(row);
        for (rank, browser) in browsers.iter_mut().enumerate() {
            for (least, writes) in [(look, false), (write, true)] {
                let Some(least) = *least else { continue };
                let before = place.yard.tip().unwrap().seq;
                let got = if writes {
                    browser.post(&path, FIELDS).await
                } else {
                    browser.get(&path).await
                };
                let away = got.status == StatusCode::FORBIDDEN || got.to.contains("/sign-in?back");
                let nothing = place.yard.tip().unwrap().seq == before;
                if away != (rank < least) || (away && !nothing) || got.status.is_server_error() {
                    wrong.push(format!("{row} write={writes} by {rank}: {}", got.status));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
