//! Gaps of what is computed with: rams, poses, distances, masses.

use super::{Blocks, By, Gap, GapCode, Unlock, of, of_book, unlock};
use crate::arm::{MissingCode, arm_of};
use crate::book::{Book, Moves, PointKind, Pose, Ram, Without};

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
            book.distances.is_empty() && has_arm,
            of_book(
                GapCode::NoDistances,
                false,
                &[Blocks::ArmFigures],
                unlock("distance", "is", By::Measuring),
            ),
        ),
        (
            book.masses.is_empty(),
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

/// Of all that the figures of an arm wait for, the one measurement that unlocks most: where the book has begun with its
/// arm at all.
fn lacks(book: &Book) -> Option<Gap> {
    let moves = |ram: &Ram| ram.work.moves == Some(Moves::Boom);
    let begun = !book.arm.pins.is_empty() || book.rams.iter().any(moves);
    if !begun || book.lacks(Without::Rams) {
        return None;
    }
    let missing = *arm_of(book).missing.first()?;
    let Unlock { table, key, by } = missing.unlock();
    let subject = format!("{table}.{key} {}", missing.subject);
    let shape = missing.code < MissingCode::RamBore;
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
        unlock(table, key, by),
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
