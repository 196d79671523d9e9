//! Gaps of what is computed with: rams, poses, distances, masses.

use super::{Blocks, By, Gap, GapCode, of, of_book, unlock};
use crate::arm::{MissingCode, NextMeasure, arm_of};
use crate::book::{Book, KnownBy, Moves, PointKind, Pose, Ram, Without};

pub(super) fn gaps(book: &Book) -> impl Iterator<Item = Gap> {
    let has_arm = !book.lacks(Without::Rams);
    let whole = [
        (
            book.rams.is_empty() && has_arm,
            of_book(
                GapCode::NoRams,
                false,
                &[Blocks::ArmFigures, Blocks::LevelCorrection],
                unlock("ram", "bore", By::Measuring),
            ),
        ),
        (
            only_guesses(book.distances.iter().map(|one| one.known)) && has_arm,
            of_book(
                GapCode::NoDistances,
                false,
                &[Blocks::ArmFigures],
                unlock("distance", "is", By::Measuring),
            ),
        ),
        (
            only_guesses(book.masses.iter().map(|one| one.known)),
            of_book(
                GapCode::NoMasses,
                false,
                &[Blocks::Stability],
                unlock("mass", "is", By::Asking),
            ),
        ),
    ];
    let whole = whole
        .into_iter()
        .filter_map(|(missing, gap)| missing.then_some(gap));
    whole
        .chain(rams(book))
        .chain(poses(book))
        .chain(lacks(book))
}

/// Whether nothing of it was measured: it is not there, or a blank's first guess.
fn only_guesses(mut known: impl Iterator<Item = KnownBy>) -> bool {
    known.all(|known| known == KnownBy::Guess)
}

/// Of all that the figures of an arm wait for, the one measurement that unlocks most: where the book has begun with its
/// arm at all.
fn lacks(book: &Book) -> Option<Gap> {
    let moves = |ram: &Ram| ram.work.moves == Some(Moves::Boom);
    let begun = !book.arm.pins.is_empty() || book.rams.iter().any(moves);
    if !begun || book.lacks(Without::Rams) {
        return None;
    }
    let arm = arm_of(book);
    let first = arm.missing.first().copied();
    let shapeless = first.is_some_and(|missing| missing.code < MissingCode::RamBore);
    let tape = arm
        .survey
        .as_ref()
        .filter(|_| arm.guesses.shape && !shapeless);
    let tape = tape.and_then(|survey| survey.next.first());
    let (subject, unlocks) = match (tape, first) {
        (Some(NextMeasure::Distance(from, to)), _) => (
            format!("distance {from} – {to}"),
            unlock("distance", "is", By::Measuring),
        ),
        (Some(_), _) => (
            "reading".to_owned(),
            unlock("reading", "tooth-height", By::Measuring),
        ),
        (None, Some(missing)) => {
            let of = missing.unlock();
            let subject = format!("{}.{} {}", of.table, of.key, missing.subject);
            (subject, of)
        }
        (None, None) => return None,
    };
    let shape = shapeless || tape.is_some();
    Some(of(
        GapCode::ArmLacks,
        subject.trim_end(),
        0,
        false,
        if shape {
            &[Blocks::ArmFigures, Blocks::LevelCorrection]
        } else {
            &[Blocks::ArmFigures]
        },
        unlocks,
    ))
}

fn rams(book: &Book) -> impl Iterator<Item = Gap> {
    let unmeasured = book.rams.iter().filter(|ram| {
        [&ram.bore, &ram.rod, &ram.closed, &ram.open]
            .into_iter()
            .any(Option::is_none)
    });
    unmeasured.map(|ram| {
        let how = unlock("ram", "bore", By::Measuring);
        of(
            GapCode::RamNotMeasured,
            ram.id.as_str(),
            ram.line,
            false,
            &[Blocks::ArmFigures, Blocks::LevelCorrection],
            how,
        )
    })
}

/// Poses of hydraulic marks that do not say which rods are in or out.
fn poses(book: &Book) -> impl Iterator<Item = Gap> {
    let marks = |pose: &Pose| {
        book.points.iter().any(|point| matches!(&point.kind, PointKind::Level(mark) if mark.pose.as_ref() == Some(&pose.id)))
    };
    let silent = book
        .poses
        .iter()
        .filter(move |pose| pose.rods_in.is_empty() && pose.rods_out.is_empty() && marks(pose));
    let silent = silent.filter(|_| !book.rams.is_empty());
    silent.map(|pose| {
        of(
            GapCode::PoseWithoutRods,
            pose.id.as_str(),
            pose.line,
            false,
            &[Blocks::LevelCorrection],
            unlock("pose", "rods-in", By::Looking),
        )
    })
}
