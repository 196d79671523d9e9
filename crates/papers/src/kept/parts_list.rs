//! The parts list: every part of the book, numbered on the drawing where its place is known.

use crate::{
    PaperError, Sheet,
    drawing::{Emphasis, Side, side_with},
    typeset,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use yard::{
    book::{Book, Part, Place, View},
    id::ItemId,
    state::OnShelf,
    upkeep::part_numbers,
};

/// All parts with their numbers, as PDF; `shelf`: what lies there.
///
/// Fails only where the typesetter does, or the address is too long.
pub fn parts_list(
    sheet: &Sheet<'_>,
    shelf: &BTreeMap<ItemId, OnShelf>,
) -> Result<Vec<u8>, PaperError> {
    let mut pictures = BTreeMap::new();
    let title = sheet.t1("paper-parts-title", "machine", &sheet.book.machine.name);
    let numbers = part_numbers(&sheet.book.parts);
    let rows = sheet.book.parts.iter().filter_map(|part| {
        let number = numbers.get(&part.id)?;
        Some(row(sheet, part, *number, shelf.get(&part.id)))
    });
    let columns = ["number", "part", "how-many", "from"];
    let data = json!({
        "frame": sheet.frame(&title, &["caution-local-rules"]),
        "code": sheet.code(&format!("{}/parts", sheet.address), "paper-qr-parts", &mut pictures)?,
        "drawings": drawings(sheet, &numbers, &mut pictures),
        "about": [sheet.t1("paper-parts-count", "n", sheet.book.parts.len())],
        "columns": (columns.map(|column| sheet.t(&format!("paper-parts-{column}")))),
        "rows": rows.collect::<Vec<_>>(),
        "none": sheet.book.parts.is_empty().then(|| sheet.t("parts-none")),
        "torque": sheet.t("paper-parts-torque"),
    });
    typeset::pdf(&typeset::Document {
        markup: include_str!("parts_list.typ"),
        data,
        pictures,
    })
}

fn row(sheet: &Sheet<'_>, part: &Part, number: u32, shelf: Option<&OnShelf>) -> Value {
    let instead = part.instead.iter();
    json!({
        "number": number.to_string(),
        "what": part.what,
        "details": sheet.words.part_details(part).join(" · "),
        "instead": instead.map(|one| sheet.words.part_instead(one)).collect::<Vec<_>>(),
        "counts": sheet.words.part_counts(part, shelf),
        "from": part.from.clone().unwrap_or_default(),
    })
}

/// Both sides with the parts whose place is known; a side without any is left out.
fn drawings(
    sheet: &Sheet<'_>,
    numbers: &BTreeMap<ItemId, u32>,
    pictures: &mut BTreeMap<&'static str, String>,
) -> Vec<Value> {
    let sides = [
        (View::Left, "left.svg", "paper-left-side"),
        (View::Right, "right.svg", "paper-right-side"),
    ];
    let drawn = sides.into_iter().filter_map(|(view, file, key)| {
        let marks = parts_on_side(sheet.book, numbers, view);
        if marks.is_empty() {
            return None;
        }
        let caption = sheet.t(key);
        let alt = sheet.t1("paper-side-alt", "name", &caption);
        let what = Side {
            book: sheet.book,
            view,
            numbers: &BTreeMap::new(),
            shows: &|_| Emphasis::Hidden,
            title: &caption,
            zone: None,
            id: file.trim_end_matches(".svg"),
            radius: 9.0,
            close_up: false,
        };
        pictures.insert(file, side_with(&what, &marks));
        Some(json!({ "file": file, "caption": caption, "alt": alt }))
    });
    drawn.collect()
}

/// The numbers and places of the parts on one side; what lies in the middle is numbered on the left.
pub fn parts_on_side(
    book: &Book,
    numbers: &BTreeMap<ItemId, u32>,
    view: View,
) -> Vec<(u32, Place)> {
    let here = |at: &Place| (at.y < 0.0) == (view == View::Right);
    let of_a_point = |part: &Part| {
        let mut points = book.points.iter();
        let at = points.find(|point| {
            part.points.contains(&point.id) && point.at.is_some_and(|at| here(&at))
        })?;
        at.at
    };
    let place = |part: &Part| {
        part.at
            .filter(here)
            .or_else(|| part.at.is_none().then(|| of_a_point(part))?)
    };
    let marks = book.parts.iter();
    marks
        .filter_map(|part| Some((*numbers.get(&part.id)?, place(part)?)))
        .collect()
}
