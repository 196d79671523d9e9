//! What a phone could not send: square codes that other programs read, parts in any order, text that mail programs mangled.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::drive,
    page::Page,
    pictures::take,
    program::{Folder, Server},
    squares,
};
use serde_json::{Value, json};
use std::{
    path::{Path, PathBuf},
    sync::{Arc, Mutex},
};
use store::{NewEntry, Store, write_entry};
use uuid::Uuid;
use yard::{
    entry::{Body, Note},
    id::{DeviceId, EntryId, MachineId, PersonId, YardId},
};

/// Codewords in all, and of data at levels L and M, versions 1 to 20. Source: ISO/IEC 18004:2015, tables 1 and 7.
const TOTAL: [u32; 20] = [
    26, 44, 70, 100, 134, 172, 196, 242, 292, 346, 404, 466, 532, 581, 655, 733, 815, 901, 991,
    1085,
];
const DATA_L: [u32; 20] = [
    19, 34, 55, 80, 108, 136, 156, 194, 232, 274, 324, 370, 428, 461, 523, 589, 647, 721, 795, 861,
];
const DATA_M: [u32; 20] = [
    16, 28, 44, 64, 86, 108, 124, 154, 182, 216, 254, 290, 334, 365, 415, 453, 507, 563, 627, 669,
];

/// Codes of every version and level, filled to the last byte, to the last but one and hardly, with the mask of least penalty and with
/// each other one; each as its text, size and modules row by row.
const EVERY_CODE: &str = r#"
return import('/static/0/qr.js').then(({ qrModules, qrMakeUp }) => {
    const codes = [];
    const add = (level, version, length, mask) => {
        const letter = (_, i) => String.fromCharCode(33 + (i * 7919 + version * 31 + length * 17) % 90);
        const text = Array.from({ length }, letter).join('');
        const { size, dark } = qrModules(new TextEncoder().encode(text), { level, version, mask });
        const modules = Array.from({ length: size * size }, (_, i) => dark(i % size, Math.floor(i / size)) ? '1' : '0').join('');
        codes.push({ text, size, modules });
    };
    for (const level of ['L', 'M']) {
        for (let version = 1; version <= 20; version += 1) {
            const { bytes } = qrMakeUp(version, level);
            for (const length of [1, bytes]) add(level, version, length);
            add(level, version, bytes - 1, version % 8);
        }
    }
    for (const version of [1, 7, 10]) for (let mask = 0; mask < 8; mask += 1) add('M', version, 10, mask);
    return codes;
});
"#;

#[test]
fn every_version_level_and_mask_is_read_by_another_program() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&server.home()).await;
        let made = page
            .ask(
                "return import('/static/0/qr.js').then(({ qrMakeUp }) => ['L', 'M'].map(level =>
                    Array.from({ length: 20 }, (_, i) => qrMakeUp(i + 1, level)).map(of => [of.total, of.data])))",
                vec![],
            )
            .await;
        let published = [DATA_L, DATA_M].map(|data| {
            let both = TOTAL
                .iter()
                .zip(data)
                .map(|(total, data)| json!([total, data]));
            Value::Array(both.collect())
        });
        assert_eq!(made, json!(published));
        let codes = page.ask(EVERY_CODE, vec![]).await;
        let codes = codes.as_array().unwrap();
        assert_eq!(codes.len(), 2 * 20 * 3 + 3 * 8);
        let (mut texts, mut pictures) = (Vec::new(), Vec::new());
        for code in codes {
            let text = |name: &str| code[name].as_str().unwrap().to_owned();
            texts.push(text("text"));
            pictures.push(squares::bitmap(
                &text("modules"),
                code["size"].as_u64().unwrap(),
            ));
        }
        assert_eq!(squares::read(&pictures), texts);
    });
}

/// What is too long for a version or for all of them is told, not cut.
#[test]
fn what_does_not_fit_is_refused() {
    let folder = Folder::new();
    let server = Server::start(&folder.at("yard"));
    drive(async move |page: Page| {
        page.goto(&server.home()).await;
        let told = page
            .ask(
                "return import('/static/0/qr.js').then(({ qrModules }) => [[18, 1], [859, undefined], [3, 21]].map(([length, version]) => {
                    try { qrModules(new Uint8Array(length), { level: 'L', version }); return 'made'; } catch (error) { return error.name; }
                }))",
                vec![],
            )
            .await;
        assert_eq!(told, json!(["RangeError", "RangeError", "RangeError"]));
    });
}

// --- From one phone to another ---

/// Words for the way out, so that the test says what it presses.
fn copy_out_words() -> Value {
    json!({
        "copy-out-head": "Take this in at {address}.", "copy-out-text-title": "As text", "copy-out-text-how": "Send it.", "copy-out-text-label": "The text",
        "copy-out-copy": "Copy", "copy-out-copied": "Copied", "copy-out-copy-by-hand": "Copy by hand", "copy-out-share": "Share", "copy-out-save": "Save",
        "copy-out-file-name": "entries.txt", "copy-out-codes-title": "As codes", "copy-out-codes-how": "Hold a camera to it.", "copy-out-codes-many": "Many codes.",
        "copy-out-codes-show": "Show the codes", "copy-out-codes-hide": "Hide the codes", "copy-out-place": "{n} of {of}", "copy-out-code-title": "Code {n} of {of}",
        "copy-out-next": "On", "copy-out-back": "Before", "copy-out-run": "By itself", "copy-out-pause": "Hold", "copy-out-photos": "Photos left: {n}",
    })
}

const SHOW: &str = "
const box = Object.assign(document.createElement('div'), { id: 'out' });
document.querySelector('main').replaceChildren(box);
return import('/static/0/copy-out.js').then(({ renderCopyOut }) => renderCopyOut(box, ...arguments));
";

/// Three notes of one writer about the machine, one of them long, with letters beyond ASCII; exactly as a phone writes them.
fn three_entries(yard: YardId, by: PersonId) -> Vec<String> {
    // Not the same letters over and over: packing must not make it one small part.
    let long: String = (0u32..260)
        .map(|i| format!("{} ", i.wrapping_mul(2_654_435_761) >> 11))
        .collect();
    let texts = [
        "Café by the gate: é, ½ in, “quoted”",
        long.as_str(),
        "Short",
    ];
    let entry = |(i, text): (usize, &&str)| {
        let note = NewEntry {
            id: EntryId(Uuid::from_u128(
                0x0190_0000_0000_7000_8000_0000_0000_0001 + i as u128,
            )),
            yard,
            machine: Some(MachineId::new("marigold").unwrap()),
            at: jiff::Timestamp::now(),
            by,
            device: DeviceId("phone 0a1b2c3d".to_owned()),
            counter: i as u64 + 1,
            body: Body::Note(Note {
                point: None,
                text: (*text).to_owned(),
            }),
        };
        String::from_utf8(write_entry(&note)).unwrap()
    };
    texts.iter().enumerate().map(entry).collect()
}

fn writer(data: &Path, name: &str) -> (YardId, PersonId) {
    let yard = Store::open_to_look(data).unwrap().yard().unwrap();
    let people = yard.people().unwrap();
    let person = people
        .iter()
        .find(|person| person.name.as_deref() == Some(name));
    (yard.id(), person.unwrap().id)
}

/// What left a phone: each code as another program read it off the screen, and the text.
#[derive(Clone, Default)]
struct CopiedOut {
    codes: Vec<String>,
    text: String,
}

/// Copies entries out on a phone of its own, which goes when it is done.
fn copy_out(server: &Server, entries: &[String]) -> CopiedOut {
    let out = Arc::new(Mutex::new(CopiedOut::default()));
    let (kept, home, entries) = (out.clone(), server.home(), json!(entries));
    let (address, tag) = (json!(server.address), json!(server.tag));
    drive(async move |page: Page| {
        page.goto(&format!("{home}/take-in")).await;
        let args = vec![entries, copy_out_words(), address, tag];
        page.ask(SHOW, args).await;
        let text = page.find("textarea.armour").await;
        let text = text.prop("value").await.unwrap().unwrap();
        assert!(text.starts_with(&format!("Take this in at {home}/take-in.\n")));
        let codes = codes_on_screen(&page).await;
        *kept.lock().unwrap() = CopiedOut { codes, text };
    });
    out.lock().unwrap().clone()
}

/// Shows the codes one after the other, as large as the screen allows, and reads each off the screen.
async fn codes_on_screen(page: &Page) -> Vec<String> {
    tap(page, "Show the codes").await;
    let place = page.find("#out [role=status].strong").await;
    let of = place.text().await.unwrap();
    let of: usize = of.strip_prefix("1 of ").unwrap().parse().unwrap();
    let mut screens = Vec::new();
    for n in 1..=of {
        assert_eq!(place.text().await.unwrap(), format!("{n} of {of}"));
        assert_eq!(page.find_all(".code svg[role=img]").await.len(), 1);
        let name = page
            .find(".code title")
            .await
            .prop("textContent")
            .await
            .unwrap();
        assert_eq!(name, Some(format!("Code {n} of {of}")));
        assert!(
            squares::fits(page).await,
            "code {n} is not all on the screen"
        );
        screens.push(squares::screen(page).await);
        if n == 1 {
            take(page, "copy-out.png", Some(2400.0)).await;
        }
        if n < of {
            tap(page, "On").await;
        }
    }
    tap(page, "On").await;
    assert_eq!(place.text().await.unwrap(), format!("1 of {of}"));
    tap(page, "Before").await;
    assert_eq!(place.text().await.unwrap(), format!("{of} of {of}"));
    tap(page, "By itself").await;
    tap(page, "Hold").await;
    tap(page, "Hide the codes").await;
    assert!(!page.find(".code").await.is_displayed().await.unwrap());
    squares::read(&screens)
}

/// Presses a button that leads to no other page.
async fn tap(page: &Page, word: &str) {
    let script = "const button = [...document.querySelectorAll('button')].find(b => b.textContent === arguments[0] && b.checkVisibility());
        button.click()";
    page.ask(script, vec![json!(word)]).await;
}

/// Waits, frame by frame, until the page says this.
async fn until_it_says(page: &Page, what: &str) {
    let script = "return new Promise(done => {
        const look = () => document.body.innerText.includes(arguments[0]) ? done(true) : requestAnimationFrame(look);
        look();
    })";
    page.ask(script, vec![json!(what)]).await;
}

/// Opens the page to take in, as a tab of its own does.
async fn open(page: &Page, address: &str) {
    page.goto("about:blank").await;
    page.goto(address).await;
}

/// Tells what the entries on the page came to: id and result of each, in order.
async fn results(page: &Page) -> Vec<(String, String)> {
    let script = "return [...document.querySelectorAll('li[data-entry]')].map(li => [li.dataset.entry, li.dataset.is])";
    serde_json::from_value(page.ask(script, vec![]).await).unwrap()
}

fn ids(entries: &[String]) -> Vec<String> {
    let id = |text: &String| {
        serde_json::from_str::<Value>(text).unwrap()["id"]
            .as_str()
            .unwrap()
            .to_owned()
    };
    entries.iter().map(id).collect()
}

/// How often each of the entries stands in the yard's journal, byte for byte.
fn in_journal(data: &Path, entries: &[String]) -> Vec<usize> {
    let yard = Store::open_to_look(data).unwrap().yard().unwrap();
    let rows = yard.rows_since(0, 100_000).unwrap();
    let count = |text: &String| {
        rows.iter()
            .filter(|row| row.bytes == text.as_bytes())
            .count()
    };
    entries.iter().map(count).collect()
}

/// A yard that is served, and three entries copied out of a phone of its operator.
struct Begun {
    _folder: Folder,
    data: PathBuf,
    server: Server,
    tamsin: PersonId,
    entries: Vec<String>,
    out: CopiedOut,
}

fn begun() -> Begun {
    let folder = Folder::new();
    let data = folder.at("yard");
    let server = Server::start(&data);
    let (yard, tamsin) = writer(&data, "Tamsin");
    let entries = three_entries(yard, tamsin);
    let out = copy_out(&server, &entries);
    Begun {
        _folder: folder,
        data,
        server,
        tamsin,
        entries,
        out,
    }
}

#[test]
fn three_entries_go_from_phone_to_phone_by_square_codes() {
    let Begun {
        _folder,
        data,
        server,
        tamsin,
        entries,
        out,
    } = begun();
    let of = out.codes.len();
    assert!(of >= 3, "only {of} codes");
    drive(async move |page: Page| {
        let others = codes_of_another(&page, &server).await;
        open(&page, &others[0]).await;
        let begun = format!("1 of {} parts are here.", others.len());
        until_it_says(&page, &begun).await;
        // Last first, and the second twice.
        let mut order: Vec<usize> = (0..of).rev().collect();
        order.insert(1, of - 1);
        for (i, at) in order.iter().enumerate() {
            let address = &out.codes[*at];
            let start = format!("{}/take-in#k={}.{of}.", server.home(), at + 1);
            assert!(address.starts_with(&start), "{address}");
            if i % 2 == 0 {
                open(&page, address).await;
            } else {
                page.goto(address).await;
            }
            until_it_says(&page, &format!("Part {} of {of} is kept", at + 1)).await;
            // Nothing of it stays in the address bar.
            let address = page.ask("return location.href", vec![]).await;
            assert_eq!(address, json!(format!("{}/take-in", server.home())));
            if i == 1 {
                until_it_says(&page, &format!("1 of {of} parts are here.")).await;
                page.says("Still missing: 1, 2").await;
            }
        }
        until_it_says(&page, "Entries: 3").await;
        take(&page, "take-in.png", Some(2400.0)).await;
        let whose = tamsin.to_string();
        page.says(&format!("written by …{}", &whose[whose.len() - 4..]))
            .await;
        let not_yet = ids(&entries).into_iter().map(|id| (id, String::new()));
        assert_eq!(results(&page).await, not_yet.collect::<Vec<_>>());
        deliver(&page, &server, &data, &entries).await;
        // One of its codes once more: it is known to be safe.
        open(&page, &out.codes[0]).await;
        until_it_says(&page, "That was delivered before.").await;
        assert_eq!(results(&page).await, []);
        // The other phone's codes still wait for the rest.
        page.says(&begun).await;
    });
}

/// Codes of a third phone's entry, which come in between.
async fn codes_of_another(page: &Page, server: &Server) -> Vec<String> {
    page.goto(&server.home()).await;
    let script = "const [text, address] = arguments;
        return Promise.all([import('/static/0/copy-out.js'), import('/static/0/parts.js')]).then(([{ codeAddresses }, { wholeOf }]) =>
            codeAddresses(wholeOf({ entries: [text], photos: [] }), address))";
    let numbers: Vec<u64> = (0..150u64).map(|i| i * 7_919_777 % 1_000_003).collect();
    let args = vec![
        json!(format!("{numbers:?}")),
        json!(format!("{}/take-in", server.home())),
    ];
    let codes = serde_json::from_value::<Vec<String>>(page.ask(script, args).await).unwrap();
    assert!(codes.len() > 1);
    codes
}

/// Nobody is signed in at first; then the writer is.
async fn deliver(page: &Page, server: &Server, data: &Path, entries: &[String]) {
    tap(page, "Deliver").await;
    until_it_says(page, "Sign in first, or").await;
    assert_eq!(in_journal(data, entries), [0, 0, 0]);
    page.sign_in("Tamsin", &server.pin).await;
    until_it_says(page, "Entries: 3").await;
    tap(page, "Deliver").await;
    until_it_says(page, "All of it is safe in the yard's journal.").await;
    let new = ids(entries).into_iter().map(|id| (id, "new".to_owned()));
    assert_eq!(results(page).await, new.collect::<Vec<_>>());
    assert_eq!(in_journal(data, entries), [1, 1, 1]);
}

// --- As text ---

/// As a mail program gives it back: wrapped anew, quoted twice, with blank lines and another's words round it.
fn mangled(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let lines = letters
        .split(|c| *c == '\n')
        .flat_map(|line| line.chunks(41));
    let quoted = lines.map(|line| format!("> > {} \r\n>\r\n", line.iter().collect::<String>()));
    format!(
        "On Monday somebody wrote:\r\n{}-- \r\nGreetings",
        quoted.collect::<String>()
    )
}

/// The text with one letter of its second part changed.
fn flipped(text: &str) -> String {
    let at = text.match_indices('[').nth(1).unwrap().0 + 60;
    let instead = if &text[at..=at] == "Q" { "R" } else { "Q" };
    format!("{}{instead}{}", &text[..at], &text[at + 1..])
}

/// Pastes a text, in place of what is there.
async fn paste(page: &Page, text: &str) {
    let script = "document.querySelector('textarea[name=text]').value = arguments[0]";
    page.ask(script, vec![json!(text)]).await;
}

#[test]
fn a_text_is_read_however_it_was_wrapped_and_a_changed_letter_is_found() {
    let Begun {
        _folder,
        data,
        server,
        entries,
        out,
        ..
    } = begun();
    let of = out.text.matches("[kingpost ").count();
    assert!(of >= 3, "only {of} parts");
    drive(async move |page: Page| {
        page.goto(&format!("{}/take-in", server.home())).await;
        paste(&page, "Nothing but a greeting").await;
        tap(&page, "Read the text").await;
        until_it_says(&page, "There is nothing in this text that can be taken in.").await;
        paste(&page, &flipped(&mangled(&out.text))).await;
        tap(&page, "Read the text").await;
        until_it_says(&page, &format!("Damaged on the way: part 2 of {of}.")).await;
        until_it_says(&page, "Still missing: 2.").await;
        // What was sound stays: the rest alone completes it.
        let second = out.text.split_inclusive(']').nth(1).unwrap();
        paste(&page, &mangled(second)).await;
        tap(&page, "Read the text").await;
        until_it_says(&page, "Entries: 3").await;
        for_others(&page, &server, &data, &entries).await;
    });
}

/// A learner may not bring what somebody else wrote; it stays where it is, and the deputy may.
async fn for_others(page: &Page, server: &Server, data: &Path, entries: &[String]) {
    page.sign_in("Jory", &server.pin).await;
    until_it_says(page, "Entries: 3").await;
    tap(page, "Deliver").await;
    until_it_says(page, "Not all of it was taken.").await;
    let all_are = |is: &str| {
        ids(entries)
            .into_iter()
            .map(|id| (id, is.to_owned()))
            .collect::<Vec<_>>()
    };
    assert_eq!(results(page).await, all_are("not-yours"));
    assert_eq!(page.find_all("li[data-entry] details pre").await.len(), 3);
    assert_eq!(in_journal(data, entries), [0, 0, 0]);
    page.sign_out().await;
    page.goto(&format!("{}/take-in", server.home())).await;
    page.sign_in("Bram", &server.pin).await;
    until_it_says(page, "Entries: 3").await;
    assert_eq!(results(page).await, all_are("not-yours"));
    tap(page, "Deliver").await;
    until_it_says(page, "All of it is safe in the yard's journal.").await;
    assert_eq!(results(page).await, all_are("new"));
    assert_eq!(in_journal(data, entries), [1, 1, 1]);
}

#[test]
fn a_text_is_taken_in_without_scripts() {
    let Begun {
        _folder,
        data,
        server,
        entries,
        out,
        ..
    } = begun();
    let of = out.text.matches("[kingpost ").count();
    drive(async move |page: Page| {
        let blocked = |value: bool| json!({ "value": value });
        let cdp = page.driver.cdp();
        let script = "Emulation.setScriptExecutionDisabled";
        cdp.send_raw(script, blocked(true)).await.unwrap();
        page.goto(&format!("{}/take-in", server.home())).await;
        paste(&page, &out.text).await;
        page.press("Read the text").await;
        page.says("Sign in first, in another tab.").await;
        assert!(page.typed("text").await.contains("[kingpost 1."));
        page.sign_in("Odalys", &server.pin).await;
        page.goto(&format!("{}/take-in", server.home())).await;
        paste(&page, &flipped(&out.text)).await;
        page.press("Read the text").await;
        page.says(&format!("Damaged on the way: part 2 of {of}."))
            .await;
        for (said, is) in [("It is in the journal.", "new"), ("already", "known")] {
            paste(&page, &mangled(&out.text)).await;
            page.press("Read the text").await;
            page.says("All of it is safe in the yard's journal.").await;
            page.says(said).await;
            assert_eq!(page.find_all(&format!("li[data-is={is}]")).await.len(), 3);
            assert_eq!(in_journal(&data, &entries), [1, 1, 1]);
        }
    });
}
