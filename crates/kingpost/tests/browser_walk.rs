//! The whole loop in a real browser the size of a phone, without scripts: a round with five things amiss, stood down, released, handed over, restored.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::drive,
    page::Page,
    pictures::take,
    program::{Folder, Server},
    restored::{entries, restore, verdict},
    round::{CLIP, FITTING, MACHINE, SAG_LEFT, SAG_RIGHT, walk},
    well,
};
use serde_json::{Value, json};
use std::path::Path;

const SAG_LEFT_WHAT: &str = "Track sag under the board, left";
/// What the steward tells the next person.
const NEXT: &str = "Measure the right track again; read the oil with everything lowered";

/// The demo machine's book for a wet week: whatever the day of the test, both tracks are measured and the dipper pivot is greased
/// before work.
fn wet_week() -> String {
    let mut text = well::BOOK.replacen("when = \"after\"", "when = \"before\"", 1);
    for id in [SAG_LEFT, SAG_RIGHT, FITTING] {
        let (before, point) = text.split_once(&format!("id = \"{id}\"")).unwrap();
        let (above, below) = point.split_once("rhythm = ").unwrap();
        let (_, after) = below.split_once('\n').unwrap();
        text = format!("{before}id = \"{id}\"{above}rhythm = \"every start\"\n{after}");
    }
    text
}

#[test]
fn the_whole_loop() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive(async move |page: Page| {
        let text = wet_week();
        let book = well::book(&text);
        page.without_scripts().await;
        page.goto(&server.home()).await;
        page.sign_in("Odalys", &server.pin).await;
        adopt(&page, &server, &text).await;
        page.sign_out().await;
        page.sign_in("Tamsin", &server.pin).await;
        walk(&page, &server, &book).await;
        stood_down(&page, &server).await;
        page.sign_out().await;
        page.sign_in("Jory", &server.pin).await;
        a_learner_cannot_release(&page).await;
        page.sign_out().await;
        page.sign_in("Odalys", &server.pin).await;
        mend_and_release(&page).await;
        set_the_left_track(&page, &data).await;
        hand_over(&page).await;
        all_in_the_journal(&page).await;
        book_and_people(&page, &server).await;
        restore(&page, server, &folder, &data).await;
    });
}

/// The steward changes the book on its page.
async fn adopt(page: &Page, server: &Server, text: &str) {
    page.open(&format!("/m/{MACHINE}")).await;
    page.open("/book").await;
    // A book comes out of an editor by the clipboard; typing its two thousand lines would show nothing more.
    page.ask(
        "document.querySelector('textarea[name=text]').value = arguments[0]",
        vec![json!(text)],
    )
    .await;
    page.type_in(
        "why",
        "Wet clay: tracks and dipper pivot before every start",
    )
    .await;
    page.press("Adopt it").await;
    page.says("In force since today").await;
    page.goto(&server.home()).await;
}

/// Stood down, the worst first, here and on the yard page.
async fn stood_down(page: &Page, server: &Server) {
    assert_eq!(page.texts("p.verdict").await, ["Stand down"]);
    let reasons = page.texts("ol.reasons li").await;
    assert!(reasons[0].contains(CLIP), "{reasons:?}");
    page.open(&format!("/y/{}", server.tag)).await;
    let card = format!(".machine[href$=\"/m/{MACHINE}\"]");
    let verdict = page.texts(&format!("{card} p.verdict")).await;
    assert_eq!(verdict, ["Stand down"]);
    assert!(page.texts(&format!("{card} li")).await[0].contains(CLIP));
}

/// No button for it, and the address refuses it as well.
async fn a_learner_cannot_release(page: &Page) {
    open_finding(page, CLIP).await;
    page.says("Only the steward or the deputy releases it")
        .await;
    assert!(page.find_all("form[action$=\"/release\"]").await.is_empty());
    assert_eq!(post_release(page).await, json!(403));
    let path = page.path().await;
    page.open(&format!("/m/{MACHINE}")).await;
    assert_eq!(page.texts("p.verdict").await, ["Stand down"], "{path}");
}

async fn post_release(page: &Page) -> Value {
    let script = "return fetch(location.pathname + '/release', { method: 'POST', redirect: 'manual',
        headers: { 'Content-Type': 'application/x-www-form-urlencoded' }, body: 'mended=looks+fine' }).then(got => got.status)";
    page.ask(script, vec![]).await
}

/// From the yard page to a finding by what it says.
async fn open_finding(page: &Page, what: &str) {
    page.open(&format!("/m/{MACHINE}")).await;
    open_here(page, what).await;
}

/// From the machine's page.
async fn open_here(page: &Page, what: &str) {
    let links = page.find_all("ul.links a[href*=\"/finding/\"]").await;
    for link in links {
        if link.text().await.unwrap().contains(what) {
            page.follow(&link).await;
            return;
        }
    }
    panic!("no finding says “{what}”");
}

/// The steward writes the repair, which alone changes nothing, and releases naming what was mended.
async fn mend_and_release(page: &Page) {
    open_finding(page, CLIP).await;
    page.type_in("what", "New split pin and washer, both ends bent")
        .await;
    page.press("Keep the repair").await;
    // It came off before and was cured the same way: once more without the cause is no cure.
    page.says("Why does it fail? Doing the same again is no answer here.")
        .await;
    page.type_in("cause", "The hole is worn oval, so the pin works")
        .await;
    page.press("Keep the repair").await;
    page.says("New split pin and washer").await;
    take(page, "finding.png", None).await;
    page.open(&format!("/m/{MACHINE}")).await;
    page.says(&format!("{CLIP}: mended, not released yet."))
        .await;
    open_here(page, CLIP).await;
    page.press("Release it").await;
    page.says("Name what was mended").await;
    page.type_in("mended", "Clip seen and pulled by hand").await;
    page.press("Release it").await;
    assert!(!page.texts("ol.reasons li").await.concat().contains(CLIP));
    assert!(!page.texts("ul.links").await.concat().contains(CLIP));
}

/// The left track is set and released. What nobody has read again stays unknown, and unknown is never fit.
async fn set_the_left_track(page: &Page, data: &Path) {
    page.press("Topped up or adjusted something").await;
    page.type_in("what", "Adjuster pumped: 1 3/4 in on both spans")
        .await;
    page.choose_like("It sets right", SAG_LEFT_WHAT).await;
    let button = page.find("main button.main").await;
    page.follow(&button).await;
    page.says(&format!("{SAG_LEFT_WHAT}: mended, not released yet."))
        .await;
    open_here(page, SAG_LEFT_WHAT).await;
    page.type_in("mended", "Measured again by the steward: 1 3/4 in")
        .await;
    page.press("Release it").await;
    let judged = verdict(data, "Tamsin");
    assert_eq!(judged["verdict"], "stand-down");
    assert_eq!(judged["only_unknown"], true);
    // The engine was not started once the clip was found missing: those points are not answered.
    let left = [
        "level-pose",
        "too-close",
        "not-answered",
        "released-since-round",
        "refused",
        "fault",
    ];
    let mut told = codes(&judged);
    let mut seen = std::collections::BTreeSet::new();
    told.retain(|code| seen.insert(*code));
    assert_eq!(told, left);
}

fn codes(judged: &Value) -> Vec<&str> {
    let reasons = judged["reasons"].as_array().unwrap();
    reasons
        .iter()
        .map(|reason| reason["code"].as_str().unwrap())
        .collect()
}

/// Everything down, proven step by step; nothing less is taken.
async fn hand_over(page: &Page) {
    page.press("Hand over").await;
    take(page, "handover.png", Some(2000.0)).await;
    page.choose("The engine", "Engine off").await;
    let button = page.find("main button.main").await;
    page.follow(&button).await;
    page.says("Not answered: Swing pin in").await;
    for step in page.texts("fieldset legend").await.iter().skip(1) {
        let what = step.trim_start_matches(|c: char| c.is_ascii_digit());
        page.choose(what, "Proof seen").await;
    }
    page.type_in("next", NEXT).await;
    let button = page.find("main button.main").await;
    page.follow(&button).await;
    // What is left is not known, and it was handed over: whoever starts it walks first.
    assert_eq!(page.texts("p.verdict").await, ["Walk round first"]);
    page.says("It was handed over after the walk-round.").await;
}

/// Everything that was found and done stands in the machine's journal.
async fn all_in_the_journal(page: &Page) {
    page.press("Journal of this machine").await;
    take(page, "journal.png", Some(2000.0)).await;
    let entries = entries(page).await.join("\n");
    let said = [
        "Wet clay: tracks and dipper pivot before every start",
        "2 in ± 1/16",
        "2 1/8 in",
        "Arm raised and held by its proven lock",
        "refused grease",
        "missing",
        "New split pin and washer, both ends bent",
        "Clip seen and pulled by hand",
        "Adjuster pumped: 1 3/4 in on both spans",
        "Measured again by the steward: 1 3/4 in",
        NEXT,
    ];
    for what in said {
        assert!(entries.contains(what), "“{what}” is not in the journal");
    }
    assert!(!entries.contains("inn"), "a slip is not an answer");
}

/// The book says what is unknown, the people's page who may do what.
async fn book_and_people(page: &Page, server: &Server) {
    page.goto(&format!("{}/m/{MACHINE}/book", server.home()))
        .await;
    page.says("Points, numbered along the lap").await;
    take(page, "book.png", Some(2000.0)).await;
    page.goto(&format!("{}/people", server.home())).await;
    page.says("Who may do what").await;
    take(page, "people.png", Some(2000.0)).await;
}
