//! Every table and key of a machine book.

use super::arm;
use super::{Field, Named, Shape, Table};
use crate::book::coded::{KindWord, StandsOn};
use crate::book::{
    About, Engine, GreaseWhen, LeakClass, Lubrication, MeterKind, OilHeat, PartWord, PutIn,
    RestKind, Safeguard, Severity, View, Without,
};
use crate::code::Coded;
use crate::entry::DocumentKind;
use quantity::{Dimension, Take};

pub(super) const LENGTH: Shape = Shape::Quantity(Some(Dimension::Length));
const TIME: Shape = Shape::Quantity(Some(Dimension::Duration));
const SPEED: Shape = Shape::Quantity(Some(Dimension::Frequency));
const SHARE: Shape = Shape::Quantity(Some(Dimension::Fraction));

/// Every table, in the order a book is best written.
pub const TABLES: &[Table] = &[
    Table {
        name: "machine",
        many: false,
        needed: true,
        fields: &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            must("kind", Shape::Text),
            may("made", Shape::Text),
            may("serial", Shape::Text),
            may("duty", Shape::Text),
            may("invented", Shape::Yes),
            may("without", Shape::Words(words::<Without>)),
        ],
    },
    once(
        "stop",
        &[must("how", Shape::Text), may("then", Shape::Text)],
    ),
    once("start", &[must("steps", Shape::Texts)]),
    once(
        "meter",
        &[
            must("kind", Shape::Word(words::<MeterKind>)),
            may("rolls-over-at", TIME),
            may("shows-to", TIME),
            may("base-speed", SPEED),
            may("idle-speed", SPEED),
            may("working-speed", SPEED),
            may("idle-share", SHARE),
        ],
    ),
    often(
        "further-meter",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            must("kind", Shape::Word(kinds_that_count)),
            may("rolls-over-at", TIME),
            may("shows-to", TIME),
            may("base-speed", SPEED),
            may("idle-speed", SPEED),
            may("working-speed", SPEED),
            may("idle-share", SHARE),
        ],
    ),
    once(
        "service-hours",
        &[must("kind", Shape::Word(kinds_that_count))],
    ),
    often(
        "station",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            may("at", Shape::Place),
        ],
    ),
    once("lap", &[must("order", Shape::Refs(Named::Station))]),
    often(
        "pose",
        &[
            must("id", Shape::Id),
            must("what", Shape::Text),
            may("rods-in", Shape::Refs(Named::Ram)),
            may("rods-out", Shape::Refs(Named::Ram)),
            may("guards", Shape::Words(words::<Safeguard>)),
        ],
    ),
    often("point", POINT),
    often(
        "joint",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            may("lubrication", Shape::Word(words::<Lubrication>)),
            may("mirror", Shape::Ref(Named::Joint)),
            may("at", Shape::Place),
        ],
    ),
    often(
        "fluid",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            may("grade", Shape::Text),
            may("holds", Shape::Quantity(Some(Dimension::Volume))),
            may("filler", Shape::Text),
        ],
    ),
    often("part", PART),
    often(
        "attachment",
        &[must("id", Shape::Id), must("locks", Shape::Text)],
    ),
    often(
        "document",
        &[
            must("id", Shape::Id),
            must("what", Shape::Word(words::<DocumentKind>)),
            must("title", Shape::Text),
            may("needed", Shape::Yes),
            may("bad-is", Shape::Word(words::<Severity>)),
        ],
    ),
    once(
        "greasing",
        &[
            may("when", Shape::Word(words::<GreaseWhen>)),
            may("refused-runs", TIME),
        ],
    ),
    often("ram", &RAM),
    arm::ARM,
    arm::PIN,
    arm::DISTANCE,
    arm::READING,
    arm::MASS_TABLE,
    once(
        "ground",
        &[
            must("on", Shape::Word(words::<StandsOn>)),
            may("gauge", LENGTH),
            may("length", LENGTH),
            may("friction", Shape::Quantity(Some(Dimension::Pure))),
            may("link-mass", Shape::Quantity(Some(Dimension::Mass))),
        ],
    ),
    arm::SUPPORT,
    arm::SWING,
    arm::OIL_TANK,
    arm::LIFTING,
    arm::BOOM_SECTION,
    often(
        "rest",
        &[
            must("id", Shape::Id),
            must("is", Shape::Word(words::<RestKind>)),
            must("what", Shape::Text),
            may("proof", Shape::Text),
            may("to-dig", Shape::Text),
            may("said-safe", Shape::Text),
        ],
    ),
    once(
        "shift",
        &[
            may("warm-up", Shape::Texts),
            may("first-metres", Shape::Texts),
            may("gauges", Shape::Texts),
            may("stop-and-tell", Shape::Texts),
            may("cool-down", Shape::Texts),
        ],
    ),
    once(
        "danger",
        &[
            must("reach", LENGTH),
            may("middle", Shape::Place),
            may("around", LENGTH),
        ],
    ),
    often(
        "weakness",
        &[
            must("id", Shape::Id),
            must("what", Shape::Text),
            may("points", Shape::Refs(Named::Point)),
        ],
    ),
    often(
        "control",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            may("does", Shape::Text),
        ],
    ),
    often(
        "draw",
        &[
            must("view", Shape::Word(words::<View>)),
            may("line", Shape::Line),
            may("circle", Shape::Circle),
            may("heavy", Shape::Yes),
            may("closed", Shape::Yes),
        ],
    ),
    once("renamed", &[]),
];

const POINT: &[Field] = &[
    must("id", Shape::Id),
    must("station", Shape::Ref(Named::Station)),
    must("kind", Shape::Word(words::<KindWord>)),
    must("what", Shape::Text),
    may("how", Shape::Text),
    may("why", Shape::Text),
    may("about", Shape::Word(words::<About>)),
    must("rhythm", Shape::Rhythm),
    may("at", Shape::Place),
    may("pose", Shape::Ref(Named::Pose)),
    may("engine", Shape::Word(words::<Engine>)),
    may("guards", Shape::Words(words::<Safeguard>)),
    may("mirror", Shape::Ref(Named::Point)),
    may("count", Shape::Count(200)),
    may("seconds", Shape::Count(3600)),
    may("bad-is", Shape::Word(words::<Severity>)),
    may("source", Shape::Text),
    may_for(&["level", "leak"], "fluid", Shape::Ref(Named::Fluid)),
    may_for(&["level"], "attachments", Shape::Texts),
    may_for(&["level"], "oil", Shape::Word(words::<OilHeat>)),
    may_for(&["level"], "upper-mark", Shape::Yes),
    may_for(&["fitting", "measure"], "joint", Shape::Ref(Named::Joint)),
    may_for(&["fitting"], "remote", Shape::Yes),
    may_for(&["fitting"], "until", Shape::Until),
    may_for(&["fitting"], "refused-runs", TIME),
    may_for(&["fitting"], "seen-within-days", Shape::Count(30)),
    may_for(&["measure"], "min", Shape::Quantity(None)),
    may_for(&["measure"], "max", Shape::Quantity(None)),
    may_for(&["measure"], "method", Shape::Text),
    may_for(&["measure"], "readings", Shape::Texts),
    may_for(&["measure"], "take", Shape::Word(words::<Take>)),
    may_for(&["measure"], "plus-minus", Shape::Quantity(None)),
    may_for(&["measure"], "condition", Shape::Text),
    may_for(&["leak"], "out-from", Shape::Word(words::<LeakClass>)),
    must_for(&["crank"], "cases", Shape::Cases),
];

const RAM: [Field; 17] = {
    let [a, b, c, d, e, f, g, h, i, j] = arm::RAM_WORK;
    [
        must("id", Shape::Id),
        must("name", Shape::Text),
        may("bore", LENGTH),
        may("rod", LENGTH),
        may("closed", LENGTH),
        may("open", LENGTH),
        may("count", Shape::Count(8)),
        a,
        b,
        c,
        d,
        e,
        f,
        g,
        h,
        i,
        j,
    ]
};

const PART: &[Field] = &[
    must("id", Shape::Id),
    must("what", Shape::Text),
    may("kind", Shape::Word(words::<PartWord>)),
    may("number", Shape::Text),
    may("size", Shape::Text),
    may("at", Shape::Place),
    may("count", Shape::Count(1000)),
    may("keep", Shape::Count(1000)),
    may("from", Shape::Text),
    may("instead", Shape::Instead),
    may("points", Shape::Refs(Named::Point)),
    may_for(&["hose"], "ends", Shape::Texts),
    may_for(&["hose"], "length", LENGTH),
    may_for(&["hose"], "route", Shape::Text),
    may_for(&["fastener"], "thread", Shape::Text),
    may_for(&["fastener"], "grade", Shape::Text),
    may_for(
        &["fastener"],
        "torque",
        Shape::Quantity(Some(Dimension::Torque)),
    ),
    may_for(&["fastener"], "then", Shape::Text),
    may_for(&["fastener"], "put-in", Shape::Word(words::<PutIn>)),
    may_for(
        &["bulb"],
        "volts",
        Shape::Quantity(Some(Dimension::Voltage)),
    ),
    may_for(&["bulb"], "watts", Shape::Quantity(Some(Dimension::Power))),
    may_for(&["bulb"], "socket", Shape::Text),
    may_for(
        &["tyre"],
        "pressure",
        Shape::Quantity(Some(Dimension::Pressure)),
    ),
];

pub(super) fn words<T: Coded>() -> Vec<&'static str> {
    T::ALL.iter().map(|value| value.code()).collect()
}

/// The kinds of meters that there are: without the word for none.
fn kinds_that_count() -> Vec<&'static str> {
    let all = MeterKind::ALL.iter();
    all.filter(|kind| **kind != MeterKind::NoMeter)
        .map(|kind| kind.code())
        .collect()
}

pub(super) const fn must(key: &'static str, shape: Shape) -> Field {
    Field {
        key,
        shape,
        needed: true,
        kinds: &[],
    }
}

pub(super) const fn may(key: &'static str, shape: Shape) -> Field {
    Field {
        key,
        shape,
        needed: false,
        kinds: &[],
    }
}

const fn must_for(kinds: &'static [&'static str], key: &'static str, shape: Shape) -> Field {
    Field {
        key,
        shape,
        needed: true,
        kinds,
    }
}

const fn may_for(kinds: &'static [&'static str], key: &'static str, shape: Shape) -> Field {
    Field {
        key,
        shape,
        needed: false,
        kinds,
    }
}

pub(super) const fn once(name: &'static str, fields: &'static [Field]) -> Table {
    Table {
        name,
        many: false,
        needed: false,
        fields,
    }
}

pub(super) const fn often(name: &'static str, fields: &'static [Field]) -> Table {
    Table {
        name,
        many: true,
        needed: false,
        fields,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_of_a_key_are_kinds_of_parts() {
        let known = words::<PartWord>();
        let named = PART.iter().flat_map(|field| field.kinds);
        assert!(named.into_iter().all(|kind| known.contains(kind)));
    }

    #[test]
    fn kinds_of_a_key_are_kinds_of_points() {
        let known = words::<KindWord>();
        let named = POINT.iter().flat_map(|field| field.kinds);
        assert!(named.into_iter().all(|kind| known.contains(kind)));
    }
}
