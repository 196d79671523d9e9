//! Gaps of greasing: joints that no known fitting feeds, and the habit.

use super::{Blocks, By, Gap, GapCode, of, of_book, unlock};
use crate::book::{Book, Joint, Lubrication, Point, PointKind};

pub(super) fn gaps(book: &Book) -> impl Iterator<Item = Gap> {
    let habit = of_book(
        GapCode::NoGreasingHabit,
        false,
        &[Blocks::Greasing],
        unlock("greasing", "when", By::WritingDown),
    );
    let habit = (book.greasing.when.is_none() && is_greased(book)).then_some(habit);
    let joints = joints_to_find(book).map(|joint| {
        let how = unlock("point", "joint", By::Looking);
        of(
            GapCode::JointWithoutFitting,
            joint.id.as_str(),
            joint.line,
            false,
            &[Blocks::Greasing],
            how,
        )
    });
    joints.chain(habit)
}

/// Whether there is, or may be, anything to grease: a book with points but neither fittings nor joints has nothing.
fn is_greased(book: &Book) -> bool {
    let fitting = |point: &Point| matches!(point.kind, PointKind::Fitting(_));
    book.points.is_empty() || !book.joints.is_empty() || book.points.iter().any(fitting)
}

/// Joints that want a fitting and have none known.
pub(super) fn joints_to_find(book: &Book) -> impl Iterator<Item = &Joint> {
    let feeds = |joint: &Joint| {
        book.points.iter().any(|point| matches!(&point.kind, PointKind::Fitting(rule) if rule.joint.as_ref() == Some(&joint.id)))
    };
    book.joints
        .iter()
        .filter(move |joint| joint.lubrication == Lubrication::Fittings && !feeds(joint))
}
