//! How large a machine is drawn: numbers have one size on every drawing, so a small machine is drawn larger.

use super::ink::PER_METRE;
use yard::book::{Book, Shape, View};

/// A machine shorter than this, in metres, is drawn as long as one of this length.
const LEAST_SIDE: f64 = 3.2;

/// The same for the plan, with the places where one stands.
const LEAST_PLAN: f64 = 4.0;

/// Drawing units in a metre of the side views: both views of a machine are drawn to one scale.
pub(super) fn of_sides(book: &Book) -> f64 {
    let places = book.points.iter().filter_map(|point| point.at);
    let along = strokes(book, |view| view != View::Plan)
        .map(|(x, _)| x)
        .chain(places.clone().map(|at| at.x));
    let up = strokes(book, |view| view != View::Plan)
        .map(|(_, z)| z)
        .chain(places.map(|at| at.z))
        .chain([0.0]);
    per_metre(length(along).max(length(up)), LEAST_SIDE)
}

/// Drawing units in a metre of the plan.
pub(super) fn of_plan(book: &Book) -> f64 {
    let places = book.stations.iter().filter_map(|station| station.at);
    let along = strokes(book, |view| view == View::Plan)
        .map(|(x, _)| x)
        .chain(places.clone().map(|at| at.x));
    let across = strokes(book, |view| view == View::Plan)
        .map(|(_, y)| y)
        .chain(places.map(|at| at.y));
    let zone = book
        .danger_zone
        .as_ref()
        .map_or(0.0, |zone| zone.reach.si_f64() * 2.0);
    per_metre(length(along).max(length(across)).max(zone), LEAST_PLAN)
}

/// Never smaller than usual, and a machine is never shorter than a hand is wide.
fn per_metre(length: f64, least: f64) -> f64 {
    if length > 0.0 {
        PER_METRE * (least / length.max(0.1)).max(1.0)
    } else {
        PER_METRE
    }
}

fn length(values: impl Iterator<Item = f64>) -> f64 {
    let ends = values.fold(None, |ends, value| {
        let (least, most): (f64, f64) = ends.unwrap_or((value, value));
        Some((least.min(value), most.max(value)))
    });
    ends.map_or(0.0, |(least, most)| most - least)
}

fn strokes(book: &Book, of: impl Fn(View) -> bool) -> impl Iterator<Item = (f64, f64)> {
    let seen = book.drawing.iter().filter(move |stroke| of(stroke.view));
    seen.flat_map(|stroke| match &stroke.shape {
        Shape::Line(corners) => corners.clone(),
        Shape::Circle {
            middle: (x, y),
            radius,
        } => vec![(x - radius, y - radius), (x + radius, y + radius)],
    })
}

#[cfg(test)]
mod tests {
    use super::{LEAST_SIDE, length, per_metre};

    #[test]
    fn a_large_machine_is_drawn_as_ever_and_a_small_one_larger() {
        assert_eq!(per_metre(6.0, LEAST_SIDE), 100.0);
        assert_eq!(per_metre(3.2, LEAST_SIDE), 100.0);
        assert_eq!(per_metre(0.8, LEAST_SIDE), 400.0);
    }

    #[test]
    fn nothing_drawn_is_no_length() {
        assert_eq!(length([].into_iter()), 0.0);
        assert_eq!(per_metre(0.0, LEAST_SIDE), 100.0);
    }
}
