//! Quantities and places in a table.

use super::Section;
use crate::book::fields::Shape;
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::book::{Coordinate, Place};
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

    /// Lengths along the axes of a link or of the machine; empty where the key is not there or does not read.
    pub(in crate::book) fn coordinates(&self, key: &'static str) -> Vec<Coordinate> {
        let Shape::Lengths(least, most) = self.field(key).shape else {
            return Vec::new();
        };
        let Some(node) = self.node(key) else {
            return Vec::new();
        };
        let Value::List(items) = &node.value else {
            self.wrong_type(key, node);
            return Vec::new();
        };
        if !(least..=most).contains(&items.len()) {
            let what = TroubleKind::LengthsCount { least, most };
            self.desk.mistake(node.span.clone(), what);
            return Vec::new();
        }
        let read: Option<Vec<_>> = items
            .iter()
            .map(|item| self.coordinate(key, item))
            .collect();
        read.unwrap_or_default()
    }

    /// Corners on the ground.
    pub(in crate::book) fn corners(&self, key: &'static str) -> Option<Vec<[f64; 2]>> {
        let items = self.list(key, false)?;
        let corner = |node: &Node| match &node.value {
            Value::List(both) if both.len() == 2 => Some([
                self.coordinate(key, &both[0])?.metres,
                self.coordinate(key, &both[1])?.metres,
            ]),
            _ => {
                self.wrong_type(key, node);
                None
            }
        };
        let corners: Option<Vec<_>> = items.iter().map(corner).collect();
        corners.filter(|corners| {
            let enclose = encloses(corners);
            if !enclose {
                self.desk
                    .mistake(self.place_of(key), TroubleKind::CornersEncloseNothing);
            }
            enclose
        })
    }

    fn coordinate(&self, key: &'static str, node: &Node) -> Option<Coordinate> {
        if let Value::Text(text) = &node.value {
            let length = self.quantity_in(key, text, &node.span, Some(Dimension::Length))?;
            return Some(Coordinate {
                metres: length.si_f64(),
                plus_minus: length.plus_minus_si().map(|half| half.to_f64()),
            });
        }
        let metres = self.metres(key, node)?;
        Some(Coordinate {
            metres,
            plus_minus: None,
        })
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

/// Whether the corners in their order go once round a convex outline, whichever way.
fn encloses(corners: &[[f64; 2]]) -> bool {
    let count = corners.len();
    let turn = |at: usize| {
        let [a, b, c] = [0, 1, 2].map(|step| corners[(at + step) % count]);
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    };
    let turns: Vec<f64> = (0..count).map(turn).collect();
    count >= 3 && (turns.iter().all(|t| *t > 0.0) || turns.iter().all(|t| *t < 0.0))
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
