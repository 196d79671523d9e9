//! The sheet that is pinned up at the yard: where to go with the phone, the fingerprint to compare, the steps.

use crate::{PaperError, PaperSize, frame::frame_of, qr, typeset};
use jiff::{Timestamp, tz::TimeZone};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::{TRUST_KINDS, Words, fingerprint_lines};

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
        "frame": frame(sheet, &day(sheet.until)),
        "code": code,
        "address": sheet.address,
        "or-type": t("paper-trust-or-type"),
        "what": [t("trust-what"), t("trust-why")],
        "compare": { "title": t("trust-compare"), "lines": fingerprint_lines(sheet.fingerprint), "how": t("paper-trust-same"), "listed": listed, "differs": t("trust-differs") },
        "download": { "title": t("trust-download"), "how": t("paper-trust-download") },
        "install": { "title": t("trust-install"), "how": t("trust-which-kind"), "kinds": (TRUST_KINDS.map(|kind| kind_of(sheet.words, kind))) },
        "worked": { "title": t("trust-worked"), "how": t("trust-worked-how") },
        "means": { "title": t("trust-means"), "lines": (["yes", "no", "limits"].map(|key| t(&format!("trust-means-{key}")))) },
        "remove": { "title": t("trust-remove"), "lines": (TRUST_KINDS.map(|kind| t(&format!("trust-{kind}-remove")))) },
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("trust_sheet.typ"),
        data,
        pictures: BTreeMap::from([("qr.svg", svg)]),
    })
}

/// What the shared markup needs; where other papers name a machine, this one names the yard.
fn frame(sheet: &TrustSheet<'_>, until: &str) -> Value {
    let mut frame = frame_of(sheet.words, sheet.size, sheet.now, sheet.zone);
    frame.extend([
        ("title", sheet.words.text("paper-trust-title").into()),
        ("machine", sheet.yard.into()),
        // Blocks that are never placed on this sheet read these.
        ("kind", "".into()),
        ("invented", Value::Null),
        ("stop", json!({ "label": "", "how": "", "then": null })),
        (
            "book",
            sheet
                .words
                .say("paper-trust-until", &[("date", until.into())])
                .into(),
        ),
        ("cautions", json!([sheet.words.text("paper-trust-keep")])),
    ]);
    json!(frame)
}

fn kind_of(words: &Words, kind: &str) -> Value {
    let steps = words.in_a_row(&format!("trust-{kind}-step"));
    json!({ "title": words.text(&format!("trust-{kind}")), "steps": steps })
}
