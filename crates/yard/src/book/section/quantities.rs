//! Quantities and places in a table.

use super::Section;
use crate::book::Place;
use crate::book::fields::Shape;
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use quantity::{Dimension, Quantity};
use std::ops::Range;

/// No machine reaches farther from its middle, metres.
pub(in crate::book) const FARTHEST: f64 = 1000.0;

impl Section<'_, '_> {
    /// A quantity of the dimension declared.
    pub(in crate::book) fn quantity(&self, key: &'static str) -> Option<Quantity> {
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
    pub(in crate::book) fn positive(&self, key: &'static str) -> Option<Quantity> {
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
    pub(in crate::book) fn quantity_in(
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
    pub(in crate::book) fn place(&self, key: &'static str) -> Option<Place> {
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
}

/// A number, whole or not.
pub(in crate::book) fn number(node: &Node) -> Option<f64> {
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
