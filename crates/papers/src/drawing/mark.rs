//! The verdict marks: a wheel that is free, a wheel with one chock, a wheel chocked on both sides; hollow where only not known yet.

use super::{
    ink::{CARE, FIT, INK, SHEET, STAND_DOWN},
    pen,
};
use svg::node::element::{Group, Polygon, SVG};
use yard::handover::{Judgement, Verdict};

/// Which mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A wheel that is free.
    Fit,
    /// A wheel with one chock.
    Care,
    /// A filled wheel chocked on both sides.
    StandDown,
    /// A hollow wheel chocked on both sides: walk it round first.
    NotKnown,
}

impl Mark {
    /// The mark of a judgement.
    pub fn of(judgement: &Judgement) -> Self {
        match judgement.verdict {
            Verdict::Fit => Mark::Fit,
            Verdict::Care => Mark::Care,
            Verdict::StandDown if judgement.only_unknown() => Mark::NotKnown,
            Verdict::StandDown => Mark::StandDown,
        }
    }
}

/// Draws a mark, 64 by 56 units. It has no title of its own: the word always stands beside it.
pub fn verdict_mark(mark: Mark) -> String {
    let colour = match mark {
        Mark::Fit => FIT,
        Mark::Care => CARE,
        Mark::StandDown => STAND_DOWN,
        Mark::NotKnown => INK,
    };
    let filled = mark == Mark::StandDown;
    let (wheel, hub) = if filled {
        (colour, SHEET)
    } else {
        ("none", colour)
    };
    let mut group = Group::new()
        .add(pen::ring((32.0, 26.0), 18.0, wheel, colour, 5.0))
        .add(pen::ring((32.0, 26.0), 4.5, hub, hub, 0.1))
        .add(pen::line(&[(4.0, 50.0), (60.0, 50.0)], INK, 3.0));
    if mark != Mark::Fit {
        group = group.add(chock(colour, false));
    }
    if matches!(mark, Mark::StandDown | Mark::NotKnown) {
        group = group.add(chock(colour, true));
    }
    SVG::new()
        .set("viewBox", "0 0 64 56")
        .set("aria-hidden", "true")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(group)
        .to_string()
}

fn chock(colour: &str, left: bool) -> Polygon {
    let points = if left {
        "6,48.5 6,32 22,48.5"
    } else {
        "58,48.5 58,32 42,48.5"
    };
    Polygon::new().set("points", points).set("fill", colour)
}
