//! The machine's drawings for a paper: both sides with the points that a paper is about.

use crate::{
    Sheet,
    drawing::{Emphasis, Side, side},
};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use yard::{
    book::{Place, Point, View},
    id::PointId,
    walkround::numbers,
};

/// Adds `left.svg` and `right.svg` to the pictures and tells what each is; nothing where the book has neither strokes nor places.
/// `danger`: whether the danger zone is hatched.
pub(crate) fn sides(
    sheet: &Sheet<'_>,
    shown: &BTreeSet<PointId>,
    danger: bool,
    pictures: &mut BTreeMap<&'static str, String>,
) -> Vec<Value> {
    let places = sheet
        .book
        .points
        .iter()
        .any(|p| p.at.is_some() && shown.contains(&p.id));
    if sheet.book.drawing.is_empty() && !places {
        return Vec::new();
    }
    let numbers = numbers(sheet.book);
    let middle_is_left = middle_goes_left(sheet, shown);
    let zone = sheet.t("drawing-danger-zone");
    [
        (View::Left, "left.svg", "paper-left-side"),
        (View::Right, "right.svg", "paper-right-side"),
    ]
    .into_iter()
    .map(|(view, file, key)| {
        let caption = sheet.t(key);
        let alt = sheet.t1("paper-side-alt", "name", &caption);
        let shows = |point: &Point| match point.at {
            _ if !shown.contains(&point.id) => Emphasis::Hidden,
            Some(at) if !in_the_middle(at) => Emphasis::Quiet,
            _ if (view == View::Left) == middle_is_left => Emphasis::EitherSide,
            _ => Emphasis::Hidden,
        };
        let drawn = side(&Side {
            book: sheet.book,
            view,
            numbers: &numbers,
            shows: &shows,
            title: &caption,
            zone: danger.then_some(zone.as_str()),
            id: file.trim_end_matches(".svg"),
            radius: 9.0,
            close_up: false,
        });
        pictures.insert(file, drawn);
        json!({ "file": file, "caption": caption, "alt": alt })
    })
    .collect()
}

/// How far from the middle plane something still shows from both sides, metres: half the width of an arm.
const MIDDLE: f64 = 0.16;

fn in_the_middle(at: Place) -> bool {
    at.y.abs() <= MIDDLE
}

/// What lies in the middle is numbered once, on the side that has fewer numbers.
fn middle_goes_left(sheet: &Sheet<'_>, shown: &BTreeSet<PointId>) -> bool {
    let places = sheet
        .book
        .points
        .iter()
        .filter(|p| shown.contains(&p.id))
        .filter_map(|p| p.at);
    let (left, right): (Vec<Place>, Vec<Place>) = places
        .filter(|at| !in_the_middle(*at))
        .partition(|at| at.y > 0.0);
    left.len() <= right.len()
}
