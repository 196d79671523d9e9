//! The machine's drawings for a paper: both sides with the points that a paper is about.

use crate::{
    Sheet,
    drawing::{Emphasis, Side, side},
};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use yard::{
    book::{Book, Place, Point, View},
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
    let half = half_middle(sheet.book);
    let in_the_middle = |at: Place| at.y.abs() <= half;
    let middle_is_left = middle_goes_left(sheet, shown, half);
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

/// The same of a machine narrower than a digger, as a part of half its width.
const PART: f64 = 0.3;

/// How wide the middle of this machine is, to each side, metres.
fn half_middle(book: &Book) -> f64 {
    let out = book.points.iter().filter_map(|p| p.at);
    let farthest = out.map(|at| at.y.abs()).fold(0.0, f64::max);
    MIDDLE.min(farthest * PART)
}

/// What lies in the middle is numbered once, on the side that has fewer numbers.
fn middle_goes_left(sheet: &Sheet<'_>, shown: &BTreeSet<PointId>, half: f64) -> bool {
    let places = sheet
        .book
        .points
        .iter()
        .filter(|p| shown.contains(&p.id))
        .filter_map(|p| p.at);
    let (left, right): (Vec<Place>, Vec<Place>) = places
        .filter(|at| at.y.abs() > half)
        .partition(|at| at.y > 0.0);
    left.len() <= right.len()
}

#[cfg(test)]
mod tests {
    use super::{MIDDLE, half_middle};
    use quantity::Habits;

    fn half(y: &str) -> f64 {
        let text = format!(
            "kingpost = 1\n[machine]\nid = \"m\"\nname = \"M\"\nkind = \"k\"\n[[station]]\nid = \"s\"\nname = \"S\"\n[[point]]\nid = \"p\"\nstation = \"s\"\nkind = \"look\"\nwhat = \"W\"\nabout = \"other\"\nrhythm = \"every start\"\nat = [0, {y}, 0]\n"
        );
        let reading = yard::book::read(&text, &Habits::default());
        half_middle(&reading.book.unwrap())
    }

    #[test]
    fn the_middle_of_a_narrow_machine_is_narrow() {
        assert_eq!(half("1.2"), MIDDLE);
        assert_eq!(half("-0.1"), 0.03);
        assert_eq!(half("0"), 0.0);
    }
}
