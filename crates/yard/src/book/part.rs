//! What one may have to buy for a machine: sizes and numbers as written, where it sits, and what fits instead.
//!
//! Sizes and numbers stay text: `0042917`, `557E90` and `3/8` are names on boxes, not numbers.

use super::Place;
use crate::id::{ItemId, PointId};
use jiff::civil::Date;
use quantity::Quantity;

/// A part one may have to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Id.
    pub id: ItemId,
    /// What, e.g. split pin, fan belt.
    pub what: String,
    /// Kind, with what only that kind has.
    pub kind: PartKind,
    /// Number on the part or its box, as written.
    pub number: Option<String>,
    /// Size as written.
    pub size: Option<String>,
    /// Where it sits on the machine.
    pub at: Option<Place>,
    /// How many the machine has of it: 1 or more.
    pub count: u32,
    /// How many should lie on the shelf; none = not kept.
    pub keep: Option<u32>,
    /// Where to get it.
    pub from: Option<String>,
    /// What fits instead, with who said so.
    pub instead: Vec<Instead>,
    /// Points it belongs to.
    pub points: Vec<PointId>,
    /// Line in the book.
    pub line: u32,
}

/// What fits in place of a part, by somebody's word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instead {
    /// What it is, with its maker's or seller's words.
    pub what: String,
    /// Its number, as written.
    pub number: Option<String>,
    /// Who said that it fits.
    pub said_by: String,
    /// When.
    pub on: Date,
}

/// The kinds of parts, as a book words them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PartWord {
    /// A filter.
    Filter,
    /// A belt.
    Belt,
    /// A hose.
    Hose,
    /// A seal.
    Seal,
    /// A bearing.
    Bearing,
    /// A pin.
    Pin,
    /// What retains a pin.
    Clip,
    /// A bolt, a nut, a stud.
    Fastener,
    /// A bulb.
    Bulb,
    /// A tyre.
    Tyre,
    /// Anything else.
    Other,
}

/// A part's kind, with what is known of that kind alone.
#[derive(Clone, Debug, PartialEq)]
pub enum PartKind {
    /// A hose.
    Hose(Hose),
    /// A fastener.
    Fastener(Fastener),
    /// A bulb.
    Bulb(Bulb),
    /// A tyre, with the pressure it wants.
    Tyre {
        /// Pressure, cold.
        pressure: Option<Quantity>,
    },
    /// A kind that needs no more than size and number.
    Plain(PartWord),
}

impl PartKind {
    /// Its word.
    pub fn word(&self) -> PartWord {
        match self {
            PartKind::Hose(_) => PartWord::Hose,
            PartKind::Fastener(_) => PartWord::Fastener,
            PartKind::Bulb(_) => PartWord::Bulb,
            PartKind::Tyre { .. } => PartWord::Tyre,
            PartKind::Plain(word) => *word,
        }
    }
}

/// What one needs to know to have a hose made.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Hose {
    /// Its ends, as written: thread, cone, bend.
    pub ends: Vec<String>,
    /// Length from end to end.
    pub length: Option<Quantity>,
    /// The way it takes.
    pub route: Option<String>,
}

/// A fastener and how it is tightened.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Fastener {
    /// Thread as written, e.g. `M16 x 2`, `1/2-13`.
    pub thread: Option<String>,
    /// Grade as stamped on its head, e.g. `8.8`, `grade 5`.
    pub grade: Option<String>,
    /// Torque.
    pub torque: Option<Quantity>,
    /// What comes after the torque, e.g. `then 120 degrees more`.
    pub then: Option<String>,
    /// How its thread is when it is tightened.
    pub put_in: Option<PutIn>,
}

/// How a thread is when it is tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PutIn {
    /// Clean and dry.
    Dry,
    /// Oiled, greased, or with a paste.
    Lubricated,
}

/// What is printed on a bulb.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Bulb {
    /// Volts.
    pub volts: Option<Quantity>,
    /// Watts.
    pub watts: Option<Quantity>,
    /// Its socket, as written.
    pub socket: Option<String>,
}
