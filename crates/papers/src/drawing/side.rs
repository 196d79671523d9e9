//! A side view of the machine with its numbered points.

use super::{
    ink::{DIMENSION, INK, PENCIL, SHEET},
    labels::{Placed, Room, Wanted, place},
    pen, size,
};
use std::collections::BTreeMap;
use svg::node::element::{Group, Rectangle, SVG, Title};
use yard::{
    book::{Book, Place, Point, Shape, Stroke, View},
    id::PointId,
};

/// How a point shows on a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Emphasis {
    /// Not at all.
    Hidden,
    /// Number and leader.
    Quiet,
    /// Number inverted: this is the one.
    Strong,
    /// Number and leader, whichever side it is on: for what lies in the middle and is seen from both sides.
    EitherSide,
}

/// What to draw.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// The machine.
    pub book: &'a Book,
    /// From the left or from the right.
    pub view: View,
    /// Each point's number along the lap.
    pub numbers: &'a BTreeMap<PointId, u32>,
    /// Which points show.
    pub shows: &'a dyn Fn(&Point) -> Emphasis,
    /// What the picture is, for those who cannot see it.
    pub title: &'a str,
    /// Words written into the danger zone; none = zone not drawn.
    pub zone: Option<&'a str>,
    /// An id no other drawing of the page has.
    pub id: &'a str,
    /// Radius of the numbers in hundredths of a metre of the machine: 13 suits paper, 30 a phone.
    pub radius: f64,
    /// Show only the part of the machine around the points shown.
    pub close_up: bool,
}

/// The extent of what is drawn, drawing units, y downwards.
#[derive(Clone, Copy)]
struct Extent {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Extent {
    fn of(points: impl Iterator<Item = (f64, f64)>) -> Option<Self> {
        points.fold(None, |so_far: Option<Self>, (x, y)| {
            let e = so_far.unwrap_or(Self {
                left: x,
                right: x,
                top: y,
                bottom: y,
            });
            Some(Self {
                left: e.left.min(x),
                right: e.right.max(x),
                top: e.top.min(y),
                bottom: e.bottom.max(y),
            })
        })
    }
    fn padded(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            right: self.right + by,
            top: self.top - by,
            bottom: self.bottom + by,
        }
    }
}

/// Pixels of a screen for a unit of the drawing, where it is shown in its own width.
const PX_PER_UNIT: f64 = 1.15;

/// Draws the side view. A book without strokes gives the numbered points alone.
pub fn side(what: &Side<'_>) -> String {
    let sheet = Sheet::of(what);
    with_numbers(what, sheet, wanted(what, sheet))
}

/// The same view with other numbers than the points': each with its place on the machine.
pub fn side_with(what: &Side<'_>, marks: &[(u32, Place)]) -> String {
    let sheet = Sheet::of(what);
    let mark = |(number, at): &(u32, Place)| Wanted {
        number: *number,
        at: sheet.at(at.x, at.z),
        strong: false,
    };
    with_numbers(what, sheet, marks.iter().map(mark).collect())
}

fn with_numbers(what: &Side<'_>, sheet: Sheet, wanted: Vec<Wanted>) -> String {
    let extent = extent(what, sheet, &wanted);
    // The words of the danger zone stand between the ground and the numbers below it.
    let words_room = if what.zone.is_some() && what.book.danger_zone.is_some() {
        what.radius * 0.9
    } else {
        0.0
    };
    let room = Room {
        left: extent.left,
        right: extent.right,
        top: extent.top,
        bottom: extent.bottom + words_room,
        radius: what.radius,
    };
    let (placed, top, bottom) = place(wanted, room);
    let (top, bottom) = (
        top.min(extent.top),
        bottom.max(extent.bottom + what.radius * 0.5),
    );
    let mut drawing = SVG::new()
        .set(
            "viewBox",
            format!(
                "{} {} {} {}",
                pen::unit(extent.left),
                pen::unit(top),
                pen::unit(extent.right - extent.left),
                pen::unit(bottom - top)
            ),
        )
        .set(
            "width",
            pen::unit((extent.right - extent.left) * PX_PER_UNIT),
        )
        .set("role", "img")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(Title::new(what.title));
    let zone = what.zone.and_then(|words| zone(what, sheet, words, extent));
    let (hatched, zone_words) = zone.unzip();
    if let Some(hatched) = hatched {
        drawing = drawing.add(hatched);
    }
    drawing = drawing.add(pen::line(
        &[(extent.left, 0.0), (extent.right, 0.0)],
        INK,
        pen::weight(false, what.radius),
    ));
    for stroke in strokes(what) {
        drawing = drawing.add(drawn(stroke, what, sheet));
    }
    for label in &placed {
        drawing = drawing.add(leader(label, what.radius));
    }
    if let Some(words) = zone_words {
        drawing = drawing.add(words);
    }
    for label in &placed {
        drawing = drawing.add(number(label, what.radius));
    }
    drawing.to_string()
}

/// From the machine's frame to the page: from which side, and how large.
#[derive(Clone, Copy)]
struct Sheet {
    view: View,
    per_metre: f64,
}

impl Sheet {
    fn of(what: &Side<'_>) -> Self {
        Self {
            view: what.view,
            per_metre: size::of_sides(what.book),
        }
    }
    /// Seen from the left the front is to the left of the page.
    fn x(self, x: f64) -> f64 {
        if self.view == View::Right {
            x * self.per_metre
        } else {
            -x * self.per_metre
        }
    }
    fn at(self, x: f64, z: f64) -> (f64, f64) {
        (self.x(x), -z * self.per_metre)
    }
}

fn strokes<'a>(what: &'a Side<'_>) -> impl Iterator<Item = &'a Stroke> {
    what.book
        .drawing
        .iter()
        .filter(|s| s.view == View::Sides || s.view == what.view)
}

fn wanted(what: &Side<'_>, sheet: Sheet) -> Vec<Wanted> {
    let seen = |at: Place| match what.view {
        View::Right => at.y <= 0.0,
        _ => at.y >= 0.0,
    };
    what.book
        .points
        .iter()
        .filter_map(|point| {
            let emphasis = (what.shows)(point);
            let at = point.at.filter(|at| {
                matches!(emphasis, Emphasis::Strong | Emphasis::EitherSide) || seen(*at)
            })?;
            let number = *what.numbers.get(&point.id)?;
            (emphasis != Emphasis::Hidden).then(|| Wanted {
                number,
                at: sheet.at(at.x, at.z),
                strong: emphasis == Emphasis::Strong,
            })
        })
        .collect()
}

fn extent(what: &Side<'_>, sheet: Sheet, wanted: &[Wanted]) -> Extent {
    let corners = strokes(what).flat_map(|s| corners(&s.shape, sheet));
    let whole = Extent::of(
        corners
            .chain(wanted.iter().map(|w| w.at))
            .chain([(0.0, 0.0)]),
    );
    let whole = whole
        .unwrap_or(Extent {
            left: -100.0,
            right: 100.0,
            top: -100.0,
            bottom: 0.0,
        })
        .padded(what.radius);
    let near = Extent::of(wanted.iter().map(|w| w.at)).filter(|_| what.close_up);
    near.map_or(whole, |near| {
        // At least 3.2 m wide and 1.6 m high, inside the whole drawing.
        let near = near.padded(40.0);
        let (grow_x, grow_y) = (
            ((320.0 - (near.right - near.left)) / 2.0).max(0.0),
            ((160.0 - (near.bottom - near.top)) / 2.0).max(0.0),
        );
        Extent {
            left: (near.left - grow_x).max(whole.left),
            right: (near.right + grow_x).min(whole.right),
            top: (near.top - grow_y).max(whole.top),
            bottom: (near.bottom + grow_y).min(whole.bottom),
        }
    })
}

fn corners(shape: &Shape, sheet: Sheet) -> Vec<(f64, f64)> {
    match shape {
        Shape::Line(points) => points.iter().map(|(x, z)| sheet.at(*x, *z)).collect(),
        Shape::Circle { middle, radius } => {
            let ((x, y), r) = (sheet.at(middle.0, middle.1), radius * sheet.per_metre);
            vec![(x - r, y - r), (x + r, y + r)]
        }
    }
}

fn drawn(stroke: &Stroke, what: &Side<'_>, sheet: Sheet) -> Group {
    let width = pen::weight(stroke.heavy, what.radius.min(20.0));
    match &stroke.shape {
        Shape::Line(_) if stroke.closed => {
            Group::new().add(pen::body(&corners(&stroke.shape, sheet), width))
        }
        Shape::Line(_) => Group::new().add(pen::line(&corners(&stroke.shape, sheet), INK, width)),
        Shape::Circle { middle, radius } => {
            let middle = sheet.at(middle.0, middle.1);
            let fill = if stroke.closed { SHEET } else { "none" };
            Group::new().add(pen::ring(
                middle,
                radius * sheet.per_metre,
                fill,
                INK,
                width,
            ))
        }
    }
}

/// The hatched area, and its words apart: they go over the leaders.
fn zone(what: &Side<'_>, sheet: Sheet, words: &str, extent: Extent) -> Option<(Group, Group)> {
    let danger = what.book.danger_zone.as_ref()?;
    let reach = danger.reach.si_f64() * sheet.per_metre;
    let middle = danger.middle.map_or(0.0, |m| sheet.x(m.x));
    let (left, right) = (
        (middle - reach).max(extent.left),
        (middle + reach).min(extent.right),
    );
    // Around an arm at one end the zone is drawn on the arm's side of its middle only, so that the machine itself stays
    // readable. Around the whole machine it is drawn whole: neither end must look safe.
    let whole = (extent.left + extent.right) / 2.0;
    let at_one_end = (middle - whole).abs() > (extent.right - extent.left) / 6.0;
    let (left, right) = match (at_one_end, middle > whole) {
        (true, true) => (middle, right),
        (true, false) => (left, middle),
        (false, _) => (left, right),
    };
    let words = &format!("{words}: {}", danger.reach.text());
    let id = format!("{}-hatch", what.id);
    let area = Rectangle::new()
        .set("x", pen::unit(left))
        .set("y", pen::unit(extent.top))
        .set("width", pen::unit((right - left).max(0.0)))
        .set("height", pen::unit(-extent.top))
        .set("fill", format!("url(#{id})"));
    // No wider than the zone, as far as it can still be read; and always on the sheet.
    let letters = words.chars().count().max(1) as f64;
    let size = (what.radius * 1.05)
        .min(1.4 * (right - left) / letters)
        .max(what.radius * 0.7);
    let half = (size * letters * 0.3).min((extent.right - extent.left) / 2.0);
    let middle = ((left + right) / 2.0).clamp(extent.left + half, extent.right - half);
    let label = pen::label((middle, what.radius * 1.4), size, PENCIL, words);
    Some((Group::new().add(pen::hatch(&id, 16.0)).add(area), label))
}

fn leader(label: &Placed, radius: f64) -> Group {
    let (x, y) = label.wanted.at;
    let (mx, my) = label.middle;
    // Large numbers are for small screens; the machine under them stays as fine as it is.
    let fine = radius.min(15.0);
    Group::new()
        .add(pen::line(
            &[(mx, my), label.elbow, (x, y)],
            DIMENSION,
            pen::weight(false, fine),
        ))
        .add(pen::ring((x, y), fine * 0.17, DIMENSION, DIMENSION, 0.1))
}

fn number(label: &Placed, radius: f64) -> Group {
    let strong = label.wanted.strong;
    let (fill, ink) = if strong { (INK, SHEET) } else { (SHEET, INK) };
    let (x, y) = label.middle;
    Group::new()
        .add(pen::ring(
            label.middle,
            radius,
            fill,
            INK,
            pen::weight(false, radius) * 1.2,
        ))
        .add(pen::text(
            (x, y + radius * 0.38),
            radius * 1.05,
            ink,
            true,
            "middle",
            &label.wanted.number.to_string(),
        ))
}
