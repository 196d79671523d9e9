//! One point of each round is asked to be shown in a photo: picked by the round's id, so that nobody can tell beforehand which.

use super::order::walking_order;
use crate::{
    book::{Book, Engine, Point, PointKind, Rhythm},
    entry::RoundPurpose,
    id::{PointId, RoundId},
    state::{MachineState, Round},
};

/// What became of the photo that a round was asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shown {
    /// There is one.
    Photo,
    /// There is none, because.
    Declined(String),
    /// There is none, and nobody said why.
    NotYet,
}

/// The points one of which a round is asked to show, in walking order: those that come up in every such round, show in a
/// photo, and are looked at with the engine off. A relief check has no time for photos.
pub fn show_me_points(book: &Book, purpose: RoundPurpose) -> Vec<&Point> {
    let every = match purpose {
        RoundPurpose::Start => Rhythm::EveryStart,
        RoundPurpose::After => Rhythm::AfterUse,
        RoundPurpose::Relief => return Vec::new(),
    };
    let shows = |point: &&Point| {
        let seen = matches!(
            point.kind,
            PointKind::Level(_)
                | PointKind::PinClip
                | PointKind::Bolts
                | PointKind::Leak { .. }
                | PointKind::Hose
                | PointKind::Structure
                | PointKind::Look
        );
        let still = matches!(point.engine, Engine::Off | Engine::After);
        seen && still && point.rhythms.contains(&every)
    };
    let points = walking_order(book).into_iter().map(|(_, point)| point);
    points.filter(shows).collect()
}

/// The point that this round is asked to show in a photo; none where no point will do.
///
/// The last eight bytes of the round's id, as a number, counted round the [`show_me_points`]: a phone out of range and the
/// yard's computer come to the same point.
pub fn show_me(book: &Book, round: RoundId, purpose: RoundPurpose) -> Option<&Point> {
    let points = show_me_points(book, purpose);
    let (_, low) = round.0.as_u64_pair();
    let at = low.checked_rem(u64::try_from(points.len()).ok()?)?;
    points.get(usize::try_from(at).ok()?).copied()
}

/// What became of the photo of a point in a round: one in the answer, or one taken of the point by whoever walks the round,
/// while it was walked.
pub fn shown(machine: &MachineState, round: &Round, point: &PointId) -> Shown {
    let until = round.closed.map(|(at, ..)| at);
    let taken = machine.point_photos.iter().any(|photo| {
        photo.point == *point
            && round.by.contains(&photo.by)
            && photo.at >= round.begun
            && until.is_none_or(|until| photo.at <= until)
    });
    match &round.no_photo {
        _ if taken => Shown::Photo,
        Some(why) => Shown::Declined(why.clone()),
        None => Shown::NotYet,
    }
}
