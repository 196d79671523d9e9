//! The whole loop in a real browser the size of a phone: a round with five things amiss, stood down, released, handed over, restored.
#![allow(missing_docs)]

mod browser;

use browser::{
    chromium::drive,
    page::Page,
    pictures::take,
    program::{Folder, Server, run},
    well,
};
use serde_json::{Value, json};
use std::{path::Path, process::Output};
use yard::book::Book;

const MACHINE: &str = "marigold";
const CLIP: &str = "Dipper pin clips: pivot and ram, left";
const SAG_LEFT: &str = "track-sag-left";
const SAG_RIGHT: &str = "track-sag-right";
const SAG_LEFT_WHAT: &str = "Track sag under the board, left";
/// What the steward tells the next person.
const NEXT: &str = "Measure the right track again; read the oil with everything lowered";
const OIL: &str = "hydraulic-oil";
const FITTING: &str = "grease-dipper";

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

/// The operator walks the round, from the yard page to the verdict; after the right track she looks at the yard page and comes back.
async fn walk(page: &Page, server: &Server, book: &Book) {
    take(page, "yard.png", None).await;
    page.open(&format!("/m/{MACHINE}")).await;
    page.says("Walk round first").await;
    take(page, "machine.png", None).await;
    page.press("Walk the machine round").await;
    take(page, "round.png", Some(1800.0)).await;
    page.press("Begin").await;
    take(page, "station.png", Some(1800.0)).await;
    let mut stations = 0;
    while page.path().await.contains("/round/") {
        stations += 1;
        assert!(stations < 60, "the round does not end");
        let here = well::points_here(page).await;
        station(page, book, &here).await;
        if here.iter().any(|id| id == SAG_RIGHT) {
            interrupt(page, server).await;
        }
    }
    finish(page).await;
}

/// Leaves for the yard page; the round goes on at the same place, with as much done.
async fn interrupt(page: &Page, server: &Server) {
    let (place, progress) = (page.path().await, page.texts("header .where").await);
    page.open(&format!("/y/{}", server.tag)).await;
    page.open(&format!("/m/{MACHINE}")).await;
    page.press("Go on with the round").await;
    assert_eq!(place, page.path().await);
    assert_eq!(progress, page.texts("header .where").await);
}

/// Answers one station: all well, but for the five things that are amiss.
async fn station(page: &Page, book: &Book, here: &[String]) {
    for id in here {
        match id.as_str() {
            OIL => arm_out(page).await,
            FITTING => page.choose("Dipper pivot", "Refused grease").await,
            "dipper-clips-left" => page.choose(CLIP, "Missing").await,
            // The demo's last evening left something open here, so that the one tap does not answer it.
            "horn-lights" => {
                page.choose("Horn and lights", "Works, but weak, stiff or slow")
                    .await
            }
            SAG_LEFT => slack(page).await,
            SAG_RIGHT => sag(page, SAG_RIGHT, ["2 in ± 1/16", "2 in ± 1/16"]).await,
            _ => well::answer(page, book, id).await,
        }
    }
    keep(page).await;
    // What cannot be called comes back with the reason, before one goes on.
    for id in here {
        match id.as_str() {
            OIL => page.says("read in another pose").await,
            SAG_RIGHT => too_close(page).await,
            SAG_LEFT => page.says("Not as it should be.").await,
            _ => {}
        }
    }
    if page.text().await.contains("All answered here") {
        page.press("Next").await;
    }
}

async fn keep(page: &Page) {
    let main = page.find("form[action*=\"/round/\"] button.main").await;
    page.follow(&main).await;
}

async fn sag(page: &Page, id: &str, readings: [&str; 2]) {
    for (i, reading) in readings.iter().enumerate() {
        page.type_in(&format!("v{i}.{id}"), reading).await;
    }
    page.choose_field(&format!("m.{id}"), "yes").await;
    page.choose_field(&format!("c.{id}"), "yes").await;
}

/// The oil is read with the arm up, which the mark does not hold for.
async fn arm_out(page: &Page) {
    page.unfold("Hydraulic oil", "Something else …").await;
    for word in [
        "At or over the mark",
        "Arm raised and held by its proven lock, swing pin in",
        "Clean",
    ] {
        page.choose("Hydraulic oil", word).await;
    }
}

/// A slip of the thumb is asked back with the nearest unit; everything else stays as typed.
async fn slack(page: &Page) {
    sag(page, SAG_LEFT, ["2 1/8 inn", "2 1/4 in"]).await;
    keep(page).await;
    take(page, "station-asked.png", Some(2000.0)).await;
    for (field, typed) in [("v0", "2 1/8 inn"), ("v1", "2 1/4 in")] {
        assert_eq!(page.typed(&format!("{field}.{SAG_LEFT}")).await, typed);
    }
    for field in ["m", "c"] {
        assert!(page.chosen(&format!("{field}.{SAG_LEFT}"), "yes").await);
    }
    page.type_in(&format!("v0.{SAG_LEFT}"), "2 1/8 in").await;
}

/// The reading is drawn against its limit, and called neither good nor bad.
async fn too_close(page: &Page) {
    page.says("too close to the limit").await;
    assert_eq!(
        1,
        page.find_all(&format!("#p-{SAG_RIGHT} .scale svg"))
            .await
            .len()
    );
    take(page, "station-close.png", Some(2000.0)).await;
}

/// The meter is read, unchanged since last time; the round ends with its verdict.
async fn finish(page: &Page) {
    page.press("Finish the round").await;
    page.says("What does the hour meter show?").await;
    let text = page.text().await;
    let last = text.split("Last read: ").nth(1).unwrap();
    page.type_in(
        "hours",
        last.split('.')
            .take(2)
            .collect::<Vec<_>>()
            .join(".")
            .as_str(),
    )
    .await;
    page.press("Finish the round").await;
    take(page, "verdict.png", Some(2000.0)).await;
}

/// Stood down, the worst first, here and on the yard page.
async fn stood_down(page: &Page, server: &Server) {
    assert_eq!(page.texts("p.verdict").await, ["Stand down"]);
    let reasons = page.texts("ol.reasons li").await;
    assert!(reasons[0].contains(CLIP), "{reasons:?}");
    page.open(&format!("/y/{}", server.tag)).await;
    assert_eq!(page.texts("p.verdict").await, ["Stand down"]);
    assert!(page.texts(".machine li").await[0].contains(CLIP));
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
    let left = ["level-pose", "too-close", "refused", "fault", "function"];
    assert_eq!(codes(&judged), left);
}

/// The verdict as the command gives it.
fn verdict(data: &Path, by: &str) -> Value {
    let said = run(
        data,
        &["--json", "handover", "verdict", MACHINE, "--by", by],
    );
    serde_json::from_slice(&said.stdout).unwrap()
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

/// The entries shown, with what is folded away, without the words for when, which change at midnight.
async fn entries(page: &Page) -> Vec<String> {
    let script = "return [...document.querySelectorAll('main ul.plain > li')].map(entry =>
        [...entry.children].filter(part => part.tagName !== 'SMALL').map(part => part.textContent).join(' '))";
    let told = page.ask(script, vec![]).await;
    let told = told.as_array().unwrap();
    told.iter()
        .map(|entry| entry.as_str().unwrap().to_owned())
        .collect()
}

/// What a restored yard must show as before: the verdict with its reasons, and the last of the journal.
#[derive(Debug, PartialEq)]
struct Shown {
    verdict: Vec<String>,
    reasons: Vec<String>,
    journal: Vec<String>,
    judged: Value,
}

async fn shown(page: &Page, server: &Server, data: &Path) -> Shown {
    page.goto(&format!("{}/m/{MACHINE}", server.home())).await;
    let (verdict_line, reasons) = (
        page.texts("p.verdict").await,
        page.texts("ol.reasons li").await,
    );
    page.goto(&format!("{}/m/{MACHINE}/journal", server.home()))
        .await;
    let mut judged = verdict(data, "Tamsin");
    judged["at"].take();
    Shown {
        verdict: verdict_line,
        reasons,
        journal: entries(page).await,
        judged,
    }
}

/// The server ends, the journal is backed up and restored into an empty folder, and that yard shows the same.
async fn restore(page: &Page, server: Server, folder: &Folder, data: &Path) {
    page.sign_out().await;
    let before = shown(page, &server, data).await;
    assert!(before.journal.len() > 20 && !before.reasons.is_empty());
    server.stop();
    let (backup, restored) = (folder.at("backup"), folder.at("restored"));
    let text = |path: &Path| path.to_str().unwrap().to_owned();
    done(&run(data, &["journal", "backup", &text(&backup)]));
    let into = text(&restored);
    done(&run(
        data,
        &["journal", "restore", &text(&backup), "--into", &into],
    ));
    std::fs::remove_dir_all(data).unwrap();
    let server = Server::start(&restored);
    assert_eq!(before, shown(page, &server, &restored).await);
}

fn done(output: &Output) {
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
}
