//! The one walking order of a book's points, and the number each bears on drawing, page and paper.

use crate::{
    book::{Book, Engine, Point, PointKind},
    id::{ItemId, PointId, StationId},
};
use std::collections::BTreeMap;

/// The number of each point, from 1: along the lap, within a station as the book writes them. The same on everything that
/// shows points, whatever is due.
pub fn numbers(book: &Book) -> BTreeMap<PointId, u32> {
    let lap = lap_places(book);
    let mut points: Vec<(usize, &Point)> = book
        .points
        .iter()
        .map(|point| (lap_place(&lap, point), point))
        .collect();
    // A stable sort: within a station the book's order stays.
    points.sort_by_key(|(place, _)| *place);
    (1..)
        .zip(points)
        .map(|(number, (_, point))| (point.id.clone(), number))
        .collect()
}

/// Where a point comes in a whole round: by engine state, by pose in the book's order ("as found" first), along the lap, as
/// written. Rounds leave points out; they never change this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Place {
    pub(super) engine: Engine,
    pub(super) pose: usize,
    pub(super) lap: usize,
    pub(super) written: usize,
}

/// All points in walking order.
pub(super) fn walking_order(book: &Book) -> Vec<(Place, &Point)> {
    let lap = lap_places(book);
    let pose = |pose: Option<&ItemId>| {
        let place = pose.map(|id| {
            book.poses
                .iter()
                .position(|known| known.id == *id)
                .unwrap_or(book.poses.len())
        });
        place.map_or(0, |place| place + 1)
    };
    let place = |(written, point): (usize, &Point)| Place {
        engine: engine_at(point),
        pose: pose(point.pose.as_ref()),
        lap: lap_place(&lap, point),
        written,
    };
    let mut points: Vec<_> = book
        .points
        .iter()
        .enumerate()
        .map(|one| (place(one), one.1))
        .collect();
    points.sort_by_key(|(place, _)| *place);
    points
}

/// The engine state a point is looked at in: the book's, but the starter turns the engine, whatever the book says.
pub(super) fn engine_at(point: &Point) -> Engine {
    match (&point.kind, point.engine) {
        (PointKind::Crank(_), Engine::Off | Engine::After) => Engine::Idle,
        (_, engine) => engine,
    }
}

fn lap_places(book: &Book) -> BTreeMap<&StationId, usize> {
    book.lap
        .iter()
        .enumerate()
        .map(|(place, station)| (station, place))
        .collect()
}

/// A station that is missing from the lap comes after it.
fn lap_place(lap: &BTreeMap<&StationId, usize>, point: &Point) -> usize {
    lap.get(&point.station).copied().unwrap_or(lap.len())
}
