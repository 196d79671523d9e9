//! Papers of the handover.

mod finding_sheet;
mod stand_down_tag;

pub use finding_sheet::{MOST_PHOTOS, PrintedFinding, PrintedPhoto, finding_sheet};
pub use stand_down_tag::{stand_down_tag, stand_down_tag_to};

use crate::Sheet;
use jiff::Timestamp;

/// When something was found: the day with its weekday, and the time.
fn found_when(sheet: &Sheet<'_>, at: Timestamp) -> String {
    let day = at.to_zoned_datetime(sheet.zone.clone()).date();
    let said = [
        ("date", sheet.words.date_with_weekday(day).into()),
        ("at", sheet.words.clock(at, sheet.zone).into()),
    ];
    sheet.words.say("paper-tag-when", &said)
}

/// The beginning of a text that is longer than there is room for, letters; the page behind the square code has all of it.
fn short(text: &str, room: usize) -> String {
    match text.char_indices().nth(room) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}
