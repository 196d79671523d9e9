//! One finding on one page: what was found, its photos, what was done about it, and room to write.

use super::{found_when, short};
use crate::{PaperError, Sheet, typeset};
use jiff::Timestamp;
use serde_json::json;
use std::collections::BTreeMap;

/// Most photos on the page.
pub const MOST_PHOTOS: usize = 4;

/// As many letters of a report, of a caption and of one thing done as there is room for.
const ROOM: [usize; 3] = [420, 110, 150];

/// As many things done as there is room for; the latest ones.
const MOST_DONE: usize = 5;

/// A finding as it is printed, in words.
#[derive(Clone, Copy, Debug)]
pub struct PrintedFinding<'a> {
    /// What was found.
    pub what: &'a str,
    /// The finder's name.
    pub found_by: &'a str,
    /// When.
    pub at: Timestamp,
    /// What was done about it, in order; empty = nothing yet.
    pub done: &'a [String],
    /// Its photos whose pictures are there; the first four are printed.
    pub photos: &'a [PrintedPhoto<'a>],
    /// How many more photos are named whose pictures have not arrived.
    pub awaited: usize,
    /// Whether there are photos that whoever prints it may not see.
    pub withheld: bool,
    /// Address of the finding's page.
    pub address: &'a str,
}

/// One photo of it.
#[derive(Clone, Copy, Debug)]
pub struct PrintedPhoto<'a> {
    /// A JPEG file.
    pub jpeg: &'a [u8],
    /// What stands under it, and is read out instead of it. Not empty.
    pub caption: &'a str,
}

/// The finding on one page, as PDF.
///
/// Fails only where the typesetter does (a photo that is no JPEG is such a case), or the address is too long.
pub fn finding_sheet(
    sheet: &Sheet<'_>,
    finding: &PrintedFinding<'_>,
) -> Result<Vec<u8>, PaperError> {
    let mut pictures = BTreeMap::new();
    let printed = &finding.photos[..finding.photos.len().min(MOST_PHOTOS)];
    let captions = printed.iter().map(|photo| short(photo.caption, ROOM[1]));
    let title = sheet.t1("paper-finding-title", "machine", &sheet.book.machine.name);
    let skipped = finding.done.len().saturating_sub(MOST_DONE);
    let done = finding.done[skipped..]
        .iter()
        .map(|line| short(line, ROOM[2]));
    let data = json!({
        "frame": sheet.frame(&title, &["caution-local-rules", "caution-pressure"]),
        "code": sheet.code(finding.address, "paper-qr-finding", &mut pictures)?,
        "what": short(finding.what, ROOM[0]),
        "found": sheet.t1("paper-tag-found-by", "name", finding.found_by),
        "when": found_when(sheet, finding.at),
        "done-label": sheet.t("paper-finding-done"),
        "done": if finding.done.is_empty() {
            vec![sheet.t("paper-finding-nothing-done")]
        } else {
            done.collect()
        },
        "photos-label": sheet.t("photos-title"),
        "captions": captions.collect::<Vec<_>>(),
        "photos-note": photos_note(sheet, finding, printed.len()),
        "write": (["paper-tag-mended", "paper-tag-released-by"].map(|key| sheet.t(key))),
    });
    let document = typeset::Document {
        markup: include_str!("finding_sheet.typ"),
        data,
        pictures,
    };
    let photos: Vec<&[u8]> = printed.iter().map(|photo| photo.jpeg).collect();
    typeset::pdf_with_photos(&document, &photos)
}

/// What is said of photos that are not on the page.
fn photos_note(sheet: &Sheet<'_>, finding: &PrintedFinding<'_>, printed: usize) -> Vec<String> {
    let more = finding.photos.len() - printed;
    let mut said = Vec::new();
    if more > 0 {
        said.push(sheet.t1("paper-finding-more-photos", "n", more));
    }
    if finding.withheld {
        said.push(sheet.t("paper-finding-photos-withheld"));
    } else if finding.awaited > 0 {
        said.push(sheet.t1("paper-finding-photos-awaited", "n", finding.awaited));
    } else if printed == 0 {
        said.push(sheet.t("paper-finding-no-photo"));
    }
    said
}
