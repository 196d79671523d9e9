//! The format, declared once: every table and key of a machine book. The reader, the editors' schema and the reference
//! are all made from this.

use super::coded::{KindWord, StandsOn};
use super::{
    About, Engine, GreaseWhen, LeakClass, Lubrication, MeterKind, OilHeat, RestKind, Safeguard,
    Severity, View,
};
use crate::code::Coded;
use quantity::{Dimension, Take};

/// Things of a book that have ids of their own and can be spoken of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Named {
    /// A station.
    Station,
    /// A point.
    Point,
    /// A pose.
    Pose,
    /// A joint.
    Joint,
    /// A fluid.
    Fluid,
    /// A part.
    Part,
    /// A ram.
    Ram,
    /// A step of the rest order.
    Rest,
    /// A weakness.
    Weakness,
    /// A control.
    Control,
}

impl Named {
    /// Its word: the name of its table.
    pub fn code(self) -> &'static str {
        match self {
            Named::Station => "station",
            Named::Point => "point",
            Named::Pose => "pose",
            Named::Joint => "joint",
            Named::Fluid => "fluid",
            Named::Part => "part",
            Named::Ram => "ram",
            Named::Rest => "rest",
            Named::Weakness => "weakness",
            Named::Control => "control",
        }
    }
}

/// What a key's value looks like.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A text.
    Text,
    /// A list of texts.
    Texts,
    /// An id of its own.
    Id,
    /// The id of something else in the book.
    Ref(Named),
    /// A list of such ids.
    Refs(Named),
    /// A quantity as a person writes it; none = any dimension.
    Quantity(Option<Dimension>),
    /// A whole number from 1 to this.
    Count(u32),
    /// `true` or `false`.
    Yes,
    /// One of these words.
    Word(fn() -> Vec<&'static str>),
    /// A list of these words.
    Words(fn() -> Vec<&'static str>),
    /// Two or three lengths in the machine frame: numbers in metres, or quantities.
    Place,
    /// One rhythm or a list of them.
    Rhythm,
    /// When to stop pumping grease.
    Until,
    /// Combinations of the starting truth table.
    Cases,
    /// A line of a drawing: pairs of numbers in metres.
    Line,
    /// A circle of a drawing: middle and radius in metres.
    Circle,
}

impl Shape {
    /// Its word, for troubles and the reference.
    pub fn code(self) -> &'static str {
        match self {
            Shape::Text => "text",
            Shape::Texts => "texts",
            Shape::Id => "id",
            Shape::Ref(_) => "ref",
            Shape::Refs(_) => "refs",
            Shape::Quantity(_) => "quantity",
            Shape::Count(_) => "count",
            Shape::Yes => "yes-or-no",
            Shape::Word(_) => "word",
            Shape::Words(_) => "words",
            Shape::Place => "place",
            Shape::Rhythm => "rhythm",
            Shape::Until => "until",
            Shape::Cases => "cases",
            Shape::Line => "line",
            Shape::Circle => "circle",
        }
    }
}

/// One key of a table.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// The key.
    pub key: &'static str,
    /// What its value looks like.
    pub shape: Shape,
    /// Whether it must be there.
    pub needed: bool,
    /// In a point: the kinds it belongs to; empty = all.
    pub kinds: &'static [&'static str],
}

/// One table of the book.
#[derive(Clone, Copy, Debug)]
pub struct Table {
    /// Its name.
    pub name: &'static str,
    /// `[[name]]`, as often as wanted, or `[name]`, once.
    pub many: bool,
    /// Whether every book has it.
    pub needed: bool,
    /// Its keys; empty = the keys are the writer's (`[renamed]`).
    pub fields: &'static [Field],
}

impl Table {
    /// The table with this name.
    pub fn named(name: &str) -> Option<&'static Table> {
        TABLES.iter().find(|table| table.name == name)
    }

    /// The key with this name.
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    /// How its heading is written.
    pub fn heading(&self) -> String {
        if self.many {
            format!("[[{}]]", self.name)
        } else {
            format!("[{}]", self.name)
        }
    }
}

/// The version of the format, `kingpost = 1`.
pub const FORMAT: i64 = 1;
/// Longest book, bytes.
pub const MOST_BYTES: usize = 256 * 1024;
/// Longest text, bytes.
pub const MOST_TEXT: usize = 2000;
/// Longest list.
pub const MOST_ITEMS: usize = 1000;

fn words<T: Coded>() -> Vec<&'static str> {
    T::ALL.iter().map(|value| value.code()).collect()
}

const fn must(key: &'static str, shape: Shape) -> Field {
    Field {
        key,
        shape,
        needed: true,
        kinds: &[],
    }
}

const fn may(key: &'static str, shape: Shape) -> Field {
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

const fn once(name: &'static str, fields: &'static [Field]) -> Table {
    Table {
        name,
        many: false,
        needed: false,
        fields,
    }
}

const fn often(name: &'static str, fields: &'static [Field]) -> Table {
    Table {
        name,
        many: true,
        needed: false,
        fields,
    }
}

const LENGTH: Shape = Shape::Quantity(Some(Dimension::Length));
const TIME: Shape = Shape::Quantity(Some(Dimension::Duration));

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
        ],
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
    often(
        "part",
        &[
            must("id", Shape::Id),
            must("what", Shape::Text),
            may("size", Shape::Text),
            may("from", Shape::Text),
            may("points", Shape::Refs(Named::Point)),
        ],
    ),
    once(
        "greasing",
        &[
            may("when", Shape::Word(words::<GreaseWhen>)),
            may("refused-runs", TIME),
        ],
    ),
    often(
        "ram",
        &[
            must("id", Shape::Id),
            must("name", Shape::Text),
            may("bore", LENGTH),
            may("rod", LENGTH),
            may("closed", LENGTH),
            may("open", LENGTH),
            may("count", Shape::Count(8)),
        ],
    ),
    often(
        "distance",
        &[
            must("from", Shape::Text),
            must("to", Shape::Text),
            must("is", LENGTH),
        ],
    ),
    often(
        "mass",
        &[
            must("of", Shape::Text),
            must("is", Shape::Quantity(Some(Dimension::Mass))),
        ],
    ),
    once(
        "ground",
        &[
            must("on", Shape::Word(words::<StandsOn>)),
            may("gauge", LENGTH),
            may("length", LENGTH),
        ],
    ),
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
    may_for(&["fitting"], "joint", Shape::Ref(Named::Joint)),
    may_for(&["fitting"], "remote", Shape::Yes),
    may_for(&["fitting"], "until", Shape::Until),
    may_for(&["fitting"], "refused-runs", TIME),
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

/// What a point of this kind bears on where the book does not say.
pub(super) fn usual_about(kind: KindWord) -> Option<About> {
    match kind {
        KindWord::Fitting => Some(About::Joints),
        KindWord::PinClip => Some(About::Pins),
        KindWord::Bolts => Some(About::Bolts),
        KindWord::Hose => Some(About::Hoses),
        KindWord::Structure => Some(About::Structure),
        KindWord::Crank => Some(About::Starting),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_and_keys_stand_once() {
        let names: BTreeSet<_> = TABLES.iter().map(|table| table.name).collect();
        assert_eq!(names.len(), TABLES.len());
        for table in TABLES {
            let keys: BTreeSet<_> = table.fields.iter().map(|field| field.key).collect();
            assert_eq!(keys.len(), table.fields.len(), "{}", table.name);
        }
    }

    #[test]
    fn kinds_of_a_key_are_kinds_of_points() {
        let known = words::<KindWord>();
        let named = POINT.iter().flat_map(|field| field.kinds);
        assert!(named.into_iter().all(|kind| known.contains(kind)));
    }
}
