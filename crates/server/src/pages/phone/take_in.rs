//! Taking in what a phone could not send itself: its text by the form; its square codes by the page's script.

use super::{
    armour::{self, Read},
    codes_words,
};
use crate::{
    desk::{Answer, Desk, page},
    page::Page,
    pages::walkround::form::Typed,
    refusal::Refusal,
};
use askama::Template;
use yard::people::Deed;

/// See the template.
#[derive(Template)]
#[template(path = "phone/take_in.html")]
struct TakeInPage {
    p: Page,
    words: String,
    asked: Vec<String>,
    text: String,
    told: Vec<Told>,
}

/// What became of one entry.
struct Told {
    is: &'static str,
    line: String,
    told: String,
}

/// The page. Anybody may look: what a code brings is kept in the browser until somebody is signed in.
pub(crate) fn show(desk: &Desk) -> Answer {
    render(desk, Vec::new(), String::new(), Vec::new())
}

/// Takes in a text that was pasted where no script runs.
pub(crate) fn keep(desk: &Desk, typed: &Typed) -> Answer {
    let p = desk.page();
    let text = typed.long("text");
    if desk.person.is_none() {
        // Asked for here rather than sent on to the sign-in page, which would lose the text.
        return render(desk, vec![p.t("take-in-sign-in-text")], text, Vec::new());
    }
    let entries = match armour::read(&text) {
        Read::Whole(entries) => entries,
        Read::Nothing => {
            return render(desk, vec![p.t("take-in-text-nothing")], text, Vec::new());
        }
        Read::Lacking {
            damaged,
            missing,
            of,
        } => {
            let told = |key: &str, parts: &[u16]| p.t2(key, "parts", row(parts), "of", of);
            let kinds = [
                ("take-in-text-damaged", damaged),
                ("take-in-text-missing", missing),
            ];
            let asked = kinds.iter().filter(|(_, parts)| !parts.is_empty());
            let asked = asked.map(|(key, parts)| told(key, parts)).collect();
            return render(desk, asked, text, Vec::new());
        }
    };
    let told = deliver(desk, &entries)?;
    let safe = told.iter().all(|one| matches!(one.is, "new" | "known"));
    let (said, text) = if safe {
        ("take-in-all-safe", String::new())
    } else {
        ("take-in-some-not-text", text)
    };
    render(desk, vec![p.t(said)], text, told)
}

fn render(desk: &Desk, asked: Vec<String>, text: String, told: Vec<Told>) -> Answer {
    let p = desk.page();
    page(&TakeInPage {
        words: codes_words::take_in(&p),
        p,
        asked,
        text,
        told,
    })
}

/// Each entry through the one way in, all in one step.
fn deliver(desk: &Desk, entries: &[String]) -> Result<Vec<Told>, Refusal> {
    let p = desk.page();
    let bytes: Vec<Vec<u8>> = entries.iter().map(|entry| entry.clone().into()).collect();
    let person = desk.may(Deed::Note)?;
    let became = crate::accept::take_all(&desk.app, person, desk.now, None, &bytes)?;
    let each = became.iter().enumerate().map(|(i, became)| Told {
        is: became.word(),
        line: p.t2("take-in-number", "n", i + 1, "of", entries.len()),
        told: became.told(&p.words),
    });
    Ok(each.collect())
}

fn row(parts: &[u16]) -> String {
    let parts: Vec<String> = parts.iter().map(ToString::to_string).collect();
    parts.join(", ")
}
