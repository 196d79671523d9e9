//! What holds for every blank: it lacks only what the machine itself must tell, says where things are and where its numbers
//! come from, is short enough for a morning, and reads easily.
#![allow(clippy::unwrap_used)]

mod blank;

use blank::blanks;
use quantity::Habits;
use std::collections::BTreeSet;
use yard::book::{Book, Place, Point, Rhythm, Shape, View, gaps, read};
use yard::id::StationId;

/// What differs from machine to machine: a blank leaves it out, and the list of gaps names it.
const THE_MACHINES_OWN: [&str; 14] = [
    "arm-lacks",
    "no-stop",
    "no-danger-zone",
    "measure-without-limit",
    "no-meter",
    "fluid-without-grade",
    "fluid-without-quantity",
    "pose-without-rods",
    "no-rams",
    "ram-not-measured",
    "no-distances",
    "no-masses",
    "ground-not-measured",
    "control-not-known",
];

fn book(name: &str, text: &str) -> Book {
    let reading = read(text, &Habits::default());
    assert_eq!(reading.troubles, [], "{name}");
    reading.book.unwrap()
}

fn each(look: impl Fn(&str, &Book)) {
    for (name, text) in blanks() {
        look(&name, &book(&name, &text));
    }
}

#[test]
fn it_is_called_what_its_file_is_called() {
    each(|name, book| {
        assert_eq!(book.machine.id.as_str(), name);
        assert!(book.machine.name.starts_with("Blank: "), "{name}");
        assert!(book.machine.made.is_none() && book.machine.serial.is_none());
    });
}

#[test]
fn it_lacks_only_what_differs_from_machine_to_machine() {
    each(|name, book| {
        let lacks: BTreeSet<&str> = gaps(book).iter().map(|gap| gap.code.code()).collect();
        let own = BTreeSet::from(THE_MACHINES_OWN);
        let more: Vec<_> = lacks.difference(&own).collect();
        assert!(more.is_empty(), "{name}: {more:?}");
    });
}

/// A blank never says how to stop a machine it has not seen, and never measures its rams.
#[test]
fn it_never_says_what_only_the_machine_can_tell() {
    each(|name, book| {
        assert!(book.stop.is_none() && book.meter.is_none(), "{name}");
        let measured = |ram: &yard::book::Ram| ram.bore.is_some() || ram.closed.is_some();
        assert!(!book.rams.iter().any(measured), "{name}");
        let grade = |fluid: &yard::book::Fluid| fluid.grade.is_some() || fluid.holds.is_some();
        assert!(!book.fluids.iter().any(grade), "{name}");
    });
}

#[test]
fn every_point_names_its_source() {
    each(|name, book| {
        for point in &book.points {
            let source = point.source.as_deref().unwrap_or_default();
            assert!(!source.trim().is_empty(), "{name}: {}", point.id);
        }
    });
}

/// Eight minutes, less a lap on foot and two changes of the engine's state.
#[test]
fn the_daily_core_is_under_eight_minutes() {
    let daily = |point: &&Point| point.rhythms.contains(&Rhythm::EveryStart);
    each(|name, book| {
        let seconds: u32 = book.points.iter().filter(daily).map(|p| p.seconds).sum();
        assert!(seconds <= 400, "{name}: {seconds} s");
        assert!(seconds >= 30, "{name}: {seconds} s looks at nothing");
    });
}

/// Every place lies within what is drawn, so that its number can be led to it.
#[test]
fn places_lie_on_the_drawing() {
    each(|name, book| {
        let drawn = Drawn::of(book);
        for point in &book.points {
            let at = point.at.unwrap_or_else(|| panic!("{name}: {}", point.id));
            assert!(drawn.holds(at), "{name}: {} at {at:?}", point.id);
        }
    });
}

/// How far the drawing goes, forwards, to the left and up.
struct Drawn([(f64, f64); 3]);

impl Drawn {
    /// A hand's breadth beside the strokes is still on the machine.
    const BESIDE: f64 = 0.1;

    fn of(book: &Book) -> Self {
        let mut ends = [(f64::MAX, f64::MIN); 3];
        let mut take = |axis: usize, value: f64| {
            let (least, most) = ends[axis];
            ends[axis] = (least.min(value), most.max(value));
        };
        for stroke in &book.drawing {
            let across = if stroke.view == View::Plan { 1 } else { 2 };
            let corners = match &stroke.shape {
                Shape::Line(corners) => corners.clone(),
                Shape::Circle {
                    middle: (x, y),
                    radius,
                } => vec![(x - radius, y - radius), (x + radius, y + radius)],
            };
            for (x, other) in corners {
                take(0, x);
                take(across, other);
            }
        }
        Self(ends)
    }

    fn holds(&self, at: Place) -> bool {
        let within = |(least, most): (f64, f64), value: f64| {
            (least - Self::BESIDE..=most + Self::BESIDE).contains(&value)
        };
        let [x, y, z] = self.0;
        within(x, at.x) && within(y, at.y) && within(z, at.z)
    }
}

/// Drawn from the side and from above, from more than a few strokes.
#[test]
fn it_is_drawn_from_two_views() {
    each(|name, book| {
        let plan = book.drawing.iter().filter(|s| s.view == View::Plan).count();
        let side = book.drawing.len() - plan;
        assert!(plan >= 5 && side >= 8, "{name}: {side} and {plan} strokes");
    });
}

/// On the ground, the lap a blank gives is the shortest way round and back, but for a metre. A place on the machine is left
/// out: one climbs up to it, and never walks through.
#[test]
fn the_written_lap_is_the_shortest_way_round() {
    each(|name, book| {
        assert!(book.lap_is_stewards, "{name}");
        let at = |id: &StationId| {
            let station = book.stations.iter().find(|station| station.id == *id);
            station.unwrap().at.unwrap()
        };
        let places = book.lap.iter().map(at).filter(|at| at.z == 0.0);
        let places: Vec<Place> = places.collect();
        let Some((first, others)) = places.split_first() else {
            return;
        };
        let way = |pair: &[Place]| apart(pair[0], pair[1]);
        let home = apart(places[others.len()], *first);
        let given: f64 = places.windows(2).map(way).sum::<f64>() + home;
        let least = shortest(*first, *first, others, f64::MAX);
        assert!(given <= least + 1.0, "{name}: {given} m, {least} m");
    });
}

/// The shortest way from here through all of these and home; not more than `most` is looked at.
fn shortest(here: Place, home: Place, others: &[Place], most: f64) -> f64 {
    if others.is_empty() {
        return apart(here, home);
    }
    let mut least = most;
    for (index, next) in others.iter().enumerate() {
        let step = apart(here, *next);
        if step < least {
            let left = [&others[..index], &others[index + 1..]].concat();
            least = least.min(step + shortest(*next, home, &left, least - step));
        }
    }
    least
}

fn apart(one: Place, other: Place) -> f64 {
    let (x, y) = (one.x - other.x, one.y - other.y);
    (x * x + y * y).sqrt()
}

/// Read in gloves, beside the machine: no sentence is longer than 25 words.
#[test]
fn its_sentences_are_short() {
    each(|name, book| {
        for text in said(book) {
            for sentence in text.split_inclusive(['.', ':', ';', '?']) {
                let words = sentence.split_whitespace().count();
                assert!(words <= 25, "{name}: {words} words: {sentence}");
            }
        }
    });
}

/// Everything a blank says to who walks round, works, and leaves it.
fn said(book: &Book) -> impl Iterator<Item = &str> {
    let points = book.points.iter().flat_map(|point| {
        [Some(&point.what), point.how.as_ref(), point.why.as_ref()]
            .into_iter()
            .flatten()
    });
    let rest = book.rest.iter().flat_map(|step| {
        [Some(&step.what), step.proof.as_ref()]
            .into_iter()
            .flatten()
    });
    let shift = &book.shift;
    let lists = [
        &shift.warm_up,
        &shift.first_metres,
        &shift.gauges,
        &shift.stop_and_tell,
        &shift.cool_down,
    ];
    let weaknesses = book.weaknesses.iter().map(|weakness| &weakness.what);
    points
        .chain(rest)
        .chain(lists.into_iter().flatten())
        .chain(weaknesses)
        .map(String::as_str)
}

/// Each known weakness is watched, each list of the shift is there.
#[test]
fn it_is_whole() {
    each(|name, book| {
        let shift = &book.shift;
        assert!(!shift.stop_and_tell.is_empty(), "{name}");
        assert!(!shift.warm_up.is_empty() || shift.first_metres.is_empty());
        assert!(
            !book.weaknesses.is_empty() && !book.controls.is_empty(),
            "{name}"
        );
        assert!(!book.parts.is_empty() && !book.rest.is_empty(), "{name}");
    });
}
