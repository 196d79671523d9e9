//! Making a round: points due, leg by leg, stop by stop, in the one walking order.

use super::{
    due::because,
    order::{engine_at, numbers, walking_order},
    plan::{Because, DuePoint, Leg, RoundPlan, Stop},
    relief,
    today::Today,
};
use crate::{
    book::{Book, Engine, Place, Point, PointKind, Safeguard, Without, joints_to_find},
    entry::RoundPurpose,
    handover::Situation,
    id::{ItemId, PointId, StationId},
    upkeep::life_hours_at,
};
use jiff::Timestamp;
use reckon::upkeep::round_minutes::round_minutes;
use std::collections::{BTreeMap, BTreeSet};

/// On foot round a machine, looking, metres a second. Common practice, no source.
const WALKING: f64 = 1.0;
/// From one station to another where a place is not known, metres. Common practice, no source.
const USUAL_WAY: f64 = 4.0;
/// To start or stop the engine, or to bring the arm into another pose, seconds. Common practice, no source.
const CHANGE: f64 = 20.0;

/// The round due now for this machine, person and purpose; none where there is no book.
///
/// Points not due are left out, never reshuffled: every plan is the [`whole`] round with points missing. A relief check is
/// planned only where the yard's habits allow it and somebody has closed a full round before a start today; otherwise the
/// full round is what is due, and the plan says so in its purpose.
pub fn plan(situation: &Situation<'_>, purpose: RoundPurpose) -> Option<RoundPlan> {
    plan_for(&Today::of(situation)?, purpose)
}

/// The round that was due at an earlier moment, by the hours run until then: what a round closed at that moment had to hold.
/// Hours run since do not make anything due in it.
pub fn plan_at(
    situation: &Situation<'_>,
    purpose: RoundPurpose,
    at: Timestamp,
) -> Option<RoundPlan> {
    let then = Situation {
        now: at,
        ..*situation
    };
    let mut today = Today::of(&then)?;
    today.life = life_hours_at(situation.machine, at).or(today.life);
    plan_for(&today, purpose)
}

fn plan_for(today: &Today<'_>, purpose: RoundPurpose) -> Option<RoundPlan> {
    let purpose = match purpose {
        RoundPurpose::Relief if !relief::allowed(today) => RoundPurpose::Start,
        purpose => purpose,
    };
    let due = |point: &Point| because(today, point, purpose);
    let points: Vec<(&Point, Because)> = walking_order(today.book)
        .into_iter()
        .filter_map(|(_, point)| Some((point, due(point)?)))
        .collect();
    Some(match purpose {
        RoundPurpose::Relief => relief::plan(today, points),
        RoundPurpose::Start => RoundPlan {
            finds: finds(today.book),
            ..lay_out(today, purpose, points)
        },
        RoundPurpose::After => lay_out(today, purpose, points),
    })
}

/// The whole round, every point of the book: what the steward asks for now and then, and what every other round is part of.
pub fn whole(situation: &Situation<'_>, purpose: RoundPurpose) -> Option<RoundPlan> {
    let today = Today::of(situation)?;
    let points = walking_order(today.book)
        .into_iter()
        .map(|(_, point)| (point, Because::Whole))
        .collect();
    Some(RoundPlan {
        finds: finds(today.book),
        ..lay_out(&today, purpose, points)
    })
}

/// Lays points in walking order out into legs and stops.
pub(super) fn lay_out(
    today: &Today<'_>,
    purpose: RoundPurpose,
    points: Vec<(&Point, Because)>,
) -> RoundPlan {
    let book = today.book;
    let numbers = numbers(book);
    let planned = u32::try_from(points.len()).unwrap_or(u32::MAX);
    let fittings = points
        .iter()
        .map(|(point, _)| fittings_of(point))
        .fold(0u32, u32::saturating_add);
    let seconds = points
        .iter()
        .map(|(point, _)| f64::from(point.seconds))
        .collect();
    let mut legs: Vec<Leg> = Vec::new();
    for (point, because) in points {
        stop_for(&mut legs, point)
            .points
            .push(due_point(today, &numbers, point, because));
    }
    legs.iter_mut()
        .for_each(|leg| leg.guards = guards(book, leg));
    let seconds = seconds_for(book, &legs, seconds);
    let skipped = u32::try_from(book.points.len())
        .unwrap_or(u32::MAX)
        .saturating_sub(planned);
    RoundPlan {
        purpose,
        legs,
        seconds,
        skipped,
        fittings,
        finds: Vec::new(),
    }
}

/// The stop that the next point in walking order belongs to: the last one, or a new one, on a new leg where engine or pose
/// change.
fn stop_for<'l>(legs: &'l mut Vec<Leg>, point: &Point) -> &'l mut Stop {
    let here = |leg: &Leg| leg.engine == engine_at(point) && leg.pose == point.pose;
    if !legs.last().is_some_and(here) {
        let (engine, pose) = (engine_at(point), point.pose.clone());
        legs.push(Leg {
            engine,
            pose,
            guards: Vec::new(),
            stops: Vec::new(),
        });
    }
    let stops = &mut legs
        .last_mut()
        .expect("one was pushed where there was none")
        .stops;
    if stops
        .last()
        .is_none_or(|stop| stop.station != point.station)
    {
        stops.push(Stop {
            station: point.station.clone(),
            points: Vec::new(),
        });
    }
    stops
        .last_mut()
        .expect("one was pushed where there was none")
}

fn due_point(
    today: &Today<'_>,
    numbers: &BTreeMap<PointId, u32>,
    point: &Point,
    because: Because,
) -> DuePoint {
    let values = matches!(
        point.kind,
        PointKind::Level(_) | PointKind::Fitting(_) | PointKind::Measure(_) | PointKind::Crank(_)
    );
    let number = numbers.get(&point.id).copied().unwrap_or_default();
    DuePoint {
        point: point.id.clone(),
        number,
        one_tap: !values
            && !today.open.contains(&point.id)
            && !matches!(because, Because::OtherSide { .. }),
        because,
    }
}

fn fittings_of(point: &Point) -> u32 {
    if matches!(point.kind, PointKind::Fitting(_)) {
        point.count
    } else {
        0
    }
}

/// Everything the leg's engine state, pose and points need in place, each once.
fn guards(book: &Book, leg: &Leg) -> Vec<Safeguard> {
    guards_at(book, leg, &leg.stops)
}

/// What must be in place at some stops of a leg: what follows from the engine state, what their points need, and what keeps
/// the leg's pose safe. A key is never out while the engine runs.
pub fn guards_at(book: &Book, leg: &Leg, stops: &[Stop]) -> Vec<Safeguard> {
    let due: BTreeSet<&PointId> = stops
        .iter()
        .flat_map(|stop| &stop.points)
        .map(|due| &due.point)
        .collect();
    let points = book
        .points
        .iter()
        .filter(|point| due.contains(&point.id))
        .flat_map(|point| &point.guards);
    let pose = book
        .poses
        .iter()
        .filter(|pose| Some(&pose.id) == leg.pose.as_ref())
        .flat_map(|pose| &pose.guards);
    let running = matches!(leg.engine, Engine::Idle | Engine::Working);
    let written = points
        .chain(pose)
        .copied()
        .filter(|guard| !(running && *guard == Safeguard::KeyOut));
    let all: BTreeSet<Safeguard> = written.chain(guards_of(leg.engine, book)).collect();
    all.into_iter().collect()
}

/// What an engine state needs in place by itself, as far as the machine has it: a key where something can start it, a belt
/// where there is a seat.
fn guards_of(engine: Engine, book: &Book) -> Vec<Safeguard> {
    let starts = !book.lacks(Without::Engine) && !book.lacks(Without::Starter);
    let key = starts.then_some(Safeguard::KeyOut);
    let belt = (!book.lacks(Without::SeatBelt)).then_some(Safeguard::BeltOn);
    match engine {
        Engine::Off | Engine::After => key.into_iter().collect(),
        Engine::Idle | Engine::Working => [Some(Safeguard::ZoneEmpty), belt]
            .into_iter()
            .flatten()
            .collect(),
    }
}

/// Seconds at the points, on foot between the stops, and for each change of engine state or pose.
fn seconds_for(book: &Book, legs: &[Leg], mut seconds: Vec<f64>) -> u32 {
    let places: BTreeMap<&StationId, Option<Place>> = book
        .stations
        .iter()
        .map(|station| (&station.id, station.at))
        .collect();
    let stops: Vec<&StationId> = legs
        .iter()
        .flat_map(|leg| &leg.stops)
        .map(|stop| &stop.station)
        .collect();
    let way = |from: &StationId, to: &StationId| match (
        places.get(from).copied().flatten(),
        places.get(to).copied().flatten(),
    ) {
        (Some(from), Some(to)) => distance(from, to),
        _ => USUAL_WAY,
    };
    let walk: f64 = stops
        .windows(2)
        .filter(|pair| pair[0] != pair[1])
        .map(|pair| way(pair[0], pair[1]))
        .sum();
    seconds.extend(std::iter::repeat_n(CHANGE, legs.len().saturating_sub(1)));
    let seconds = round_minutes(&seconds, walk, WALKING) * 60.0;
    // A float to a whole number stops at the ends of its range.
    seconds.ceil() as u32
}

/// Metres between two places on the ground.
fn distance(from: Place, to: Place) -> f64 {
    let (x, y) = (to.x - from.x, to.y - from.y);
    (x * x + y * y).sqrt()
}

/// Joints with no known fitting. Of two mirrored joints without any, the first is named: where one is found, the other is
/// looked for as well.
fn finds(book: &Book) -> Vec<ItemId> {
    let unknown = joints_to_find(book);
    let twin = |id: &ItemId| {
        book.joints
            .iter()
            .find(|joint| joint.id == *id)
            .and_then(|joint| joint.mirror.clone())
    };
    let mut finds: Vec<ItemId> = Vec::new();
    for joint in unknown {
        if !twin(joint).is_some_and(|twin| finds.contains(&twin)) {
            finds.push(joint.clone());
        }
    }
    finds
}
