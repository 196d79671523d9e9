//! One table of the book while it is read: each key looked up, its value checked against the declared shape, and what is
//! wrong noted once.

use super::Place;
use super::desk::Desk;
use super::fields::{Field, MOST_ITEMS, MOST_TEXT, Named, Shape, Table};
use super::nearest::nearest;
use super::tree::{Entries, Key, Node, Value};
use super::trouble::TroubleKind;
use crate::{
    code::Coded,
    id::{ItemId, well_formed},
};
use quantity::{Dimension, Quantity};
use std::ops::Range;

/// A table being read.
pub(super) struct Section<'a, 't> {
    pub(super) desk: &'a Desk<'t>,
    pub(super) table: &'static Table,
    /// Its heading.
    pub(super) span: Range<usize>,
    /// The heading's line.
    pub(super) line: u32,
    pub(super) entries: &'a Entries,
    /// In a point: its kind, once known.
    kind: Option<&'static str>,
}

impl<'a, 't> Section<'a, 't> {
    /// Opens a table: keys it cannot have are noted.
    pub(super) fn open(
        desk: &'a Desk<'t>,
        table: &'static Table,
        span: Range<usize>,
        entries: &'a Entries,
    ) -> Self {
        let (line, _) = desk.lines.at(span.start);
        let section = Self {
            desk,
            table,
            span,
            line,
            entries,
            kind: None,
        };
        if !table.fields.is_empty() {
            section.note_unknown_keys();
        }
        section
    }

    fn note_unknown_keys(&self) {
        for (key, _) in self
            .entries
            .iter()
            .filter(|(key, _)| self.table.field(&key.text).is_none())
        {
            let nearest = nearest(&key.text, self.table.fields.iter().map(|field| field.key));
            let what = TroubleKind::UnknownKey {
                table: self.table.name,
                found: key.text.clone(),
                nearest,
            };
            self.desk.mistake(key.span.clone(), what);
        }
    }

    /// Settles the kind of a point: keys of other kinds are noted, and needed keys go by it.
    pub(super) fn of_kind(&mut self, kind: &'static str) {
        self.kind = Some(kind);
        for (key, _) in self.entries {
            let Some(field) = self.table.field(&key.text) else {
                continue;
            };
            if !field.kinds.is_empty() && !field.kinds.contains(&kind) {
                let what = TroubleKind::KeyOfOtherKind {
                    key: key.text.clone(),
                    kind: kind.to_owned(),
                    belongs_to: field.kinds.join(", "),
                };
                self.desk.mistake(key.span.clone(), what);
            }
        }
    }

    /// Whether the key is there, or was and did not read.
    pub(super) fn has(&self, key: &str) -> bool {
        self.find(key).is_some() || self.may_be_broken(key)
    }

    /// The value's place, for mistakes found when values are compared; the heading where the key is not there.
    pub(super) fn place_of(&self, key: &str) -> Range<usize> {
        self.find(key)
            .map_or_else(|| self.span.clone(), |(_, node)| node.span.clone())
    }

    /// Notes that a key is missing, unless it was there and did not read, or was misspelt.
    pub(super) fn note_missing(&self, key: &'static str) {
        if !self.may_be_broken(key) && !self.may_be_misspelt(key) {
            self.desk.mistake(
                self.span.clone(),
                TroubleKind::MissingKey {
                    table: self.table.name,
                    key: key.to_owned(),
                },
            );
        }
    }

    fn may_be_broken(&self, key: &str) -> bool {
        self.desk
            .broken_in(Some(self.span.start))
            .any(|broken| broken.key.as_deref().is_none_or(|broken| broken == key))
    }

    fn may_be_misspelt(&self, key: &str) -> bool {
        let strangers = self
            .entries
            .iter()
            .filter(|(stranger, _)| self.table.field(&stranger.text).is_none());
        strangers.into_iter().any(|(stranger, _)| {
            nearest(
                &stranger.text,
                self.table.fields.iter().map(|field| field.key),
            )
            .as_deref()
                == Some(key)
        })
    }

    fn find(&self, key: &str) -> Option<&'a (Key, Node)> {
        self.entries.iter().find(|(k, _)| k.text == key)
    }

    fn field(&self, key: &'static str) -> &'static Field {
        self.table
            .field(key)
            .expect("the reader asks for declared keys only")
    }

    /// The value of a declared key; noted where it is needed and missing.
    fn node(&self, key: &'static str) -> Option<&'a Node> {
        let found = self.find(key).map(|(_, node)| node);
        let field = self.field(key);
        let asked =
            field.kinds.is_empty() || self.kind.is_some_and(|kind| field.kinds.contains(&kind));
        if found.is_none() && field.needed && asked {
            self.note_missing(key);
        }
        found.filter(|_| asked)
    }

    pub(super) fn wrong_type(&self, key: &'static str, node: &Node) {
        let what = TroubleKind::WrongType {
            key: key.to_owned(),
            wanted: self.field(key).shape.code(),
            found: node.value.type_code(),
        };
        self.desk.mistake(node.span.clone(), what);
    }

    /// A text that is not empty.
    pub(super) fn text(&self, key: &'static str) -> Option<String> {
        let node = self.node(key)?;
        self.text_of(key, node)
    }

    fn text_of(&self, key: &'static str, node: &Node) -> Option<String> {
        let Value::Text(text) = &node.value else {
            self.wrong_type(key, node);
            return None;
        };
        if text.trim().is_empty() {
            self.desk.mistake(
                node.span.clone(),
                TroubleKind::Nothing {
                    key: key.to_owned(),
                },
            );
            return None;
        }
        if text.len() > MOST_TEXT {
            self.desk.mistake(
                node.span.clone(),
                TroubleKind::TooLong {
                    key: key.to_owned(),
                    most: MOST_TEXT,
                },
            );
            return None;
        }
        Some(text.trim().to_owned())
    }

    /// The items of a list; a single value where `or_one`.
    pub(super) fn list(&self, key: &'static str, or_one: bool) -> Option<&'a [Node]> {
        let node = self.node(key)?;
        match &node.value {
            Value::List(items) if items.is_empty() => {
                self.desk.mistake(
                    node.span.clone(),
                    TroubleKind::Nothing {
                        key: key.to_owned(),
                    },
                );
                None
            }
            Value::List(items) if items.len() > MOST_ITEMS => {
                self.desk.mistake(
                    node.span.clone(),
                    TroubleKind::TooLong {
                        key: key.to_owned(),
                        most: MOST_ITEMS,
                    },
                );
                None
            }
            Value::List(items) => Some(items),
            _ if or_one => Some(std::slice::from_ref(node)),
            _ => {
                self.wrong_type(key, node);
                None
            }
        }
    }

    /// A list of texts; empty where the key is not there.
    pub(super) fn texts(&self, key: &'static str) -> Vec<String> {
        let items = self.list(key, false).unwrap_or_default();
        items
            .iter()
            .filter_map(|item| self.text_of(key, item))
            .collect()
    }

    /// `true` or `false`; `false` where the key is not there.
    pub(super) fn yes(&self, key: &'static str) -> bool {
        match self.node(key) {
            Some(Node {
                value: Value::Yes(yes),
                ..
            }) => *yes,
            Some(node) => {
                self.wrong_type(key, node);
                false
            }
            None => false,
        }
    }

    /// A whole number within the bounds declared.
    pub(super) fn count(&self, key: &'static str) -> Option<u32> {
        let node = self.node(key)?;
        let Shape::Count(most) = self.field(key).shape else {
            return None;
        };
        match node.value {
            Value::Whole(whole) => {
                match u32::try_from(whole).ok().filter(|n| (1..=most).contains(n)) {
                    Some(n) => Some(n),
                    None => {
                        self.desk.mistake(
                            node.span.clone(),
                            TroubleKind::OutOfBounds {
                                key: key.to_owned(),
                                least: 1,
                                most: most.into(),
                            },
                        );
                        None
                    }
                }
            }
            _ => {
                self.wrong_type(key, node);
                None
            }
        }
    }

    /// One of the words of a closed set. Spaces and dashes are the same.
    pub(super) fn word<T: Coded>(&self, key: &'static str) -> Option<T> {
        let node = self.node(key)?;
        self.word_of(key, node)
    }

    fn word_of<T: Coded>(&self, key: &'static str, node: &Node) -> Option<T> {
        let Value::Text(text) = &node.value else {
            self.wrong_type(key, node);
            return None;
        };
        let dashed = text.trim().replace(' ', "-");
        let read = T::from_code(&dashed);
        if read.is_none() {
            let known = || T::ALL.iter().map(|value| value.code());
            let allowed = known().collect::<Vec<_>>().join(", ");
            let found = text.chars().take(64).collect();
            self.desk.mistake(
                node.span.clone(),
                TroubleKind::UnknownWord {
                    key: key.to_owned(),
                    found,
                    nearest: nearest(&dashed, known()),
                    allowed,
                },
            );
        }
        read
    }

    /// A list of such words.
    pub(super) fn words<T: Coded>(&self, key: &'static str) -> Vec<T> {
        let items = self.list(key, true).unwrap_or_default();
        items
            .iter()
            .filter_map(|item| self.word_of(key, item))
            .collect()
    }

    /// The table's own id, noted as taken.
    pub(super) fn id(&self, of: Named) -> Option<(String, Range<usize>)> {
        let Some(node) = self.node("id") else {
            let mut broken = self
                .desk
                .broken_in(Some(self.span.start))
                .filter(|broken| broken.key.as_deref().is_none_or(|key| key == "id"));
            match broken.next() {
                Some(broken) => self.desk.half_id(of, &broken.value),
                None => self.desk.unsure(of),
            }
            return None;
        };
        match &node.value {
            Value::Text(text) if well_formed(text) => {
                self.desk.id(of, text, &node.span);
                Some((text.clone(), node.span.clone()))
            }
            Value::Text(text) => {
                self.bad_id(text, &node.span);
                self.desk.half_id(of, text);
                None
            }
            _ => {
                self.wrong_type("id", node);
                self.desk.unsure(of);
                None
            }
        }
    }

    /// The text of the machine's own id.
    pub(super) fn own_id(&self) -> Option<String> {
        let node = self.node("id")?;
        match &node.value {
            Value::Text(text) if well_formed(text) => Some(text.clone()),
            Value::Text(text) => {
                self.bad_id(text, &node.span);
                None
            }
            _ => {
                self.wrong_type("id", node);
                None
            }
        }
    }

    pub(super) fn bad_id(&self, text: &str, span: &Range<usize>) {
        let right = slug(text);
        self.desk.mistake(
            span.clone(),
            TroubleKind::BadId {
                found: text.chars().take(80).collect(),
                right,
            },
        );
    }

    /// The id of something else, to be looked up when all is read.
    pub(super) fn reference(&self, key: &'static str) -> Option<String> {
        let Shape::Ref(of) = self.field(key).shape else {
            return None;
        };
        let node = self.node(key)?;
        self.reference_of(key, of, node)
    }

    fn reference_of(&self, key: &'static str, of: Named, node: &Node) -> Option<String> {
        let Value::Text(text) = &node.value else {
            self.wrong_type(key, node);
            return None;
        };
        self.desk.speaks_of(
            of,
            &text.chars().take(80).collect::<String>(),
            node.span.clone(),
        );
        well_formed(text).then(|| text.clone())
    }

    /// The ids of other things, with their places.
    pub(super) fn references(&self, key: &'static str) -> Vec<(String, Range<usize>)> {
        let Shape::Refs(of) = self.field(key).shape else {
            return Vec::new();
        };
        let items = self.list(key, false).unwrap_or_default();
        items
            .iter()
            .filter_map(|item| Some((self.reference_of(key, of, item)?, item.span.clone())))
            .collect()
    }

    /// The ids of other things.
    pub(super) fn items(&self, key: &'static str) -> Vec<ItemId> {
        self.references(key)
            .iter()
            .filter_map(|(id, _)| ItemId::new(id))
            .collect()
    }

    /// A quantity of the dimension declared.
    pub(super) fn quantity(&self, key: &'static str) -> Option<Quantity> {
        let Shape::Quantity(wanted) = self.field(key).shape else {
            return None;
        };
        let node = self.node(key)?;
        let Value::Text(text) = &node.value else {
            self.wrong_type(key, node);
            return None;
        };
        self.quantity_in(key, text, &node.span, wanted)
    }

    /// A quantity that must be more than zero.
    pub(super) fn positive(&self, key: &'static str) -> Option<Quantity> {
        let read = self.quantity(key)?;
        if read.value().is_zero() || read.value().is_negative() {
            self.desk.mistake(
                self.place_of(key),
                TroubleKind::NotPositive {
                    key: key.to_owned(),
                },
            );
            return None;
        }
        Some(read)
    }

    /// Reads a quantity in the text at `span`; what is wrong is pointed at inside the quotes where that is sure.
    pub(super) fn quantity_in(
        &self,
        key: &str,
        text: &str,
        span: &Range<usize>,
        wanted: Option<Dimension>,
    ) -> Option<Quantity> {
        match quantity::parse(text, self.desk.habits, wanted) {
            Ok(read) => Some(read),
            Err(trouble) => {
                let within = trouble.span();
                let plain = span.len() == text.len() + 2;
                let place = if plain && within.end <= text.len() {
                    span.start + 1 + within.start..span.start + 1 + within.end
                } else {
                    span.clone()
                };
                let place = if place.is_empty() {
                    span.clone()
                } else {
                    place
                };
                self.desk.mistake(
                    place,
                    TroubleKind::Quantity {
                        key: key.to_owned(),
                        trouble,
                    },
                );
                None
            }
        }
    }

    /// A place in the machine frame: numbers in metres or written lengths; the height may be left out.
    pub(super) fn place(&self, key: &'static str) -> Option<Place> {
        let node = self.node(key)?;
        let Value::List(items) = &node.value else {
            self.wrong_type(key, node);
            return None;
        };
        if !(2..=3).contains(&items.len()) {
            self.desk.mistake(node.span.clone(), TroubleKind::BadPlace);
            return None;
        }
        let lengths: Vec<Option<f64>> = items.iter().map(|item| self.metres(key, item)).collect();
        match lengths[..] {
            [Some(x), Some(y)] => Some(Place { x, y, z: 0.0 }),
            [Some(x), Some(y), Some(z)] => Some(Place { x, y, z }),
            _ => None,
        }
    }

    fn metres(&self, key: &'static str, node: &Node) -> Option<f64> {
        if let Value::Text(text) = &node.value {
            return self
                .quantity_in(key, text, &node.span, Some(Dimension::Length))
                .map(|length| length.si_f64());
        }
        let metres = number(node).filter(|metres| metres.abs() <= FARTHEST);
        if metres.is_none() {
            self.desk.mistake(node.span.clone(), TroubleKind::BadPlace);
        }
        metres
    }

    /// A text without noting anything: for a key that is read elsewhere too.
    pub(super) fn peek(&self, key: &str) -> Option<String> {
        match &self.find(key)?.1.value {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        }
    }

    /// The value of a key whose shape the caller reads.
    pub(super) fn raw(&self, key: &'static str) -> Option<&'a Node> {
        self.node(key)
    }
}

/// No machine reaches farther from its middle, metres.
pub(super) const FARTHEST: f64 = 1000.0;

/// A number, whole or not.
pub(super) fn number(node: &Node) -> Option<f64> {
    match node.value {
        Value::Number(number) => Some(number),
        #[expect(
            clippy::cast_precision_loss,
            reason = "whole numbers beyond 2^53 are far outside every bound checked next"
        )]
        Value::Whole(whole) => Some(whole as f64),
        _ => None,
    }
}

/// The id nearest to a text: small letters, digits and dashes.
fn slug(text: &str) -> Option<String> {
    let dashed: String = text
        .trim()
        .to_lowercase()
        .chars()
        .take(64)
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let slug = dashed
        .split('-')
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join("-");
    well_formed(&slug).then_some(slug)
}
