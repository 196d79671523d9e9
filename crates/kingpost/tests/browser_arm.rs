//! The arm's page on a phone: a ram moved from the keyboard, the tooth dragged with a finger, the form without scripts.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::{WIDTH, drive},
    inspect::INSPECT,
    page::Page,
    program::{Folder, Server, run},
};
use serde_json::{Value, json};
use std::{path::Path, time::Duration};
use thirtyfour::Key;

const MACHINE: &str = "reference-machine";
/// The tooth of the drawing, metres, and where it is on the screen, CSS pixels.
const TOOTH: &str = "
    const figure = document.getElementById('arm-drawing');
    const [r, z] = figure.dataset.tooth.split(' ').map(Number);
    const at = new DOMPoint(r * 100, -z * 100).matrixTransform(figure.querySelector('svg').getScreenCTM());
    return [r, z, at.x, at.y]";

/// A demo yard with the invented machine whose arm is wholly known.
fn yard(folder: &Folder) -> Server {
    let data = folder.at("yard");
    assert!(run(&data, &["yard", "demo"]).status.success());
    let book =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/arm/reference-machine-book.toml");
    let said = run(
        &data,
        &["book", "adopt", book.to_str().unwrap(), "--by", "Odalys"],
    );
    assert!(
        said.status.success(),
        "{}",
        String::from_utf8_lossy(&said.stderr)
    );
    Server::start(&data)
}

async fn numbers(page: &Page, script: &str) -> Vec<f64> {
    let said = page.ask(script, vec![]).await;
    said.as_array()
        .unwrap()
        .iter()
        .map(|one| one.as_f64().unwrap())
        .collect()
}

/// What the page says under the drawing.
async fn now(page: &Page) -> String {
    page.find("#arm-now").await.text().await.unwrap()
}

/// Looks at the page until it is so.
async fn until<F>(page: &Page, what: &str, is_so: impl Fn(Page) -> F)
where
    F: Future<Output = bool>,
{
    for _ in 0..400 {
        if is_so(page.clone()).await {
            return;
        }
        tokio::time::sleep(Duration::from_millis(15)).await;
    }
    panic!("never came about: {what}");
}

async fn touch(page: &Page, kind: &str, at: Option<(f64, f64)>) {
    let points: Vec<Value> = at.iter().map(|(x, y)| json!({ "x": x, "y": y })).collect();
    let event = json!({ "type": kind, "touchPoints": points });
    page.driver
        .cdp()
        .send_raw("Input.dispatchTouchEvent", event)
        .await
        .unwrap();
}

#[test]
fn a_ram_moves_from_the_keyboard_and_the_tooth_follows_a_finger() {
    let folder = Folder::new();
    let server = yard(&folder);
    drive(async move |page: Page| {
        page.goto(&format!("{}/m/{MACHINE}/arm", server.home()))
            .await;
        assert_eq!(page.heading().await, "The arm");
        assert_eq!(page.ask(INSPECT, vec![json!(WIDTH)]).await, json!([]));

        // From the keyboard: a slider with the focus, the arrow key, and everything follows.
        let (before, said) = (numbers(&page, TOOTH).await, now(&page).await);
        let slider = page.find("input[type=range][data-for=out-dipper]").await;
        slider.focus().await.unwrap();
        for _ in 0..12 {
            slider.send_keys(Key::Right).await.unwrap();
        }
        until(&page, "the tooth moved", async |page| {
            let tooth = numbers(&page, TOOTH).await;
            (tooth[0] - before[0]).abs() > 0.02
        })
        .await;
        until(&page, "another force", async |page| {
            now(&page).await != said
        })
        .await;
        let out: f64 = page.typed("dipper").await.parse().unwrap();
        let slides: f64 = slider
            .prop("value")
            .await
            .unwrap()
            .unwrap()
            .parse()
            .unwrap();
        assert!((slides - out).abs() < 0.5, "{slides} {out}");

        // With a finger on the tooth: the tooth goes where the finger goes, and the page stays where it is.
        page.ask(
            "document.getElementById('arm-drawing').scrollIntoView({ block: 'center' })",
            vec![],
        )
        .await;
        let from = numbers(&page, TOOTH).await;
        let scrolled = page.ask("return scrollY", vec![]).await;
        touch(&page, "touchStart", Some((from[2], from[3]))).await;
        for step in 1..=8 {
            let by = f64::from(step) * 3.0;
            touch(&page, "touchMove", Some((from[2] - by, from[3] - by))).await;
        }
        until(&page, "the tooth is under the finger", async |page| {
            let tooth = numbers(&page, TOOTH).await;
            let (x, y) = (tooth[2] - from[2] + 24.0, tooth[3] - from[3] + 24.0);
            x.abs() < 3.0 && y.abs() < 3.0
        })
        .await;
        touch(&page, "touchEnd", None).await;
        assert_eq!(page.ask("return scrollY", vec![]).await, scrolled);
        let boom: f64 = page.typed("boom").await.parse().unwrap();
        assert!((0.0..=100.0).contains(&boom));

        // Another direction brings another map and another sentence.
        let marks = "return document.getElementById('arm-map').innerHTML";
        let map = page.ask(marks, vec![]).await;
        page.choose("What the tooth does", "lift").await;
        until(&page, "lifting is told", async |page| {
            now(&page).await.starts_with("Lifting")
        })
        .await;
        assert_ne!(page.ask(marks, vec![]).await, map);
    });
}

#[test]
fn without_scripts_there_is_a_form() {
    let folder = Folder::new();
    let server = yard(&folder);
    drive(async move |page: Page| {
        page.without_scripts().await;
        page.goto(&format!("{}/m/{MACHINE}/arm", server.home()))
            .await;
        assert!(
            !page
                .find("input[type=range]")
                .await
                .is_displayed()
                .await
                .unwrap()
        );
        page.type_in("boom", "20").await;
        page.choose("What the tooth does", "curl the bucket").await;
        let button = page.find("#arm-form button").await;
        page.follow(&button).await;
        assert_eq!(page.typed("boom").await, "20.0");
        assert!(now(&page).await.starts_with("Curling the bucket"));
    });
}
