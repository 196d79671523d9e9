//! The sheet for trusting the yard: its square code, its words, on both papers.
#![allow(clippy::unwrap_used)]

mod printed;

use jiff::tz::TimeZone;
use papers::{PaperSize, TrustSheet, trust_sheet};
use printed::Printed;
use words::{Words, plain_runs};

const ADDRESS: &str = "http://192.168.178.100:4720/trust";
const FINGERPRINT: &str =
    "FA89 16CA 8064 A0C7 7979 8ADD 4B37 5395 D9B8 A992 7659 EB45 8053 F8C7 E975 2C32";
const ROOT: &str = "Hügel 漏 farm (Kingpost 2026-11-25 4a7f)";

fn sheet(words: &Words, size: PaperSize) -> Printed {
    let made = trust_sheet(&TrustSheet {
        words,
        yard: "Hill farm #strong[x]",
        size,
        now: "2026-11-25T07:12:00Z".parse().unwrap(),
        zone: &TimeZone::UTC,
        address: ADDRESS,
        root: ROOT,
        fingerprint: FINGERPRINT,
        until: "2036-11-24T07:12:00Z".parse().unwrap(),
    });
    Printed::of(&made.unwrap())
}

fn said(printed: &Printed) -> String {
    let text = printed.in_order();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn it_is_one_page_whose_code_leads_to_the_trust_page() {
    let words = Words::english();
    for (size, measures) in [
        (PaperSize::A4, "595.276 x 841.89 pts"),
        (PaperSize::Letter, "612 x 792 pts"),
    ] {
        let printed = sheet(&words, size);
        assert_eq!(printed.pages(), 1, "{size:?}");
        assert!(printed.info("Page size").starts_with(measures));
        assert_eq!(printed.codes(1), [ADDRESS]);
        assert_eq!(printed.info("Tagged"), "yes");
    }
}

#[test]
fn it_says_all_that_the_page_says_to_do() {
    let words = Words::english();
    let text = said(&sheet(&words, PaperSize::A4));
    for part in [
        ADDRESS,
        FINGERPRINT,
        "Hill farm #strong[x]",
        "24 Nov 2036",
        "Hügel ▯ farm",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let steps: Vec<String> = words
        .keys()
        .filter(|key| key.contains("-step-") && key.starts_with("trust-"))
        .map(|key| words.text(key))
        .collect();
    assert!(steps.len() >= 10);
    for step in steps {
        assert!(text.contains(&step), "{step}: {text}");
    }
}

#[test]
fn no_sentence_of_it_bypasses_the_messages() {
    let text = said(&sheet(&Words::pseudo(), PaperSize::A4));
    let own = [
        "Hill farm",
        "strong",
        "Hügel",
        "farm",
        "Kingpost",
        "http",
        "trust",
    ];
    assert_eq!(plain_runs(&text, &own), Vec::<String>::new(), "{text}");
}

#[test]
fn the_same_sheet_is_the_same_bytes() {
    let words = Words::english();
    let [one, other] = [(); 2].map(|()| said(&sheet(&words, PaperSize::Letter)));
    assert_eq!(one, other);
}
