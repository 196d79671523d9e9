//! The pocket in a real browser the size of a phone, with the yard's computer really killed: nothing is lost, nothing comes twice.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::{World, drive_in},
    page::Page,
    pictures::take,
    pocket::{
        all, all_delivered, answer_station, choose_photo, deliver, go, held, journal, lan,
        of_phone, open, stand_down, stations, until, until_says,
    },
    program::{Folder, Server},
    restored::verdict,
    round::{CLIP, MACHINE},
    well,
};
use serde_json::{Value, json};
use std::path::Path;

/// A name of the local network leads here too: a plain address that no browser takes for a secure one.
const LAN: World<'static> = World {
    names: &["yard.lan"],
    root: None,
};
const CLIP_POINT: &str = "dipper-clips-left";

async fn signed_in(page: &Page, home: &str, name: &str, pin: &str) {
    page.goto(home).await;
    page.sign_in(name, pin).await;
}

/// Everything this phone holds is in the journal exactly once, in bytes as written.
async fn exactly_once(page: &Page, data: &Path) -> usize {
    let kept = all(page, "entries").await;
    let journal = journal(data);
    let there = of_phone(&journal, &kept);
    let ids: std::collections::BTreeSet<_> = there.iter().map(|e| e["id"].to_string()).collect();
    assert_eq!(there.len(), kept.len(), "an entry is missing");
    assert_eq!(ids.len(), kept.len(), "an entry came twice");
    kept.len()
}

/// Begun in reach, walked out of reach with a photo, the computer killed and started again meanwhile: on a plain address.
#[test]
fn a_round_walked_out_of_reach_arrives_once() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let book = well::book(well::BOOK);
        let home = lan(&server);
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        assert_eq!(
            page.ask("return window.isSecureContext", vec![]).await,
            json!(false)
        );
        page.says("cannot open pages out of reach").await;
        take(&page, "pocket.png", None).await;
        let stops = stations(&page).await;
        go(&page, &stops[0]).await;
        answer_station(&page, &book, &[]).await;
        all_delivered(&page).await;
        let port = server.port();
        server.kill();
        for stop in &stops[1..] {
            if page.ask("return document.querySelector(`section[data-view=\"${arguments[0]}\"] .not-started`)?.hidden === false", vec![json!(stop)]).await == json!(true) {
                // Stood down by what was found on this phone: the engine is not started any more.
                continue;
            }
            go(&page, stop).await;
            if page
                .find_all(&format!("section[data-view=\"{stop}\"] #p-{CLIP_POINT}"))
                .await
                .is_empty()
            {
                answer_station(&page, &book, &[]).await;
            } else {
                page.ask("document.querySelector('#p-' + arguments[0] + ' details:last-of-type').open = true", vec![json!(CLIP_POINT)]).await;
                choose_photo(&page, &format!("#p-{CLIP_POINT}")).await;
                take(&page, "pocket-station.png", Some(2000.0)).await;
                answer_station(&page, &book, &[(CLIP_POINT, "missing")]).await;
            }
        }
        page.says(&format!("Stand down. Found on this phone: {CLIP}"))
            .await;
        go(&page, "round").await;
        page.type_in("hours", "not read").await;
        page.find("#close-round").await.click().await.unwrap();
        until_says(
            &page,
            "#said",
            "The round is finished and kept on this phone.",
        )
        .await;
        until_says(&page, "#reach", "Out of reach of the yard's computer").await;
        take(&page, "pocket-out-of-reach.png", None).await;
        let waiting = held(&page, "entries", "waiting").await;
        assert!(waiting > 5, "only {waiting} wait");
        assert_eq!(held(&page, "photos", "waiting").await, 1);

        let server = Server::start_at(&data, port);
        deliver(&page).await;
        all_delivered(&page).await;
        exactly_once(&page, &data).await;
        // The page has taken in the verdict that counts it in.
        until_says(&page, "#verdict-word", "Stand down").await;
        until_says(&page, "#reach", "Nothing waits on this phone.").await;
        let judged = verdict(&data, "Tamsin");
        assert_eq!(judged["verdict"], "stand-down");
        assert_eq!(judged["reasons"][0]["code"], "pin-clip");
        page.goto(&format!("{}/m/{MACHINE}/journal", home)).await;
        until(&page, "return [...document.querySelectorAll('img')].some(image => image.complete && image.naturalWidth > 0)").await;
        server.stop();
    });
}

/// The computer takes what is sent and dies before it can say so; then again, half way through a long delivery.
#[test]
fn a_lost_answer_and_a_death_in_the_middle_lose_and_double_nothing() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = lan(&server);
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        // The answer to the first delivery is lost on the way.
        page.ask("const real = window.fetch; let lost = 0; window.fetch = async (to, ask) => { const got = await real(to, ask);
            if (String(to).includes('/deliveries') && lost === 0) { lost = 1; window.lost = true; throw new TypeError('lost'); } return got; }", vec![]).await;
        note(&page, "the answer to this is lost").await;
        until(&page, "return window.lost === true").await;
        deliver(&page).await;
        all_delivered(&page).await;
        // Ninety more out of reach; the computer comes back and is killed as soon as the first batch has arrived.
        let port = server.port();
        server.kill();
        for n in 0..90 {
            note(&page, &format!("note {n}")).await;
        }
        page.ask("const before = window.fetch; window.batches = 0; window.fetch = async (to, ask) => { if (String(to).includes('/deliveries')) {
            if (window.batches === 1) { window.waits = true; await new Promise(go => { window.release = go; }); } window.batches += 1; } return before(to, ask); }", vec![]).await;
        let server = Server::start_at(&data, port);
        deliver(&page).await;
        until(&page, "return window.waits === true").await;
        assert_eq!(held(&page, "entries", "waiting").await, 50);
        server.kill();
        page.ask("window.batches = 9; window.release()", vec![])
            .await;
        until_says(&page, "#reach", "Out of reach").await;
        let server = Server::start_at(&data, port);
        deliver(&page).await;
        all_delivered(&page).await;
        assert_eq!(exactly_once(&page, &data).await, 91);
        let kept = all(&page, "entries").await;
        let mut counters: Vec<u64> = kept
            .iter()
            .map(|one| one["counter"].as_u64().unwrap())
            .collect();
        counters.sort_unstable();
        assert_eq!(counters, (1..=91).collect::<Vec<_>>());
        server.stop();
    });
}

/// Started cold out of reach, where the worker is; two tabs and the worker deliver the same.
#[test]
fn a_cold_start_out_of_reach_and_two_tabs() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = server.home();
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        until(&page, "return navigator.serviceWorker.ready.then(worker => worker.active?.state === 'activated')").await;
        until(&page, "return navigator.serviceWorker.controller !== null").await;
        // One visit is enough: the worker is told what the page needs.
        until(&page, "return Promise.all([location.pathname, location.pathname.split('/m/')[0] + '/pocket', new URL(document.querySelector('script[type=module]').src).pathname]
            .map(path => caches.match(path))).then(all => all.every(Boolean))").await;
        let port = server.port();
        server.kill();
        page.goto("about:blank").await;
        open(&page, &home, MACHINE).await;
        until_says(&page, "#reach", "Out of reach").await;
        assert_eq!(
            page.ask("return document.body.hasAttribute('data-kept')", vec![])
                .await,
            json!(true)
        );
        for n in 0..5 {
            note(&page, &format!("cold {n}")).await;
        }
        // Any other page of the yard leads to what this phone holds.
        page.goto(&home).await;
        page.says("In your pocket").await;
        until_says(&page, "#reach", "5 entries are on this phone only").await;
        take(&page, "pocket-shelf.png", None).await;
        let first = page.driver.window().await.unwrap();
        let second = page.driver.new_tab().await.unwrap();
        page.driver.switch_to_window(second).await.unwrap();
        open(&page, &home, MACHINE).await;
        let server = Server::start_at(&data, port);
        deliver(&page).await;
        page.driver.switch_to_window(first).await.unwrap();
        deliver(&page).await;
        all_delivered(&page).await;
        assert_eq!(exactly_once(&page, &data).await, 5);
        // No name of anybody stays in what the worker kept.
        let kept = "return caches.open('pages').then(async pages => (await Promise.all((await pages.keys()).map(async key => (await pages.match(key)).text()))).join(' '))";
        let pages = page.ask(kept, vec![]).await;
        let pages = pages.as_str().unwrap();
        assert!(pages.contains("data-pocket") && pages.len() > 10_000);
        for name in ["Odalys", "Bram", "Tamsin", "Ines", "Jory"] {
            assert!(
                !pages.contains(name),
                "{name} is in a page that a phone keeps"
            );
        }
        server.stop();
    });
}

/// The page this phone keeps is older than what it found since: though that is delivered, the old verdict is not shown as if it counted it in.
#[test]
fn a_kept_page_does_not_forget_what_was_found_after_it() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = server.home();
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        until(&page, "return navigator.serviceWorker.controller !== null").await;
        until(
            &page,
            "return caches.match(location.pathname).then(page => page !== undefined)",
        )
        .await;
        let port = server.port();
        server.kill();
        stand_down(&page, "Knock in the engine").await;
        // Another page delivers it; the pocket page that is kept stays as it was.
        page.goto("about:blank").await;
        let server = Server::start_at(&data, port);
        page.goto(&home).await;
        all_delivered(&page).await;
        server.kill();
        open(&page, &home, MACHINE).await;
        until_says(
            &page,
            "#worse",
            "Stand down. Found on this phone: Knock in the engine",
        )
        .await;
        let shown = "return document.getElementById('worse').hidden === false && document.getElementById('verdict-now').hidden";
        assert_eq!(page.ask(shown, vec![]).await, json!(true));
    });
}

/// A sign-in that ended meanwhile, another person's entries, an entry that is refused, a clock a day ahead: each kept, none in the way.
#[test]
fn what_cannot_be_delivered_now_is_kept_and_blocks_nothing() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = lan(&server);
        page.driver.cdp().send_raw("Page.addScriptToEvaluateOnNewDocument", json!({ "source": "const real = Date.now; Date.now = () => real() + 86400000;
            const D = Date; Date = class extends D { constructor(...all) { super(...(all.length ? all : [D.now()])); } };" })).await.unwrap();
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        page.driver.delete_all_cookies().await.unwrap();
        stand_down(&page, "Knock in the engine").await;
        until(
            &page,
            "return document.getElementById('sign-in-to-deliver').hidden === false",
        )
        .await;
        assert_eq!(held(&page, "entries", "waiting").await, 1);
        // One that no computer takes: another yard's. It is put aside and the others go on.
        page.ask("return new Promise(done => { const ask = indexedDB.open('kingpost'); ask.onsuccess = () => {
            const entries = ask.result.transaction(['entries'], 'readwrite').objectStore('entries'); const all = entries.getAll();
            all.onsuccess = () => { const one = all.result[0]; const id = one.id.replace(/.$/, one.id.endsWith('0') ? '1' : '0');
                entries.put({ ...one, id, counter: 0, text: one.text.replace(one.id, id).replace(JSON.parse(one.text).yard, '00000000-0000-7000-8000-000000000001') });
                entries.transaction.oncomplete = () => done(true); }; }; })", vec![]).await;
        // Somebody else signs in on this phone: what is hers stays hers.
        page.find("#sign-in-to-deliver")
            .await
            .click()
            .await
            .unwrap();
        until(&page, "return location.pathname.endsWith('/sign-in')").await;
        sign_in_here(&page, "Ines", &server.pin).await;
        // Whatever the yard's computer says of the machine, the next person on this phone sees what waits here.
        page.goto(&format!("{home}/m/{MACHINE}")).await;
        until_says(
            &page,
            "#unsent",
            "the yard does not know it yet: marigold: Knock in the engine",
        )
        .await;
        take(&page, "machine-with-unsent.png", None).await;
        open(&page, &home, MACHINE).await;
        until(
            &page,
            "return document.body.textContent.includes('written by somebody else on this phone')",
        )
        .await;
        until(
            &page,
            "return document.body.textContent.includes('not taken:')",
        )
        .await;
        take(&page, "pocket-aside.png", None).await;
        assert_eq!(
            (
                held(&page, "entries", "waiting").await,
                held(&page, "entries", "aside").await
            ),
            (1, 1)
        );
        page.sign_out().await;
        page.goto(&home).await;
        page.sign_in("Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        all_delivered(&page).await;
        let written = journal(&data);
        let kept = all(&page, "entries").await;
        let there = of_phone(&written, &kept);
        assert_eq!(there.len(), 1);
        assert_eq!(there[0]["clock_corrected"], json!(true));
        assert!(there[0]["ordered_at"].as_str().unwrap() <= there[0]["written"].as_str().unwrap());
        server.stop();
    });
}

/// A clock that was set back out of reach makes no verdict younger: nobody can tell its age any more, so it is taken away.
#[test]
fn a_clock_set_back_takes_the_verdict_away() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = lan(&server);
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        // Walked well in reach: a verdict that is none to stand down, shown with its end.
        let book = well::book(well::BOOK);
        for stop in stations(&page).await {
            go(&page, &stop).await;
            // What somebody reported there has to be answered by itself.
            answer_station(&page, &book, &[("horn-lights", "works")]).await;
        }
        go(&page, "round").await;
        page.type_in("hours", "not read").await;
        page.find("#close-round").await.click().await.unwrap();
        all_delivered(&page).await;
        until_says(&page, "#verdict-word", "Run with care").await;
        let shown = "return [!document.getElementById('verdict-now').hidden, !document.getElementById('verdict-gone').hidden]";
        let verdict = "const page = JSON.parse(document.getElementById('pocket').dataset.pocket); return [page.verdict, page.until > Date.now()]";
        assert_eq!(page.ask(verdict, vec![]).await, json!(["care", true]));
        assert_eq!(page.ask(shown, vec![]).await, json!([true, false]));
        server.kill();
        note(&page, "written before the clock was set back").await;
        assert_eq!(page.ask(shown, vec![]).await, json!([true, false]));
        page.ask(
            "const real = Date.now; Date.now = () => real() - 3600000",
            vec![],
        )
        .await;
        note(&page, "written after it").await;
        until(&page, "return document.getElementById('verdict-now').hidden && !document.getElementById('verdict-gone').hidden").await;
        let starts = "return document.getElementById('may-start').hidden";
        assert_eq!(page.ask(starts, vec![]).await, json!(true));
    });
}

/// Writes a note in the pocket and waits until it is kept.
async fn note(page: &Page, text: &str) {
    let before = all(page, "entries").await.len();
    go(page, "note").await;
    page.ask("document.querySelector('form[data-keeps=note] textarea').value = arguments[0]; document.querySelector('form[data-keeps=note] button').click()", vec![json!(text)]).await;
    for _ in 0..400 {
        if all(page, "entries").await.len() > before {
            return;
        }
    }
    panic!("not kept: {text}");
}

/// Signs in on the sign-in page that is shown.
async fn sign_in_here(page: &Page, name: &str, pin: &str) {
    page.choose("Who are you", name).await;
    page.type_in("pin", pin).await;
    let button = page.find("main button").await;
    page.follow(&button).await;
}

/// What is read of a form on the phone is what the journal's own form says: every choice of every point of the demo's book.
#[test]
fn what_a_phone_reads_is_what_the_journal_means() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let book = well::book(well::BOOK);
        let home = server.home();
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        let script = "const { readPoint } = await import(document.querySelector('script[type=module]').src.replace('pocket.js', 'read.js'));
            const say = { say: key => key }; const all = {};
            for (const fields of document.querySelectorAll('fieldset[data-point]')) {
                const id = fields.dataset.point; all[id] = {};
                for (const input of fields.querySelectorAll(`input[name='a.${id}'], input[name='why.${id}']`)) {
                    fields.querySelectorAll('input').forEach(other => { other.checked = false; });
                    input.checked = true;
                    const read = readPoint(fields, false, false, say);
                    all[id][input.name.split('.')[0] + ' ' + input.value] = read.answer ?? null;
                }
                fields.querySelectorAll('input').forEach(other => { other.checked = false; });
                const well = readPoint(fields, true, false, say); all[id]['rest well'] = well.answer ?? null;
            }
            return all;";
        let read = page
            .ask(&format!("return (async () => {{ {script} }})()"), vec![])
            .await;
        let mut compared = 0;
        for (id, answers) in read.as_object().unwrap() {
            let point = book
                .points
                .iter()
                .find(|point| point.id.as_str() == id)
                .unwrap();
            for (choice, answer) in answers.as_object().unwrap() {
                // A point with something open is not answered by the one tap for the rest.
                if choice == "rest well" && answer.is_null() {
                    continue;
                }
                let expected = browser::meant::answer(point, choice);
                assert_eq!(
                    answer,
                    &expected
                        .as_ref()
                        .map_or(Value::Null, store::form::answer_json),
                    "{id}: {choice}"
                );
                compared += usize::from(expected.is_some());
            }
        }
        assert!(compared > 300, "only {compared} compared");
        quantities(&page).await;
        server.stop();
    });
}

/// What the phone takes for a quantity, the yard's computer reads; and it asks about the usual slips.
async fn quantities(page: &Page) {
    let right = [
        "2 1/8 in",
        "1-3/4 in",
        "1¾ in",
        "½ in",
        "44.5 mm",
        "5' 3/4\"",
        "5 ft 3 in",
        "2 in ± 1/16",
        "2 in ± 1/16 in",
        "19 mm +/- 0.5 mm",
        "-12.5 °C",
        "180 bar",
        "3/4 in",
        "812.3 h",
        "0.75in",
        "6 1/2 in",
        "12 L",
        "40 psi",
        "850 rpm",
    ];
    let wrong = [
        "2 1/8 inn",
        "in",
        "2",
        "abc",
        "2 in mm",
        "2 in ±",
        "± 2 in",
        "1,5 mm",
        "1/0 in",
        "2 1/8",
        "12 furlongs",
        "",
    ];
    let script = "const { quantity } = await import(document.querySelector('script[type=module]').src.replace('pocket.js', 'quantity.js'));
        return arguments[0].map(text => quantity(text, null, { comma: false, bare: false })?.written ?? null)";
    let script = format!("return (async (...arguments) => {{ {script} }})(...arguments)")
        .replace("(...arguments) =>", "(...arguments_) =>")
        .replace("arguments[0].map", "arguments_[0].map");
    let read = page.ask(&script, vec![json!(right)]).await;
    for (text, written) in right.iter().zip(read.as_array().unwrap()) {
        let written = written
            .as_str()
            .unwrap_or_else(|| panic!("asked about: {text}"));
        quantity::parse(written, &quantity::Habits::default(), None)
            .unwrap_or_else(|trouble| panic!("{written}: {trouble:?}"));
    }
    bare(page, &script).await;
    let read = page.ask(&script, vec![json!(wrong)]).await;
    for (text, written) in wrong.iter().zip(read.as_array().unwrap()) {
        assert_eq!(written, &Value::Null, "{text} is taken");
    }
}

/// A number without a unit is in the unit beside its field, on the phone as on the yard's computer.
async fn bare(page: &Page, script: &str) {
    let texts = [
        "2",
        "2 1/8",
        "44.5",
        "2 ± 1/16",
        "2 ± 1/16 in",
        "1¾",
        "50 mm",
        "-3",
    ];
    let script = script
        .replace("text, null,", "text, 'in',")
        .replace("bare: false", "bare: true");
    let read = page.ask(&script, vec![json!(texts)]).await;
    let habits = quantity::Habits::default();
    for (text, written) in texts.iter().zip(read.as_array().unwrap()) {
        let written = written
            .as_str()
            .unwrap_or_else(|| panic!("asked about: {text}"));
        let phone = quantity::parse(written, &habits, None)
            .unwrap_or_else(|trouble| panic!("{written}: {trouble:?}"));
        let yard = quantity::parse_in(text, Some(quantity::Unit::Inch), &habits).unwrap();
        let told = |one: &quantity::Quantity| {
            (
                one.value().clone(),
                one.unit(),
                one.plus_minus_in(one.unit()),
            )
        };
        assert_eq!(told(&phone), told(&yard), "{text}");
    }
}

/// Handed over out of reach: the old verdict was for the run that is over, so nobody starts on it; an engine left running is red.
#[test]
fn a_handover_out_of_reach_ends_the_verdict() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    drive_in(&LAN, async move |page: Page| {
        let home = lan(&server);
        signed_in(&page, &home, "Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        let port = server.port();
        server.kill();
        let leave = "const form = document.querySelector('form[data-keeps=handover]');
            for (const input of form.querySelectorAll('input[value=done]')) input.checked = true;
            form.querySelector(`input[name=engine][value=${arguments[0]}]`).checked = true;
            form.querySelector('button.main').click();";
        go(&page, "handover").await;
        page.ask(leave, vec![json!("off")]).await;
        until(
            &page,
            "return !document.getElementById('handed-over').hidden",
        )
        .await;
        let states = "return ['verdict-now', 'may-start', 'worse'].map(id => document.getElementById(id).hidden)";
        assert_eq!(page.ask(states, vec![]).await, json!([true, true, true]));
        take(&page, "pocket-handed-over.png", None).await;
        go(&page, "run").await;
        take(&page, "pocket-no-start.png", None).await;
        go(&page, "handover").await;
        page.ask(leave, vec![json!("running")]).await;
        until_says(&page, "#worse", "The engine was left running").await;
        go(&page, "round").await;
        take(&page, "pocket-round-engine-off.png", None).await;
        // Signed out out of reach: nobody writes here any more, also once the yard's computer is back.
        page.ask(
            "document.querySelector('form[data-signs-out] button').click()",
            vec![],
        )
        .await;
        until_says(&page, "#said", "You are signed out on this phone").await;
        until(&page, "return !document.getElementById('nobody').hidden").await;
        let server = Server::start_at(&data, port);
        page.goto(&home).await;
        until(
            &page,
            "return 'nobody' in document.body.dataset && document.readyState === 'complete'",
        )
        .await;
        server.stop();
    });
}
