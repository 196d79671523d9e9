//! Every figure a page shows is worked out again in a fresh process, and the printed digits are compared.
#![allow(clippy::unwrap_used, missing_docs)]

mod figure;

use assert_cmd::cargo::cargo_bin;
use axum::{
    Router,
    body::{Body, to_bytes},
    http::Request,
};
use figure::argument;
use kingpost::demo::{Script, fill};
use serde_json::Value;
use std::{collections::BTreeSet, process::Command, sync::Arc};
use store::Store;
use tower::ServiceExt;
use words::Words;
use yard::world::StillWorld;

async fn fetch(router: &Router, path: &str) -> String {
    let request = Request::get(path).body(Body::empty()).unwrap();
    let response = router.clone().oneshot(request).await.unwrap();
    let bytes = to_bytes(response.into_body(), 1 << 22).await.unwrap();
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// Addresses of all figures that the yard's pages link to.
async fn figures(router: &Router, home: &str) -> BTreeSet<String> {
    let mut waiting = vec![home.to_owned()];
    let (mut seen, mut figures) = (BTreeSet::new(), BTreeSet::new());
    while let Some(path) = waiting.pop() {
        if !seen.insert(path.clone()) || path.contains(".pdf") || path.contains("before=") {
            continue;
        }
        let page = fetch(router, &path).await;
        for link in page.split("href=\"").skip(1) {
            let link = link.split('"').next().unwrap_or_default();
            match link {
                link if link.contains("/figure/") => _ = figures.insert(link.to_owned()),
                link if link.starts_with(home) => waiting.push(link.to_owned()),
                _ => {}
            }
        }
    }
    figures
}

#[tokio::test]
async fn every_figure_is_the_same_in_a_fresh_process() {
    let now: jiff::Timestamp = "2026-03-02T06:30:00Z".parse().unwrap();
    let store = Store::open_memory();
    let yard = fill(&store, &Script::as_of(now, jiff::tz::TimeZone::UTC)).unwrap();
    let world = Arc::new(StillWorld::at(now));
    let app = server::App::new(yard, Arc::new(Words::english()), world, String::new());
    let home = format!("/y/{}", app.tag());
    let router = server::router(Arc::new(app));
    let all = figures(&router, &home).await;
    assert!(all.len() >= 3, "figures found: {all:?}");
    for link in all {
        let shown: Value =
            serde_json::from_str(&fetch(&router, &format!("{link}.json")).await).unwrap();
        let page = fetch(&router, &link).await;
        let inputs = shown["inputs"].as_array().unwrap();
        let run = Command::new(cargo_bin("kingpost"))
            .args(["--json", "reckon", shown["leaf"].as_str().unwrap()])
            .args(inputs.iter().map(argument))
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&run.stdout);
        let fresh: Value = serde_json::from_str(&said).unwrap_or_else(|e| {
            panic!(
                "{link}: {e}: {said} {}",
                String::from_utf8_lossy(&run.stderr)
            )
        });
        let outputs = shown["outputs"].as_array().unwrap();
        assert_eq!(
            outputs.len(),
            fresh["outputs"].as_array().unwrap().len(),
            "{link}"
        );
        for (ours, theirs) in outputs.iter().zip(fresh["outputs"].as_array().unwrap()) {
            assert_eq!(ours["name"], theirs["name"], "{link}");
            assert_eq!(
                ours["value"].to_string(),
                theirs["value"].to_string(),
                "{link}"
            );
            if let Some(number) = theirs["value"].as_f64() {
                let printed = format!("{number:.6}");
                let printed = printed.trim_end_matches('0').trim_end_matches('.');
                assert!(
                    page.contains(printed),
                    "{link}: {printed} is not on the page"
                );
            }
        }
    }
}
