//! One table of the book while it is read: each key looked up, its value checked against the declared shape, and what is
//! wrong noted once.

mod ids;
mod quantities;

pub(super) use quantities::{FARTHEST, number};

use super::desk::Desk;
use super::fields::{Field, MOST_ITEMS, MOST_TEXT, Shape, Table};
use super::nearest::nearest;
use super::tree::{Entries, Key, Node, Value};
use super::trouble::TroubleKind;
use crate::code::Coded;
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
    /// In a point or a part: its kind, once known.
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

    /// Settles the kind of a point or a part: keys of other kinds are noted, and needed keys go by it.
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

    /// A word that may stand elsewhere, but not here.
    pub(super) fn no_such_word(
        &self,
        key: &'static str,
        place: Range<usize>,
        found: &str,
        allowed: &[&str],
    ) {
        self.desk.mistake(
            place,
            TroubleKind::UnknownWord {
                key: key.to_owned(),
                found: found.to_owned(),
                nearest: None,
                allowed: allowed.join(", "),
            },
        );
    }

    /// A list of such words.
    pub(super) fn words<T: Coded>(&self, key: &'static str) -> Vec<T> {
        let items = self.list(key, true).unwrap_or_default();
        items
            .iter()
            .filter_map(|item| self.word_of(key, item))
            .collect()
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
