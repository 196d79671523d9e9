//! What one does in the pocket: open it, go to a view, keep something, look at what waits; and cut the computer off.

use super::{page::Page, program::Server, well};
use serde_json::{Value, json};
use std::time::Duration;
use yard::book::Book;

const AGAIN: Duration = Duration::from_millis(25);
/// How often a page is looked at before it is given up: some fifteen seconds.
const TRIES: usize = 600;

/// Opens the pocket of a machine and waits until its script has begun.
pub async fn open(page: &Page, home: &str, machine: &str) {
    page.goto(&format!("{home}/m/{machine}/pocket")).await;
    begun(page).await;
}

/// Waits until the pocket's script has begun and has looked for the yard's computer.
pub async fn begun(page: &Page) {
    until(
        page,
        "return document.getElementById('reach')?.textContent !== ''",
    )
    .await;
}

/// Waits until a script's question is answered with yes.
pub async fn until(page: &Page, question: &str) {
    for _ in 0..TRIES {
        if page.ask(question, vec![]).await == json!(true) {
            return;
        }
        tokio::time::sleep(AGAIN).await;
    }
    panic!("never so: {question}");
}

/// Waits until what is in this element's text.
pub async fn until_says(page: &Page, css: &str, what: &str) {
    let question = format!(
        "return (document.querySelector({}) ?? document.body).textContent.includes({})",
        json!(css),
        json!(what)
    );
    until(page, &question).await;
}

/// Goes to a view.
pub async fn go(page: &Page, view: &str) {
    page.ask("location.hash = arguments[0]", vec![json!(view)])
        .await;
    until(
        page,
        &format!(
            "return document.querySelector('section[data-view={}]').hidden === false",
            json!(view)
        ),
    )
    .await;
}

/// Which view is shown.
pub async fn view(page: &Page) -> String {
    let shown = "return [...document.querySelectorAll('#pocket > section[data-view]')].find(view => !view.hidden).dataset.view";
    page.ask(shown, vec![]).await.as_str().unwrap().to_owned()
}

/// Every station of the round, in order.
pub async fn stations(page: &Page) -> Vec<String> {
    let all = "return [...document.querySelectorAll('section[data-station]')].map(view => view.dataset.view)";
    texts(&page.ask(all, vec![]).await)
}

/// The points of the view shown that are not answered yet.
pub async fn points_here(page: &Page) -> Vec<String> {
    let all = "return [...document.querySelectorAll('#pocket > section:not([hidden]) fieldset[data-point]')].map(point => point.dataset.point)";
    texts(&page.ask(all, vec![]).await)
}

/// Answers every point of the view shown as well, but for those of `amiss`, and keeps them.
pub async fn answer_station(page: &Page, book: &Book, amiss: &[(&str, &str)]) {
    let here = view(page).await;
    for id in points_here(page).await {
        match amiss.iter().find(|(point, _)| *point == id) {
            Some((_, code)) => page.choose_field(&format!("a.{id}"), code).await,
            None => well::answer(page, book, &id).await,
        }
    }
    let button = page
        .find("#pocket > section:not([hidden]) form button.main")
        .await;
    button.click().await.unwrap();
    until(
        page,
        &format!(
            "return document.querySelector('section[data-view={}]').hidden === true",
            json!(here)
        ),
    )
    .await;
}

/// What the browser's own database holds: entries and photos, by what became of them.
pub async fn held(page: &Page, store: &str, state: &str) -> usize {
    all(page, store)
        .await
        .iter()
        .filter(|one| one["state"] == state)
        .count()
}

/// Everything in one store of the browser's own database; pictures themselves left out.
pub async fn all(page: &Page, store: &str) -> Vec<Value> {
    let script = "return new Promise(done => { const ask = indexedDB.open('kingpost'); ask.onsuccess = () => {
        const all = ask.result.transaction([arguments[0]]).objectStore(arguments[0]).getAll();
        all.onsuccess = () => { ask.result.close(); done(all.result.map(one => ({ ...one, blob: undefined }))); }; }; })";
    page.ask(script, vec![json!(store)])
        .await
        .as_array()
        .unwrap()
        .clone()
}

/// Stands the machine down in the pocket and waits until that is kept.
pub async fn stand_down(page: &Page, why: &str) {
    go(page, "stand-down").await;
    page.type_in("why", why).await;
    page.find("form[data-keeps=stand-down] button")
        .await
        .click()
        .await
        .unwrap();
    until_says(page, "#worse", why).await;
}

/// Waits until nothing waits any more.
pub async fn all_delivered(page: &Page) {
    for _ in 0..TRIES {
        let waits = held(page, "entries", "waiting").await + held(page, "photos", "waiting").await;
        if waits == 0 {
            return;
        }
        tokio::time::sleep(AGAIN).await;
    }
    panic!("still waiting: {:?}", all(page, "entries").await);
}

/// Presses the button that delivers.
pub async fn deliver(page: &Page) {
    page.ask("document.getElementById('deliver-now').click()", vec![])
        .await;
}

/// The journal as the program lists it, oldest first.
pub fn journal(data: &std::path::Path) -> Vec<Value> {
    let told = super::program::run(data, &["--json", "journal", "list", "--last", "1000000"]);
    assert!(
        told.status.success(),
        "{}",
        String::from_utf8_lossy(&told.stderr)
    );
    let told: Value = serde_json::from_slice(&told.stdout).unwrap();
    told["entries"].as_array().unwrap().clone()
}

/// The entries of a journal that these phones wrote, by the ids their databases hold.
pub fn of_phone<'a>(journal: &'a [Value], kept: &[Value]) -> Vec<&'a Value> {
    let ours = |entry: &&Value| kept.iter().any(|one| one["id"] == entry["id"]);
    journal.iter().filter(ours).collect()
}

/// Chooses a picture in the photo field of this place: one drawn here and now, larger than what is kept.
pub async fn choose_photo(page: &Page, within: &str) {
    let script = "const field = document.querySelector(arguments[0] + ' [data-photo]');
        const canvas = Object.assign(document.createElement('canvas'), { width: 2400, height: 1800 });
        const pen = canvas.getContext('2d');
        for (let i = 0; i < 40; i += 1) { pen.fillStyle = `hsl(${i * 9} 60% 50%)`; pen.fillRect(i * 60, 0, 60, 1800); }
        return new Promise(done => canvas.toBlob(blob => {
            const files = new DataTransfer(); files.items.add(new File([blob], 'clip.jpg', { type: 'image/jpeg' }));
            field.files = files.files; field.dispatchEvent(new Event('change', { bubbles: true })); done(true);
        }, 'image/jpeg'))";
    page.ask(script, vec![json!(within)]).await;
    let there = format!(
        "return document.querySelector({}) !== null",
        json!(format!("{within} [data-photo-id]"))
    );
    until(page, &there).await;
}

/// The address of a server under a name of the local network, which is no secure place for a browser.
pub fn lan(server: &Server) -> String {
    server.home().replace("127.0.0.1", "yard.lan")
}

fn texts(value: &Value) -> Vec<String> {
    let all = value.as_array().unwrap().iter();
    all.map(|text| text.as_str().unwrap().to_owned()).collect()
}
