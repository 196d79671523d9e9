//! A day in the demo yards of twenty other seeds, through the real pages. Nothing here knows what happened in one of them.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "../figure/mod.rs"]
mod figure;
mod look_round;
mod round;
mod site;

use axum::http::StatusCode;
use look_round::look_round;
use round::{book, walk};
use site::{Got, Site};
use yard::{
    entry::{Body, Evidence, RunPart},
    people::Role,
};

#[tokio::test]
async fn a_day_in_the_yards_of_seeds_1_to_3() {
    for seed in 1..=3 {
        day(&Site::of(seed)).await;
    }
}

#[tokio::test]
async fn a_day_in_the_yards_of_seeds_4_to_6() {
    for seed in 4..=6 {
        day(&Site::of(seed)).await;
    }
}

#[tokio::test]
#[ignore = "long: the other seeds up to twenty"]
async fn a_day_in_the_yards_of_seeds_7_to_20() {
    for seed in 7..=20 {
        day(&Site::of(seed)).await;
    }
}

async fn day(site: &Site) {
    let operator = site.sign_in(Role::Operator).await;
    let learner = site.sign_in(Role::Learner).await;
    let steward = site.sign_in(Role::Steward).await;
    morning_round(site, &operator).await;
    stood_down_and_released(site, &operator, &learner, &steward).await;
    a_run_and_the_evening(site, &operator, &learner).await;
    look_round(site, &steward).await;
    let verified = site.store.verify().unwrap();
    assert!(verified.sound(), "seed {}: {verified:?}", site.seed);
}

/// Before the round nothing says fit; after it the page and the evidence kept with it say the same.
async fn morning_round(site: &Site, operator: &str) {
    let before = site.get(operator, &site.machine).await;
    assert_eq!(before.verdict(), "not-known", "seed {}", site.seed);
    assert!(
        before.text.contains("Walk round first"),
        "seed {}",
        site.seed
    );
    let page = walk(site, operator, &hours(site, 0.0)).await;
    assert_eq!(
        page.verdict(),
        last_evidence(site).verdict,
        "seed {}",
        site.seed
    );
    assert!(may_run(&page), "seed {}: {}", site.seed, page.text);
}

/// A fault and a word both stand it down; nobody runs it; only the steward's release, naming each, lifts it.
async fn stood_down_and_released(site: &Site, operator: &str, learner: &str, steward: &str) {
    let at = |what: &str| format!("{}/{what}", site.machine);
    let known = findings(&site.get(steward, &site.machine).await.links());
    site.later(20);
    let fault = [
        ("what", "a weld by the seat has opened"),
        ("severity", "stand-down"),
    ];
    let page = site.keep(operator, &at("fault"), &fault).await;
    assert_eq!(page.verdict(), "stand-down", "seed {}", site.seed);
    site.keep(
        operator,
        &at("stand-down"),
        &[("text", "until it is seen to")],
    )
    .await;
    for who in [operator, learner, steward] {
        refused_run(site, who, "").await;
    }
    let all = findings(&site.get(steward, &site.machine).await.links());
    let new: Vec<_> = all
        .into_iter()
        .filter(|link| !known.contains(link))
        .collect();
    assert_eq!(new.len(), 2, "seed {}: {new:?}", site.seed);
    for finding in &new {
        site.later(5);
        site.keep(
            operator,
            &format!("{finding}/mend"),
            &[("what", "welded and looked at")],
        )
        .await;
        for who in [operator, learner] {
            let tried = site
                .post(who, &format!("{finding}/release"), &[("mended", "well")])
                .await;
            assert_eq!(tried.status, StatusCode::FORBIDDEN, "seed {}", site.seed);
        }
        let page = site.get(steward, &site.machine).await;
        assert_eq!(
            page.verdict(),
            "stand-down",
            "seed {}: mended is not released",
            site.seed
        );
        site.keep(
            steward,
            &format!("{finding}/release"),
            &[("mended", "weld seen and tapped")],
        )
        .await;
    }
    let left = findings(&site.get(steward, &site.machine).await.links());
    assert!(
        left.iter().all(|link| !new.contains(link)),
        "seed {}",
        site.seed
    );
}

/// The learner's try without anybody in sight is asked back; the operator's run and handover end the day.
async fn a_run_and_the_evening(site: &Site, operator: &str, learner: &str) {
    let at = |what: &str| format!("{}/{what}", site.machine);
    refused_run(site, learner, "").await;
    refused_run(site, learner, "nobody").await;
    if !may_run(&site.get(operator, &site.machine).await) {
        walk(site, operator, &hours(site, 0.0)).await;
    }
    let runs = runs_begun(site);
    site.keep(operator, &at("run"), &[("work", "a drain along the hedge")])
        .await;
    assert_eq!(runs_begun(site), runs + 1, "seed {}", site.seed);
    site.later(150);
    site.keep(operator, &at("run/end"), &[("amiss", "left track squeaks")])
        .await;
    let hours = hours(site, 2.4);
    let mut fields = vec![
        ("engine", "off"),
        ("hours", hours.as_str()),
        ("next", "mind the squeak"),
    ];
    let book = book();
    let steps: Vec<_> = book
        .rest
        .iter()
        .map(|step| format!("s.{}", step.id))
        .collect();
    fields.extend(steps.iter().map(|step| (step.as_str(), "proven")));
    let page = site.keep(operator, &at("handover"), &fields).await;
    assert!(
        page.text.contains("Walk round first"),
        "seed {}: {}",
        site.seed,
        page.text
    );
    let yard = site.get(operator, &site.home).await;
    assert!(yard.text.contains("mind the squeak"), "seed {}", site.seed);
}

async fn refused_run(site: &Site, who: &str, sight: &str) {
    let before = runs_begun(site);
    let path = format!("{}/run", site.machine);
    let got = site
        .post(who, &path, &[("work", "a try"), ("sight", sight)])
        .await;
    assert_ne!(got.status, StatusCode::SEE_OTHER, "seed {}", site.seed);
    assert!(
        !got.status.is_server_error(),
        "seed {}: {}",
        site.seed,
        got.text
    );
    assert_eq!(runs_begun(site), before, "seed {}", site.seed);
}

fn may_run(page: &Got) -> bool {
    ["fit", "care"].contains(&page.verdict().as_str())
}

fn findings(links: &[String]) -> Vec<String> {
    let mut found: Vec<_> = links
        .iter()
        .filter(|link| link.contains("/finding/"))
        .cloned()
        .collect();
    found.sort();
    found.dedup();
    found
}

fn runs_begun(site: &Site) -> usize {
    let begun = |body: &Body| matches!(body, Body::Run(run) if run.part == RunPart::Start);
    site.entries()
        .iter()
        .filter(|entry| begun(&entry.body))
        .count()
}

/// The meter as it was last handed over, and so many hours more.
fn hours(site: &Site, more: f64) -> String {
    let entries = site.entries();
    let last = entries.iter().rev().find_map(|entry| match &entry.body {
        Body::Handover(handover) => handover.hours.clone(),
        _ => None,
    });
    format!("{:.1}", last.unwrap().value().to_f64() + more)
}

fn last_evidence(site: &Site) -> Evidence {
    let entries = site.entries();
    let closed = entries.iter().rev().find_map(|entry| match &entry.body {
        Body::WalkRound(round) => round.closes.clone(),
        _ => None,
    });
    closed.unwrap()
}
