//! The tag on the key of a machine that is stood down.

use super::{found_when, short};
use crate::{
    PaperError, Sheet,
    drawing::{Mark, verdict_mark},
    typeset,
};
use serde_json::json;
use std::collections::BTreeMap;
use yard::state::Finding;

/// As many letters of a report as the tag has room for.
const ROOM: usize = 420;

/// A tag the size of a postcard to cut out and wire to the key: what was found, by whom, when, and who may take it off. As PDF.
///
/// `what` is the finding in words, `found_by` the finder's name. Fails only where the typesetter does, or the address is too long.
pub fn stand_down_tag(
    sheet: &Sheet<'_>,
    finding: &Finding,
    what: &str,
    found_by: &str,
) -> Result<Vec<u8>, PaperError> {
    stand_down_tag_to(sheet, finding, what, found_by, None)
}

/// [`stand_down_tag`] whose square code leads to the finding's page, where its address is given; else to the machine's.
pub fn stand_down_tag_to(
    sheet: &Sheet<'_>,
    finding: &Finding,
    what: &str,
    found_by: &str,
    finding_address: Option<&str>,
) -> Result<Vec<u8>, PaperError> {
    let mut pictures = BTreeMap::from([("mark.svg", verdict_mark(Mark::StandDown))]);
    let title = sheet.t1("paper-tag-title", "machine", &sheet.book.machine.name);
    let (address, says) = match finding_address {
        Some(address) => (address, "paper-qr-finding"),
        None => (sheet.address, "paper-qr-machine"),
    };
    let data = json!({
        "frame": sheet.frame(&title, &["caution-local-rules", "caution-pressure"]),
        "code": sheet.code(address, says, &mut pictures)?,
        "mark": sheet.t("paper-tag-mark-alt"),
        "stand-down": sheet.t("paper-tag-stand-down"),
        "do-not": sheet.t("paper-tag-do-not"),
        "what": short(what, ROOM),
        "found": sheet.t1("paper-tag-found-by", "name", found_by),
        "when": found_when(sheet, finding.at),
        "keep": sheet.t("paper-tag-keep"),
        "mended": (["paper-tag-mended", "paper-tag-released-by"].map(|key| sheet.t(key))),
        "cut": sheet.t("paper-tag-cut"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("stand_down_tag.typ"),
        data,
        pictures,
    })
}
