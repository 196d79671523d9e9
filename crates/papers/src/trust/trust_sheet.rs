//! The sheet that is pinned up at the yard: where to go with the phone, the fingerprint to compare, the steps.

use crate::{PaperError, PaperSize, qr, typeset};
use jiff::{Timestamp, tz::TimeZone};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Words;

/// What the sheet is made from. The same sheet gives the same bytes.
#[derive(Clone, Copy)]
pub struct TrustSheet<'a> {
    /// The language.
    pub words: &'a Words,
    /// The yard's name.
    pub yard: &'a str,
    /// The paper in the printer.
    pub size: PaperSize,
    /// When it is printed.
    pub now: Timestamp,
    /// The yard's time zone.
    pub zone: &'a TimeZone,
    /// Address of the trust page, over plain HTTP.
    pub address: &'a str,
    /// The root's name, as a phone lists it.
    pub root: &'a str,
    /// SHA-256 of the root, in groups of four signs.
    pub fingerprint: &'a str,
    /// Until when the root is good.
    pub until: Timestamp,
}

/// The kinds of phone, as their settings are called; each has its steps in the messages.
const KINDS: [&str; 3] = ["credentials", "profile", "computer"];

/// One page to pin up: square code and address, fingerprint, steps for each kind of phone. As PDF.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn trust_sheet(sheet: &TrustSheet<'_>) -> Result<Vec<u8>, PaperError> {
    let t = |key: &str| sheet.words.text(key);
    let day = |at: Timestamp| {
        sheet
            .words
            .date(at.to_zoned_datetime(sheet.zone.clone()).date())
    };
    let (svg, share) = qr::square(sheet.address)?;
    let groups: Vec<&str> = sheet.fingerprint.split(' ').collect();
    let lines: Vec<String> = groups.chunks(4).map(|four| four.join(" ")).collect();
    let listed = sheet.words.say(
        "trust-listed-as",
        &[
            ("name", sheet.root.into()),
            ("date", day(sheet.until).into()),
        ],
    );
    let code = json!({
        "share": share,
        "alt": sheet.words.say("paper-qr-alt", &[("value", sheet.address.into())]),
        "says": t("paper-trust-scan"),
    });
    let data = json!({
        "frame": frame(sheet, &day(sheet.now), &day(sheet.until)),
        "code": code,
        "address": sheet.address,
        "or-type": t("paper-trust-or-type"),
        "what": [t("trust-what"), t("trust-why")],
        "compare": { "title": t("trust-compare"), "lines": lines, "how": t("paper-trust-same"), "listed": listed, "differs": t("trust-differs") },
        "download": { "title": t("trust-download"), "how": t("paper-trust-download") },
        "install": { "title": t("trust-install"), "how": t("trust-which-kind"), "kinds": (KINDS.map(|kind| kind_of(sheet.words, kind))) },
        "worked": { "title": t("trust-worked"), "how": t("trust-worked-how") },
        "means": { "title": t("trust-means"), "lines": (["yes", "no", "limits"].map(|key| t(&format!("trust-means-{key}")))) },
        "remove": { "title": t("trust-remove"), "lines": (KINDS.map(|kind| t(&format!("trust-{kind}-remove")))) },
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("trust_sheet.typ"),
        data,
        pictures: BTreeMap::from([("qr.svg", svg)]),
    })
}

/// What the shared markup needs; where other papers name a machine, this one names the yard.
fn frame(sheet: &TrustSheet<'_>, today: &str, until: &str) -> Value {
    let (language, region) = sheet
        .words
        .language()
        .split_once('-')
        .unwrap_or((sheet.words.language(), ""));
    let date = sheet.now.to_zoned_datetime(sheet.zone.clone());
    // Stand for the page's number and the number of pages until the typesetter knows them.
    let marks = ["\u{2460}", "\u{2461}"];
    let page = [("n", marks[0].into()), ("of", marks[1].into())];
    json!({
        "title": sheet.words.text("paper-trust-title"),
        "language": language,
        "region": region,
        "date": [date.year(), date.month(), date.day()],
        "letter": sheet.size == PaperSize::Letter,
        "machine": sheet.yard,
        // Blocks that are never placed on this sheet read these.
        "kind": "",
        "invented": null,
        "stop": { "label": "", "how": "", "then": null },
        "book": sheet.words.say("paper-trust-until", &[("date", until.into())]),
        "page": sheet.words.say("paper-page", &page),
        "page-marks": marks,
        "printed": sheet.words.say("paper-printed", &[("at", today.into())]),
        "ruler": sheet.words.text("paper-ruler"),
        "cautions": [sheet.words.text("paper-trust-keep")],
    })
}

fn kind_of(words: &Words, kind: &str) -> Value {
    let steps: Vec<String> = (1..)
        .map(|n| format!("trust-{kind}-step-{n}"))
        .take_while(|key| words.has(key))
        .map(|key| words.text(&key))
        .collect();
    json!({ "title": words.text(&format!("trust-{kind}")), "steps": steps })
}
