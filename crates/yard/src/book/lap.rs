//! The lap of a book that says none: the shortest way round, from the first station written and back to it.

use super::{Book, Place};
use crate::id::StationId;

/// The shortest way round all stations, not through the machine; in the order written where a place is not known or there
/// are more stations than anyone walks.
pub(super) fn shortest(book: &Book) -> Vec<StationId> {
    let written = || {
        book.stations
            .iter()
            .map(|station| station.id.clone())
            .collect()
    };
    let places: Option<Vec<Place>> = book.stations.iter().map(|station| station.at).collect();
    let Some(places) = places.filter(|places| !places.is_empty()) else {
        return written();
    };
    let half = half_footprint(book);
    let indices = 0..places.len();
    // Each way is worked out once, so that there and back are the same to the last digit.
    let between = |from: usize, to: usize| {
        if from == to {
            0.0
        } else {
            way(places[from.min(to)], places[from.max(to)], half)
        }
    };
    let ways: Vec<f64> = indices
        .clone()
        .flat_map(|from| indices.clone().map(move |to| between(from, to)))
        .collect();
    match reckon::machine::lap_length::lap_length(&ways, true) {
        Ok(walk) => walk
            .order
            .iter()
            .filter_map(|&index| book.stations.get(index))
            .map(|station| station.id.clone())
            .collect(),
        Err(_) => written(),
    }
}

/// Half the length and half the width of what it stands on, metres; nothing where that is not known.
fn half_footprint(book: &Book) -> (f64, f64) {
    let gear = book.ground_gear.as_ref();
    let half = |size: Option<&quantity::Quantity>| size.map_or(0.0, |size| size.si_f64() / 2.0);
    (
        half(gear.and_then(|gear| gear.length.as_ref())),
        half(gear.and_then(|gear| gear.gauge.as_ref())),
    )
}

/// Metres on foot; straight where one of the two is a place on the machine.
fn way(from: Place, to: Place, (length, width): (f64, f64)) -> f64 {
    let straight = ((to.x - from.x) * (to.x - from.x) + (to.y - from.y) * (to.y - from.y)).sqrt();
    reckon::machine::walk_between::walk_between(
        from.x, from.y, to.x, to.y, -length, length, -width, width,
    )
    .unwrap_or(straight)
}
