//! Gaps of the points: those that should be there, and what those that are there do not say.

use super::{Blocks, By, Gap, GapCode, of, of_book, unlock};
use crate::book::{About, Book, Point, PointKind, Without};
use crate::code::Coded;

/// What must be looked at on every machine that travels.
const MUST_LOOK_AT: &[About] = &[
    About::Brakes,
    About::Steering,
    About::SeatBelt,
    About::Guards,
];

/// What must be looked at on what is towed.
const MUST_LOOK_AT_TOWED: &[About] = &[About::Coupling, About::Wheels];

/// Farther than this from the middle a point has a side, metres.
const SIDED: f64 = 0.25;

pub(super) fn gaps(book: &Book) -> Vec<Gap> {
    if book.points.is_empty() {
        return vec![of_book(
            GapCode::NoPoints,
            true,
            &[Blocks::Verdict, Blocks::Round],
            unlock("point", "id", By::WritingDown),
        )];
    }
    let travels = book.ground_gear.as_ref().is_none_or(|gear| gear.travels);
    let towed = book.ground_gear.as_ref().is_some_and(|gear| gear.towed);
    let mut all: Vec<Gap> = book.points.iter().flat_map(of_point).collect();
    if travels {
        all.extend(must_look_at(book, MUST_LOOK_AT));
        all.extend(cranks(book));
    }
    if towed {
        all.extend(must_look_at(book, MUST_LOOK_AT_TOWED));
    }
    let clips = book
        .points
        .iter()
        .any(|point| point.kind == PointKind::PinClip);
    if !book.joints.is_empty() && !clips {
        all.push(of_book(
            GapCode::NoPinClips,
            true,
            &[Blocks::Verdict],
            unlock("point", "kind", By::Looking),
        ));
    }
    all
}

fn must_look_at(book: &Book, needed: &'static [About]) -> impl Iterator<Item = Gap> {
    let missing = needed.iter().filter(|about| {
        let has_none = **about == About::SeatBelt && book.lacks(Without::SeatBelt);
        !has_none && !book.points.iter().any(|point| point.about == **about)
    });
    missing.map(|about| {
        of(
            GapCode::NoPointFor,
            about.code(),
            0,
            true,
            &[Blocks::Verdict],
            unlock("point", "about", By::WritingDown),
        )
    })
}

/// Whether the starter turns only where it may is tried on every machine that travels and has one.
fn cranks(book: &Book) -> Option<Gap> {
    let crank = book
        .points
        .iter()
        .any(|point| matches!(point.kind, PointKind::Crank(_)));
    (!crank && !book.lacks(Without::Starter)).then(|| {
        of_book(
            GapCode::NoCrank,
            true,
            &[Blocks::Verdict],
            unlock("point", "cases", By::Looking),
        )
    })
}

fn of_point(point: &Point) -> Vec<Gap> {
    let about = |code, safety, blocks: &[Blocks], how| {
        of(code, point.id.as_str(), point.line, safety, blocks, how)
    };
    let safety = point.about.bears_on_safety();
    let mut all = Vec::new();
    match &point.kind {
        PointKind::Level(mark) if mark.pose.is_none() => {
            all.push(about(
                GapCode::LevelWithoutPose,
                safety,
                &[Blocks::Levels],
                unlock("point", "pose", By::Asking),
            ));
        }
        PointKind::Measure(limit) if limit.min.is_none() && limit.max.is_none() => {
            all.push(about(
                GapCode::MeasureWithoutLimit,
                safety,
                &[Blocks::Limits],
                unlock("point", "max", By::Asking),
            ));
        }
        PointKind::Fitting(rule) if rule.joint.is_none() => {
            let code = if rule.remote {
                GapCode::RemoteWithoutJoint
            } else {
                GapCode::FittingWithoutJoint
            };
            all.push(about(
                code,
                false,
                &[Blocks::Greasing],
                unlock("point", "joint", By::Looking),
            ));
        }
        _ => {}
    }
    if point.mirror.is_none() && has_a_side(point) {
        all.push(about(
            GapCode::NoTwin,
            false,
            &[Blocks::Round],
            unlock("point", "mirror", By::Looking),
        ));
    }
    all
}

/// Both sides of a machine mirror each other in what moves and what holds it; other things may well be on one side only, and
/// so may the end of a remote grease line.
fn has_a_side(point: &Point) -> bool {
    let mirrors = match &point.kind {
        PointKind::Fitting(rule) => !rule.remote,
        PointKind::PinClip | PointKind::Measure(_) => true,
        _ => false,
    };
    mirrors && point.at.is_some_and(|at| at.y.abs() >= SIDED)
}
