//! Every page on a phone: fits, can be hit with gloves on, is labelled, works without scripts and from the keyboard, calls nobody.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::{HEIGHT, WIDTH, drive},
    inspect::INSPECT,
    page::Page,
    program::{Folder, Server},
    well,
};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thirtyfour::Key;

const MACHINE: &str = "marigold";

/// Pages of one kind that are looked at: the second may have what the first lacks.
const OF_A_KIND: usize = 2;

/// Adds one of each thing that the inspection looks for.
const SPOIL: &str = r#"
const add = (tag, look) => document.querySelector('main').append(Object.assign(document.createElement(tag), look));
const css = (element, rules) => Object.entries(rules).forEach(([name, value]) => { element.style[name] = value; });
add('button', { id: 'main', textContent: 'x' });
css(document.querySelector('main button:last-child'), { minHeight: '0', height: '20px', padding: '0' });
add('input', {});
add('div', { role: 'radiogroup' });
add('pre', { textContent: 'x'.repeat(400) });
add('script', {});
add('div', { textContent: 'wide' });
css(document.querySelector('main > div:last-child'), { width: '700px' });
"#;

/// Every address of ours that the page leads to.
const LINKS: &str = "return [...document.querySelectorAll('a[href]')].filter(a => a.origin === location.origin).map(a => a.pathname + a.search)";

/// The views of a page that shows one at a time; one without a name elsewhere.
const VIEWS: &str = "const views = [...document.querySelectorAll('#pocket > section[data-view]')].map(view => view.dataset.view); return views.length ? views : ['']";

/// Shows a view.
const SHOW: &str = "if (arguments[0]) document.querySelectorAll('#pocket > section[data-view]').forEach(view => { view.hidden = view.dataset.view !== arguments[0]; })";

/// What axe-core, a free checker of the web's accessibility guidelines, finds wrong; it is given the rules of WCAG 2.2 AA.
const AXE: &str = "return axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(found =>
    found.violations.map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(' | ')}`))";

/// The checker's text, where KINGPOST_AXE names its file (axe.min.js of the package axe-core). It is no part of this project.
fn axe() -> Option<String> {
    let file = std::env::var_os("KINGPOST_AXE")?;
    Some(std::fs::read_to_string(file).unwrap())
}

#[test]
fn every_page_fits_a_phone_and_gloves() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&server.home()).await;
        let mut wrong = crawl(&page, &server, "nobody").await;
        page.goto(&server.home()).await;
        page.sign_in("Odalys", &server.pin).await;
        wrong.extend(crawl(&page, &server, "steward").await);
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    });
}

/// A page spoilt on purpose: the inspection names each thing.
#[test]
fn the_inspection_finds_what_is_wrong() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&server.home()).await;
        assert_eq!(page.ask(INSPECT, vec![json!(WIDTH)]).await, json!([]));
        page.ask(SPOIL, vec![]).await;
        let found = page.ask(INSPECT, vec![json!(WIDTH)]).await;
        let found: Vec<&str> = strings(&found).collect();
        let named = [
            "wider than the screen",
            "20 px high, not 48",
            "without a label",
            "a group without a label",
            "slides sideways",
            "ids given twice",
            "a script",
        ];
        for what in named {
            assert!(
                found.iter().any(|line| line.contains(what)),
                "{what}: {found:?}"
            );
        }
    });
}

/// Follows every link of ours from the yard page; a few pages of each kind. Gives what is wrong with them.
async fn crawl(page: &Page, server: &Server, who: &str) -> Vec<String> {
    let yard = format!("/y/{}", server.tag);
    let mut waiting = vec![
        yard.clone(),
        format!("{yard}/nowhere"),
        format!("{yard}/m/{MACHINE}/round?list=1"),
    ];
    let (mut seen, mut kinds, mut wrong) = (
        BTreeSet::new(),
        BTreeMap::<String, usize>::new(),
        Vec::new(),
    );
    let axe = axe();
    if axe.is_none() {
        println!("not checked against the guidelines: KINGPOST_AXE names no checker");
    }
    while let Some(path) = waiting.pop() {
        let of_a_kind = kinds.entry(kind_of(&path)).or_default();
        if path.contains(".pdf") || *of_a_kind == OF_A_KIND || !seen.insert(path.clone()) {
            continue;
        }
        *of_a_kind += 1;
        page.goto(&format!("{}{path}", server.address)).await;
        let views = page.ask(VIEWS, vec![]).await;
        for view in strings(&views) {
            let at = format!("{who} at {path}#{view}");
            page.ask(SHOW, vec![json!(view)]).await;
            let mut found: Vec<String> = strings(&page.ask(INSPECT, vec![json!(WIDTH)]).await)
                .map(str::to_owned)
                .collect();
            if let Some(axe) = &axe {
                page.ask(axe, vec![]).await;
                found.extend(strings(&page.ask(AXE, vec![]).await).map(str::to_owned));
            }
            wrong.extend(found.iter().map(|what| format!("{at}: {what}")));
        }
        waiting.extend(strings(&page.ask(LINKS, vec![]).await).map(str::to_owned));
    }
    println!("{who}: {} pages of {} kinds", seen.len(), kinds.len());
    let least = if who == "steward" { 30 } else { 8 };
    assert!(
        kinds.len() >= least,
        "only these pages were found: {:?}",
        kinds.keys()
    );
    wrong
}

/// The address without what differs from one page of a kind to the next. Stations of a round all count: each asks something else.
fn kind_of(path: &str) -> String {
    let part = |part: &str| {
        let id = part.len() >= 16
            && part
                .chars()
                .all(|c| c.is_ascii_hexdigit() || "-.%".contains(c));
        if id || part.contains('%') {
            "*".to_owned()
        } else {
            part.to_owned()
        }
    };
    let (path, asked) = path.split_once('?').unwrap_or((path, ""));
    let mut parts: Vec<String> = path.split('/').map(part).collect();
    if parts.get(1).is_some_and(|first| first == "reckoner") {
        parts.truncate(2);
    }
    let asked: Vec<&str> = asked
        .split('&')
        .filter_map(|pair| pair.split('=').next())
        .collect();
    let finding = parts.iter().position(|part| part == "finding");
    parts.truncate(finding.map_or(parts.len(), |at| at + 1));
    format!("{}?{}", parts.join("/"), asked.join("&"))
}

fn strings(list: &Value) -> impl Iterator<Item = &str> {
    list.as_array()
        .unwrap()
        .iter()
        .map(|one| one.as_str().unwrap())
}

#[test]
fn a_station_works_with_scripts_blocked_at_twice_the_size_and_from_the_keyboard() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.driver
            .cdp()
            .send_raw(
                "Emulation.setScriptExecutionDisabled",
                json!({ "value": true }),
            )
            .await
            .unwrap();
        page.goto(&server.home()).await;
        page.sign_in("Tamsin", &server.pin).await;
        page.open(&format!("/m/{MACHINE}")).await;
        page.press("Walk the machine round").await;
        page.press("Begin").await;
        twice_the_size(&page).await;
        let before = page.texts("header .where").await;
        let book = well::book(well::BOOK);
        for id in well::points_here(&page).await {
            well::answer(&page, &book, &id).await;
        }
        tab_to(&page, "form[action*=\"/round/\"] button.main").await;
        let main = page.driver.active_element().await.unwrap();
        press_enter(&page, &main).await;
        assert_ne!(before, page.texts("header .where").await);
        page.says("station 2 of").await;
    });
}

/// 200 %: the same screen shows half as much, and still nothing is cut off.
async fn twice_the_size(page: &Page) {
    page.take_size(WIDTH / 2, HEIGHT / 2).await;
    let wide = page
        .ask(
            "return [innerWidth, document.scrollingElement.scrollWidth]",
            vec![],
        )
        .await;
    page.take_size(WIDTH, HEIGHT).await;
    assert_eq!(wide, json!([WIDTH / 2, WIDTH / 2]));
}

/// From the top of the page by the tab key alone.
async fn tab_to(page: &Page, css: &str) {
    page.ask("document.activeElement.blur(); scrollTo(0, 0); getSelection().setPosition(document.body, 0)", vec![]).await;
    for _ in 0..400 {
        let active = page.driver.active_element().await.unwrap();
        active.send_keys(Key::Tab).await.unwrap();
        let there = page
            .ask(
                "return document.activeElement.matches(arguments[0])",
                vec![json!(css)],
            )
            .await;
        if there == json!(true) {
            return;
        }
    }
    panic!("the tab key does not lead to {css}");
}

async fn press_enter(page: &Page, element: &thirtyfour::WebElement) {
    let old = page.find("html").await;
    element.send_keys(Key::Enter).await.unwrap();
    page.wait_for_next(&old).await;
}

#[test]
fn the_tab_key_leads_to_the_main_button_of_each_page() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&format!("{}/sign-in", server.home())).await;
        tab_to(&page, "main button.main").await;
        page.goto(&server.home()).await;
        page.sign_in("Odalys", &server.pin).await;
        page.goto(&server.home()).await;
        tab_to(&page, "main a.machine").await;
        for (path, css) in [
            ("", "main a.button.main"),
            ("/round?list=1", "main a.button.main"),
            ("/handover", "main button.main"),
            ("/fault", "main button.main"),
        ] {
            let machine = format!("{}/m/{MACHINE}{path}", server.home());
            page.goto(&machine).await;
            tab_to(&page, css).await;
        }
    });
}

/// The policy of every answer allows nothing but ourselves, and another site cannot frame it.
#[test]
fn the_policy_lets_nothing_in() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&server.home()).await;
        let policy = page.ask("return fetch(location.href).then(got => got.headers.get('content-security-policy'))", vec![]).await;
        let policy = policy.as_str().unwrap();
        for rule in [
            "default-src 'none'",
            "script-src 'self'",
            "style-src 'self'",
            "form-action 'self'",
            "frame-ancestors 'none'",
        ] {
            assert!(policy.contains(rule), "{policy}");
        }
    });
}
