//! The tables of the arm: pins, pose readings, supports, swing, oil tank, lifting, boom sections.

use super::tables::{LENGTH, may, must, often, once, words};
use super::{Field, Shape, Table};
use crate::book::{
    ArmLink, BoomRamOut, BucketRamOut, DipperRamOut, KnownBy, PinName, Points, StanceName,
    SwingKind,
};
use crate::code::Coded;
use quantity::Dimension;

const PRESSURE: Shape = Shape::Quantity(Some(Dimension::Pressure));
const MASS: Shape = Shape::Quantity(Some(Dimension::Mass));
const AREA: Shape = Shape::Quantity(Some(Dimension::Area));
const VOLUME: Shape = Shape::Quantity(Some(Dimension::Volume));
const KNOWN: Shape = Shape::Word(words::<KnownBy>);

pub(super) const ARM: Table = once(
    "arm",
    &[
        may("points", Shape::Word(words::<Points>)),
        may("axis-from-middle", LENGTH),
        may("boom-ram-out", Shape::Word(words::<BoomRamOut>)),
        may("dipper-ram-out", Shape::Word(words::<DipperRamOut>)),
        may("bucket-ram-out", Shape::Word(words::<BucketRamOut>)),
        may("bucket-width", LENGTH),
        may("lever", LENGTH),
        may("link", LENGTH),
    ],
);

pub(super) const PIN: Table = often(
    "pin",
    &[
        must("id", Shape::Word(pins_with_a_place)),
        must("on", Shape::Word(words::<ArmLink>)),
        must("at", Shape::Lengths(2, 2)),
        must("known", KNOWN),
    ],
);

pub(super) const RAM_WORK: [Field; 10] = [
    may("moves", Shape::Word(words::<crate::book::Moves>)),
    may("supply", PRESSURE),
    may("relief-piston", PRESSURE),
    may("relief-rod", PRESSURE),
    may("barrel-mass", MASS),
    may("barrel-centre", LENGTH),
    may("rod-mass", MASS),
    may("rod-centre", LENGTH),
    may("gland", LENGTH),
    may("tube", LENGTH),
];

pub(super) const DISTANCE: Table = often(
    "distance",
    &[
        must("from", Shape::Text),
        must("to", Shape::Text),
        must("is", LENGTH),
        may("known", KNOWN),
    ],
);

pub(super) const READING: Table = often(
    "reading",
    &[
        must("boom-ram", LENGTH),
        must("dipper-ram", LENGTH),
        must("bucket-ram", LENGTH),
        may("tooth-height", LENGTH),
        may("reach", LENGTH),
    ],
);

pub(super) const MASS_TABLE: Table = often(
    "mass",
    &[
        must("of", Shape::Text),
        must("is", MASS),
        may("at", Shape::Lengths(1, 3)),
        may("known", KNOWN),
    ],
);

pub(super) const SUPPORT: Table = often(
    "support",
    &[
        must("stance", Shape::Word(words::<StanceName>)),
        must("corner", Shape::Corners),
        may("pad-area", AREA),
    ],
);

pub(super) const SWING: Table = once(
    "swing",
    &[
        must("kind", Shape::Word(words::<SwingKind>)),
        may("frame-pin", Shape::Lengths(2, 2)),
        may("post-pin", Shape::Lengths(2, 2)),
        may("limit", Shape::Quantity(Some(Dimension::Angle))),
        may("crossover-relief", PRESSURE),
        may("flow", Shape::Quantity(Some(Dimension::FlowRate))),
    ],
);

pub(super) const OIL_TANK: Table = once(
    "oil-tank",
    &[
        may("length", LENGTH),
        may("width", LENGTH),
        may("area", AREA),
        may("oil", VOLUME),
        may("dead", VOLUME),
        may("temperature", Shape::Quantity(Some(Dimension::Temperature))),
    ],
);

pub(super) const LIFTING: Table = once(
    "lifting",
    &[
        may("point", Shape::Text),
        may("load-holding", Shape::Text),
        may("authority", Shape::Text),
    ],
);

pub(super) const BOOM_SECTION: Table = often(
    "boom-section",
    &[
        must("at", Shape::Lengths(2, 2)),
        may("height", LENGTH),
        may("width", LENGTH),
        may("flange", LENGTH),
        may("web", LENGTH),
    ],
);

/// The pins that stand somewhere on a link: all but the one that rod, lever and link share.
pub(in crate::book) fn pins_with_a_place() -> Vec<&'static str> {
    let all = PinName::ALL.iter();
    all.filter(|pin| pin.link().is_some())
        .map(|pin| pin.code())
        .collect()
}
