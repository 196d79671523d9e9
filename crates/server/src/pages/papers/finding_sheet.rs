//! The finding's page on paper: its photos with it, for those who may see photos.

use crate::{
    desk::Desk,
    pages::{photos, upkeep::finding},
    refusal::Refusal,
};
use jiff::Timestamp;
use papers::{MOST_PHOTOS, PaperError, PrintedFinding, PrintedPhoto, Sheet};
use words::Names;
use yard::state::Finding;

/// Makes it. Photos may show people: whoever is not signed in gets it without them.
pub(super) fn made(
    desk: &Desk,
    sheet: &Sheet<'_>,
    found: &Finding,
    names: &dyn Names,
) -> Result<Result<Vec<u8>, PaperError>, Refusal> {
    let p = desk.page();
    // On paper today is soon another day.
    let when = |at: Timestamp| p.words.date(at.to_zoned_datetime(desk.zone.clone()).date());
    let mut awaited = 0;
    let mut there = Vec::new();
    for photo in found.photos.iter().filter(|_| desk.person.is_some()) {
        let here = desk.app.yard.has_picture(photo.photo)?;
        awaited += usize::from(!here);
        if here {
            // Only those that are printed are read; the others are counted.
            let bytes = match there.len() {
                n if n < MOST_PHOTOS => desk.app.yard.picture(photo.photo)?.map(|p| p.bytes),
                _ => None,
            };
            let caption = photo.text.clone().unwrap_or_default();
            let taken = photos::taken(desk, &p, photo, &when);
            let caption = [caption, taken];
            let caption = caption.iter().filter(|part| !part.is_empty());
            let caption = caption.map(String::as_str).collect::<Vec<_>>().join(" · ");
            there.push((bytes.unwrap_or_default(), caption));
        }
    }
    let photos: Vec<PrintedPhoto<'_>> = there
        .iter()
        .map(|(jpeg, caption)| PrintedPhoto { jpeg, caption })
        .collect();
    let page = crate::session::encode(&found.id.to_string());
    Ok(papers::finding_sheet(
        sheet,
        &PrintedFinding {
            what: &desk.app.words.found(found, names),
            found_by: &crate::unnamed::finder(desk, found),
            at: found.at,
            done: &finding::history(desk, &p, found, names, &when),
            photos: &photos,
            awaited,
            withheld: desk.person.is_none() && !found.photos.is_empty(),
            address: &format!("{}/finding/{page}", sheet.address),
        },
    ))
}
