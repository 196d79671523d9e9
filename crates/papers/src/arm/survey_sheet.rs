//! The sheet to take the tape to: pins and their names, every distance worth measuring, rams, four poses.

use crate::{
    PaperError, Sheet,
    drawing::arm::{PinLabel, pin_sketch},
    typeset,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use yard::arm::ArmOfBook;

/// Cautions at the foot of the page.
const CAUTIONS: [&str; 2] = ["caution-held", "caution-pressure"];

/// A distance of the sheet: from one named point of the book to another. `first`: one that the shape cannot do without.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SurveyDistance {
    /// From here.
    pub from: &'static str,
    /// To here.
    pub to: &'static str,
    /// Without it the shape is not found.
    pub first: bool,
}

const fn needed(from: &'static str, to: &'static str) -> SurveyDistance {
    SurveyDistance {
        from,
        to,
        first: true,
    }
}

const fn besides(from: &'static str, to: &'static str) -> SurveyDistance {
    SurveyDistance {
        from,
        to,
        first: false,
    }
}

/// Every distance of the sheet, link by link. Two for the first pin of a link, two more for each pin that follows fix the
/// shape; the rest show up a slip.
pub const SURVEY_DISTANCES: [SurveyDistance; 29] = [
    needed("boom-foot", "ground"),
    needed("boom-foot", "swing-axis"),
    needed("boom-ram-barrel", "ground"),
    needed("boom-foot", "boom-ram-barrel"),
    besides("boom-ram-barrel", "swing-axis"),
    needed("boom-foot", "dipper-pin"),
    needed("boom-foot", "boom-ram-rod"),
    needed("boom-ram-rod", "dipper-pin"),
    needed("boom-foot", "dipper-ram-barrel"),
    needed("dipper-ram-barrel", "dipper-pin"),
    besides("boom-ram-rod", "dipper-ram-barrel"),
    needed("dipper-pin", "bucket-pin"),
    needed("dipper-pin", "dipper-ram-rod"),
    needed("dipper-ram-rod", "bucket-pin"),
    needed("dipper-pin", "bucket-ram-barrel"),
    needed("bucket-ram-barrel", "bucket-pin"),
    needed("dipper-pin", "lever-pin"),
    needed("lever-pin", "bucket-pin"),
    besides("dipper-ram-rod", "bucket-ram-barrel"),
    besides("dipper-ram-rod", "lever-pin"),
    besides("bucket-ram-barrel", "lever-pin"),
    needed("lever-pin", "linkage-pin"),
    needed("linkage-pin", "link-pin"),
    needed("bucket-pin", "link-pin"),
    needed("bucket-pin", "tooth"),
    needed("link-pin", "tooth"),
    besides("bucket-pin", "heel"),
    besides("heel", "tooth"),
    besides("link-pin", "heel"),
];

/// The survey sheet, as PDF: caution first, how to measure, the drawing with the names of the pins, tables to fill in.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn survey_sheet(sheet: &Sheet<'_>, arm: &ArmOfBook) -> Result<Vec<u8>, PaperError> {
    let words = sheet.words;
    let names: BTreeMap<&'static str, String> = PinLabel::ALL
        .iter()
        .map(|label| (label.id(), words.arm_named(label.id())))
        .collect();
    let mut pictures = BTreeMap::new();
    let own = arm.shape.as_ref().ok().filter(|_| arm.troubles.is_empty());
    pictures.insert(
        "pins.svg",
        pin_sketch(own, &words.text("paper-survey-drawing")),
    );
    let distances: Vec<Value> = SURVEY_DISTANCES
        .iter()
        .map(|distance| {
            let end = |id: &'static str| {
                json!({ "number": PinLabel::number_of(id), "name": words.arm_named(id) })
            };
            json!({ "from": end(distance.from), "to": end(distance.to), "first": distance.first })
        })
        .collect();
    let rams =
        ["boom", "dipper", "bucket"].map(|ram| words.text(&format!("paper-survey-{ram}-ram")));
    let title = sheet.t1("paper-survey-title", "name", &sheet.book.machine.name);
    let data = json!({
        "frame": sheet.frame(&title, &CAUTIONS),
        "code": sheet.code(&format!("{}/arm", sheet.address), "paper-qr", &mut pictures)?,
        "first": [words.text("paper-survey-first")],
        "intro": words.text("paper-survey-intro"),
        "how": (1..=4).map(|n| words.text(&format!("paper-survey-how-{n}"))).collect::<Vec<_>>(),
        "drawing": words.text("paper-survey-drawing"),
        "sketch": own.is_none().then(|| words.text("paper-survey-sketch")),
        "pins": PinLabel::ALL.iter().map(|label| json!({ "number": label.number(), "name": names[label.id()] })).collect::<Vec<_>>(),
        "distances": { "title": words.text("paper-survey-distances"), "rows": distances, "head": (["from", "to", "value", "again"].map(|head| words.text(&format!("paper-survey-{head}")))) },
        "rams": { "title": words.text("paper-survey-rams"), "rows": rams, "head": (["closed", "open", "bore", "rod"].map(|head| words.text(&format!("paper-survey-{head}")))) },
        "poses": { "title": words.text("paper-survey-poses"), "how": words.text("paper-survey-poses-how"), "head": (["boom-ram", "dipper-ram", "bucket-ram", "tooth-height", "reach"].map(|head| words.text(&format!("paper-survey-{head}")))) },
        "unit": words.text("paper-survey-value"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("survey_sheet.typ"),
        data,
        pictures,
    })
}
