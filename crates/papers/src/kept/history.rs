//! The history of a machine: everything that happened to it, in order, for whoever has it next.

use crate::{PaperError, Sheet, typeset};
use jiff::{Timestamp, tz::TimeZone};
use serde_json::json;
use std::collections::BTreeMap;
use words::{BookList, Names};
use yard::{
    entry::{Body, Entry},
    id::{ItemId, MachineId, PersonId, PhotoId, PointId, StationId},
    state::{Found, MachineState},
    upkeep::life_hours_at,
};

/// Most photos in one history; each is printed small.
pub const MOST_HISTORY_PHOTOS: usize = 24;

/// One line of the history.
struct HistoryLine {
    at: Timestamp,
    hours: Option<String>,
    text: String,
    cost: Option<String>,
    photos: Vec<PhotoId>,
}

/// The history as PDF. `photo` gives a picture's JPEG file, where it may be printed; `named`: with people's names.
///
/// Fails only where the typesetter does (a photo that is no JPEG is such a case), or the address is too long.
pub fn history(
    sheet: &Sheet<'_>,
    state: &MachineState,
    entries: &[Entry],
    names: &dyn Names,
    named: bool,
    photo: &dyn Fn(PhotoId) -> Option<Vec<u8>>,
) -> Result<Vec<u8>, PaperError> {
    let nameless = Nameless {
        names,
        somebody: sheet.t("history-somebody"),
    };
    let names: &dyn Names = if named { names } else { &nameless };
    let lines = lines(sheet, state, entries, names);
    let mut pictures = BTreeMap::new();
    let title = sheet.t1("paper-history-title", "machine", &sheet.book.machine.name);
    let (mut photos, mut more) = (Vec::new(), 0usize);
    let mut rows = Vec::new();
    for line in &lines {
        let mut own = Vec::new();
        for id in &line.photos {
            if photos.len() == MOST_HISTORY_PHOTOS {
                more += 1;
            } else if let Some(bytes) = photo(*id) {
                own.push(photos.len());
                photos.push(bytes);
            }
        }
        let day = line.at.to_zoned_datetime(sheet.zone.clone()).date();
        rows.push(json!({
            "date": sheet.words.date(day),
            "hours": line.hours.clone().unwrap_or_default(),
            "text": line.text,
            "cost": line.cost.clone().unwrap_or_default(),
            "photos": own,
        }));
    }
    let who = if named {
        "history-named"
    } else {
        "history-nameless"
    };
    let identity = [&sheet.book.machine.made, &sheet.book.machine.serial];
    let about: Vec<String> = identity.into_iter().flatten().cloned().collect();
    let data = json!({
        "frame": sheet.frame(&title, &["caution-local-rules"]),
        "code": sheet.code(sheet.address, "paper-qr-machine", &mut pictures)?,
        "about": about,
        "says": [sheet.t("paper-history-says"), sheet.t(who)],
        "columns": (["date", "hours", "what", "cost"].map(|column| sheet.t(&format!("paper-history-{column}")))),
        "rows": rows,
        "more": (more > 0).then(|| sheet.t1("paper-history-more-photos", "n", more)),
        "photo-alt": sheet.t("paper-history-photo"),
    });
    let document = typeset::Document {
        markup: include_str!("history.typ"),
        data,
        pictures,
    };
    let photos: Vec<&[u8]> = photos.iter().map(Vec::as_slice).collect();
    typeset::pdf_with_photos(&document, &photos)
}

/// Everything that happened to this machine, in order. Of rounds only what closed them and what they found.
fn lines(
    sheet: &Sheet<'_>,
    state: &MachineState,
    entries: &[Entry],
    names: &dyn Names,
) -> Vec<HistoryLine> {
    let own = entries
        .iter()
        .filter(|entry| entry.machine.is_some() && entry.machine == state.id);
    let told = own.filter(|entry| match &entry.body {
        Body::WalkRound(walk) => walk.closes.is_some(),
        // Shown with what they were taken of.
        Body::Photo(photo) => photo.of.is_none(),
        _ => true,
    });
    let hours = |at: Timestamp| {
        let life = life_hours_at(state, at)?;
        Some(sheet.words.hours_number(&life.hours))
    };
    let mut lines: Vec<HistoryLine> = told
        .map(|entry| HistoryLine {
            at: entry.ordered_at,
            hours: hours(entry.ordered_at),
            text: cut(sheet.words.entry_line(entry, names)),
            cost: cost(&entry.body).map(cut),
            photos: match &entry.body {
                Body::Photo(photo) => vec![photo.photo],
                Body::Document(document) => document.photos.clone(),
                _ => Vec::new(),
            },
        })
        .collect();
    let found = state.findings.values();
    lines.extend(found.filter_map(|finding| {
        // Faults and stand-downs have lines of their own; only their photos are told here.
        let answer = matches!(finding.what, Found::Answer(_));
        (answer || !finding.photos.is_empty()).then(|| HistoryLine {
            at: finding.at,
            hours: hours(finding.at),
            text: cut(sheet.t1("history-found", "what", sheet.words.found(finding, names))),
            cost: None,
            photos: finding.photos.iter().map(|photo| photo.photo).collect(),
        })
    }));
    lines.sort_by(|a, b| (a.at, &a.text).cmp(&(b.at, &b.text)));
    lines
}

/// Longest line of a history, letters: a paper is no place for a whole file that somebody pasted.
const LONGEST_LINE: usize = 600;

fn cut(text: String) -> String {
    match text.char_indices().nth(LONGEST_LINE) {
        Some((end, _)) => format!("{} …", &text[..end]),
        None => text,
    }
}

fn cost(body: &Body) -> Option<String> {
    match body {
        Body::Repair(repair) => repair.cost.clone(),
        Body::Purchase(purchase) => purchase.cost.clone(),
        Body::PartFitted(fitted) => fitted.cost.clone(),
        _ => None,
    }
}

/// Names without those of people.
struct Nameless<'a> {
    names: &'a dyn Names,
    somebody: String,
}

impl Names for Nameless<'_> {
    fn person(&self, _: PersonId) -> Option<String> {
        Some(self.somebody.clone())
    }
    fn machine(&self, machine: &MachineId) -> Option<String> {
        self.names.machine(machine)
    }
    fn station(&self, station: &StationId) -> Option<String> {
        self.names.station(station)
    }
    fn point(&self, point: &PointId) -> Option<String> {
        self.names.point(point)
    }
    fn item(&self, item: &ItemId) -> Option<String> {
        self.names.item(item)
    }
    fn listed(&self, list: BookList, item: &ItemId) -> Option<String> {
        self.names.listed(list, item)
    }
    fn now(&self) -> Timestamp {
        self.names.now()
    }
    fn zone(&self) -> &TimeZone {
        self.names.zone()
    }
}
