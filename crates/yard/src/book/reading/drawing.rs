//! The strokes the machine is drawn from.

use crate::book::section::{FARTHEST, Section, number};
use crate::book::tree::{Node, Value};
use crate::book::trouble::TroubleKind;
use crate::book::{Shape, Stroke};

/// One stroke: a line or a circle, never both.
pub(super) fn stroke(section: Section<'_, '_>) -> Option<Stroke> {
    let view = section.word("view");
    let (heavy, closed) = (section.yes("heavy"), section.yes("closed"));
    let shape = match (section.raw("line"), section.raw("circle")) {
        (Some(line), None) => shape(&section, line, line_of),
        (None, Some(circle)) => shape(&section, circle, circle_of),
        (None, None) if section.has("line") || section.has("circle") => None,
        _ => {
            section
                .desk
                .mistake(section.span.clone(), TroubleKind::BadStroke);
            None
        }
    };
    Some(Stroke {
        view: view?,
        heavy,
        closed,
        shape: shape?,
        line: section.line,
    })
}

fn shape(
    section: &Section<'_, '_>,
    node: &Node,
    read: fn(&[Node]) -> Option<Shape>,
) -> Option<Shape> {
    let read = match &node.value {
        Value::List(items) => read(items),
        _ => None,
    };
    if read.is_none() {
        section
            .desk
            .mistake(node.span.clone(), TroubleKind::BadStroke);
    }
    read
}

fn line_of(items: &[Node]) -> Option<Shape> {
    let pair = |item: &Node| match &item.value {
        Value::List(both) => match numbers(both)?[..] {
            [x, z] => Some((x, z)),
            _ => None,
        },
        _ => None,
    };
    let points: Vec<_> = items.iter().map(pair).collect::<Option<_>>()?;
    (points.len() >= 2).then_some(Shape::Line(points))
}

fn circle_of(items: &[Node]) -> Option<Shape> {
    match numbers(items)?[..] {
        [x, z, radius] if radius > 0.0 => Some(Shape::Circle {
            middle: (x, z),
            radius,
        }),
        _ => None,
    }
}

fn numbers(items: &[Node]) -> Option<Vec<f64>> {
    items
        .iter()
        .map(|item| number(item).filter(|n| n.abs() <= FARTHEST))
        .collect()
}
