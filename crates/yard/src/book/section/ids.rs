//! Ids in a table: its own, and those of other things it speaks of.

use super::Section;
use crate::book::fields::{Named, Shape};
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::id::{ItemId, well_formed};
use std::ops::Range;

impl Section<'_, '_> {
    /// The table's own id, noted as taken.
    pub(in crate::book) fn id(&self, of: Named) -> Option<(String, Range<usize>)> {
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
    pub(in crate::book) fn own_id(&self) -> Option<String> {
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

    pub(in crate::book) fn bad_id(&self, text: &str, span: &Range<usize>) {
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
    pub(in crate::book) fn reference(&self, key: &'static str) -> Option<String> {
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
    pub(in crate::book) fn references(&self, key: &'static str) -> Vec<(String, Range<usize>)> {
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
    pub(in crate::book) fn items(&self, key: &'static str) -> Vec<ItemId> {
        self.references(key)
            .iter()
            .filter_map(|(id, _)| ItemId::new(id))
            .collect()
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
