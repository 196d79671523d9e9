//! Gaps of what the machine is and how one works with it.

use super::{Blocks, By, Gap, GapCode, of, of_book, unlock};
use crate::book::{Book, Without};

pub(super) fn gaps(book: &Book) -> impl Iterator<Item = Gap> {
    let whole = [
        (
            book.stop.is_none() && !book.lacks(Without::Engine),
            of_book(
                GapCode::NoStop,
                true,
                &[Blocks::Verdict],
                unlock("stop", "how", By::WritingDown),
            ),
        ),
        (
            book.danger_zone.is_none() && !book.is_attachment(),
            of_book(
                GapCode::NoDangerZone,
                true,
                &[Blocks::Verdict],
                unlock("danger", "reach", By::Measuring),
            ),
        ),
        (
            book.ground_gear.is_none(),
            of_book(
                GapCode::NoGround,
                true,
                &[Blocks::Verdict, Blocks::Round],
                unlock("ground", "on", By::WritingDown),
            ),
        ),
        (
            book.meter.is_none() && !book.is_attachment(),
            of_book(
                GapCode::NoMeter,
                false,
                &[Blocks::Hours],
                unlock("meter", "kind", By::Looking),
            ),
        ),
        (
            book.start.is_empty() && !book.lacks(Without::Engine),
            of_book(
                GapCode::NoStart,
                false,
                &[Blocks::Teaching],
                unlock("start", "steps", By::WritingDown),
            ),
        ),
        (
            book.shift.stop_and_tell.is_empty(),
            of_book(
                GapCode::NoStopAndTell,
                false,
                &[Blocks::Teaching],
                unlock("shift", "stop-and-tell", By::WritingDown),
            ),
        ),
        (
            book.drawing.is_empty(),
            of_book(
                GapCode::NoDrawing,
                false,
                &[Blocks::Drawing],
                unlock("draw", "line", By::Measuring),
            ),
        ),
        (
            ground_not_measured(book),
            of_book(
                GapCode::GroundNotMeasured,
                false,
                &[Blocks::Stability, Blocks::Lap],
                unlock("ground", "length", By::Measuring),
            ),
        ),
    ];
    let whole = whole
        .into_iter()
        .filter_map(|(missing, gap)| missing.then_some(gap));
    whole
        .chain(stations(book))
        .chain(controls(book))
        .chain(weaknesses(book))
        .chain(fluids(book))
}

fn ground_not_measured(book: &Book) -> bool {
    book.ground_gear
        .as_ref()
        .is_some_and(|gear| gear.travels && (gear.gauge.is_none() || gear.length.is_none()))
}

fn stations(book: &Book) -> impl Iterator<Item = Gap> {
    let placeless = book.stations.iter().filter(|station| station.at.is_none());
    placeless.map(|station| {
        let how = unlock("station", "at", By::Measuring);
        of(
            GapCode::StationWithoutPlace,
            station.id.as_str(),
            station.line,
            false,
            &[Blocks::Lap, Blocks::Drawing],
            how,
        )
    })
}

fn controls(book: &Book) -> impl Iterator<Item = Gap> {
    let unknown = book
        .controls
        .iter()
        .filter(|control| control.does.is_none());
    unknown.map(|control| {
        of(
            GapCode::ControlNotKnown,
            control.id.as_str(),
            control.line,
            false,
            &[Blocks::Teaching],
            unlock("control", "does", By::Looking),
        )
    })
}

fn weaknesses(book: &Book) -> impl Iterator<Item = Gap> {
    let unwatched = book
        .weaknesses
        .iter()
        .filter(|weakness| weakness.points.is_empty());
    unwatched.map(|weakness| {
        let how = unlock("weakness", "points", By::WritingDown);
        of(
            GapCode::WeaknessNotWatched,
            weakness.id.as_str(),
            weakness.line,
            false,
            &[Blocks::Round],
            how,
        )
    })
}

fn fluids(book: &Book) -> impl Iterator<Item = Gap> {
    book.fluids.iter().flat_map(|fluid| {
        let (id, line) = (fluid.id.as_str(), fluid.line);
        let grade = of(
            GapCode::FluidWithoutGrade,
            id,
            line,
            false,
            &[Blocks::TopUp],
            unlock("fluid", "grade", By::Asking),
        );
        let holds = of(
            GapCode::FluidWithoutQuantity,
            id,
            line,
            false,
            &[Blocks::TopUp],
            unlock("fluid", "holds", By::Asking),
        );
        let missing = [
            (fluid.grade.is_none(), grade),
            (fluid.holds.is_none(), holds),
        ];
        missing
            .into_iter()
            .filter_map(|(missing, gap)| missing.then_some(gap))
    })
}
