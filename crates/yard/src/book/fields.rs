//! The format, declared once: every table and key of a machine book. The reader, the editors' schema and the reference
//! are all made from this.

mod arm;
mod tables;

pub(super) use arm::pins_with_a_place;
pub use tables::TABLES;

use super::About;
use super::coded::KindWord;
use crate::code::Coded;
use quantity::Dimension;

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
    /// A meter beside the first.
    Meter,
    /// An attachment it takes.
    Attachment,
    /// A document.
    Document,
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
            Named::Meter => "further-meter",
            Named::Attachment => "attachment",
            Named::Document => "document",
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
    /// So many lengths: at least, at most. Numbers in metres, or quantities; they may be negative.
    Lengths(usize, usize),
    /// Three corners or more, each two lengths in the machine frame.
    Corners,
    /// One rhythm or a list of them.
    Rhythm,
    /// When to stop pumping grease.
    Until,
    /// Combinations of the starting truth table.
    Cases,
    /// What fits instead, by whose word, since when.
    Instead,
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
            Shape::Lengths(..) => "lengths",
            Shape::Corners => "corners",
            Shape::Rhythm => "rhythm",
            Shape::Until => "until",
            Shape::Cases => "cases",
            Shape::Instead => "instead",
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
    /// In a point or a part: the kinds it belongs to; empty = all.
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

    /// The kinds of points that must have a key which others may leave out: `about`, where the kind does not say it.
    pub fn needed_for(&self, field: &Field) -> Vec<&'static str> {
        if (self.name, field.key) != ("point", "about") {
            return Vec::new();
        }
        let kinds = KindWord::ALL.iter().copied();
        kinds
            .filter(|kind| usual_about(*kind).is_none())
            .map(Coded::code)
            .collect()
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
}
