//! The tables of a book, sorted by name; those it cannot have are noted.

use crate::book::desk::Desk;
use crate::book::fields::{TABLES, Table};
use crate::book::nearest::nearest;
use crate::book::section::Section;
use crate::book::tree::{Entries, Node, Value};
use crate::book::trouble::TroubleKind;
use std::ops::Range;

/// The tables found.
pub(super) struct Sheet<'a, 't> {
    desk: &'a Desk<'t>,
    found: Vec<(&'static Table, Range<usize>, &'a Entries)>,
    format: Option<&'a Node>,
}

/// The key that says the format.
const FORMAT_KEY: &str = "kingpost";

impl<'a, 't> Sheet<'a, 't> {
    /// Sorts the entries of a document.
    pub(super) fn of(desk: &'a Desk<'t>, entries: &'a Entries) -> Self {
        let mut sheet = Self {
            desk,
            found: Vec::new(),
            format: None,
        };
        let mut strangers = Vec::new();
        for (key, node) in entries {
            match Table::named(&key.text) {
                _ if key.text == FORMAT_KEY => sheet.format = Some(node),
                Some(table) => sheet.take(table, &key.span, node),
                None => {
                    let place = match &node.value {
                        Value::List(items) => items
                            .first()
                            .map_or_else(|| node.span.clone(), |first| first.span.clone()),
                        _ => key.span.clone(),
                    };
                    let nearest = nearest(&key.text, TABLES.iter().map(|table| table.name));
                    strangers.push(nearest.clone());
                    desk.mistake(
                        place,
                        TroubleKind::UnknownTable {
                            found: key.text.clone(),
                            nearest,
                        },
                    );
                }
            }
        }
        sheet.note_missing(&strangers);
        sheet
    }

    fn note_missing(&self, strangers: &[Option<String>]) {
        let missing = |table: &&Table| {
            table.needed
                && !self
                    .found
                    .iter()
                    .any(|(found, ..)| found.name == table.name)
        };
        for table in TABLES.iter().filter(missing) {
            if !strangers
                .iter()
                .any(|meant| meant.as_deref() == Some(table.name))
            {
                self.desk
                    .mistake(0..0, TroubleKind::MissingTable { table: table.name });
            }
        }
        for table in TABLES {
            // What a misspelt table holds cannot be told, so what speaks of its things may be right.
            if strangers
                .iter()
                .any(|meant| meant.as_deref() == Some(table.name))
            {
                super::NAMED
                    .iter()
                    .filter(|named| named.code() == table.name)
                    .for_each(|named| self.desk.unsure(*named));
            }
        }
    }

    fn take(&mut self, table: &'static Table, key: &Range<usize>, node: &'a Node) {
        let form = |place: &Range<usize>| {
            self.desk.mistake(
                place.clone(),
                TroubleKind::TableForm {
                    table: table.name,
                    right: table.heading(),
                },
            )
        };
        match &node.value {
            Value::Table(entries) => {
                if table.many {
                    form(key);
                }
                self.found.push((table, node.span.clone(), entries));
            }
            Value::List(items)
                if items
                    .iter()
                    .all(|item| matches!(item.value, Value::Table(_))) =>
            {
                if !table.many {
                    form(items.first().map_or(key, |item| &item.span));
                }
                let most = if table.many { items.len() } else { 1 };
                for item in items.iter().take(most) {
                    if let Value::Table(entries) = &item.value {
                        self.found.push((table, item.span.clone(), entries));
                    }
                }
            }
            _ => form(key),
        }
    }

    /// Notes where the book does not say its format, or one not known.
    pub(super) fn note_format(&self, known: i64) {
        let found = match self.format {
            Some(Node {
                value: Value::Whole(found),
                ..
            }) => Some(*found),
            _ => None,
        };
        let broken = self.desk.broken_in(None).next().is_some();
        if found != Some(known) && !(self.format.is_none() && broken) {
            let place = self.format.map_or(0..0, |node| node.span.clone());
            self.desk
                .mistake(place, TroubleKind::Format { found, known });
        }
    }

    /// Whether there is any table of this name.
    pub(super) fn has(&self, name: &str) -> bool {
        self.found.iter().any(|(table, ..)| table.name == name)
    }

    /// The table that is there once.
    pub(super) fn one(&self, name: &str) -> Option<Section<'a, 't>> {
        self.sections(name).next()
    }

    /// Every table of this name, read; those that do not read are left out.
    pub(super) fn each<T>(
        &self,
        name: &str,
        read: impl Fn(Section<'a, 't>) -> Option<T>,
    ) -> Vec<T> {
        self.sections(name).filter_map(read).collect()
    }

    fn sections<'s>(&'s self, name: &'s str) -> impl Iterator<Item = Section<'a, 't>> + 's {
        let named = self
            .found
            .iter()
            .filter(move |(table, ..)| table.name == name);
        named.map(|(table, span, entries)| Section::open(self.desk, table, span.clone(), entries))
    }
}
