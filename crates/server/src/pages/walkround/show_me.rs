//! The one point a round is asked to show in a photo: said at its question and on the round's list; never in the way.

use super::round::Walk;
use crate::{desk::Desk, names, page::Page};
use yard::{
    id::PointId,
    walkround::{Shown, show_me, shown},
};

/// What the round that is walked asks to be shown.
pub(crate) struct Asks {
    /// The point.
    pub(crate) point: PointId,
    /// The asking, or what became of it.
    pub(crate) line: String,
    /// Where the photo is taken; none where it is there already, or was declined.
    pub(crate) link: Option<String>,
}

/// What is asked of this round; none before it has begun, and where no point will do.
pub(crate) fn asks(desk: &Desk, p: &Page, walk: &Walk<'_>) -> Option<Asks> {
    let round = walk.round?;
    let point = &show_me(walk.book, round.id, round.purpose)?.id;
    let name = p.words.point(point, &names::names(desk, walk.machine));
    let (line, open) = match shown(walk.machine, round, point) {
        Shown::Photo => (p.t1("show-me-taken", "point", &name), false),
        Shown::Declined(why) => (p.t2("show-me-declined", "point", name, "why", why), false),
        Shown::NotYet => (p.t1("show-me", "point", &name), true),
    };
    Some(Asks {
        link: open.then(|| format!("{}/photo?point={point}", walk.here)),
        point: point.clone(),
        line,
    })
}

/// The field that says why there is no photo of a point.
pub(crate) fn why_not(point: &PointId) -> String {
    format!("np.{point}")
}
