//! The plan of the machine: numbered stations along the lap, and the danger zone.

use super::{
    ink::{DIMENSION, HATCH, INK, PENCIL, SHEET},
    pen, size,
};
use svg::node::element::{Circle, Group, SVG, Title};
use yard::{
    book::{Book, Shape, Stroke, View},
    id::StationId,
};

/// What to draw.
#[derive(Clone, Copy)]
pub struct Plan<'a> {
    /// The machine.
    pub book: &'a Book,
    /// Station drawn strong, if any.
    pub here: Option<&'a StationId>,
    /// What the picture is, for those who cannot see it.
    pub title: &'a str,
    /// Words for the danger zone.
    pub zone: &'a str,
    /// An id no other drawing of the page has.
    pub id: &'a str,
    /// Radius of the stations' numbers, hundredths of a metre.
    pub radius: f64,
}

/// Draws the plan, front to the left of the page.
pub fn plan(what: &Plan<'_>) -> String {
    let sheet = Sheet(size::of_plan(what.book));
    let (left, right, top, bottom) = extent(what, sheet);
    let mut drawing = SVG::new()
        .set(
            "viewBox",
            format!(
                "{} {} {} {}",
                pen::unit(left),
                pen::unit(top),
                pen::unit(right - left),
                pen::unit(bottom - top)
            ),
        )
        .set("role", "img")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(Title::new(what.title));
    drawing = drawing.add(zone(what, sheet, bottom));
    for stroke in what.book.drawing.iter().filter(|s| s.view == View::Plan) {
        drawing = drawing.add(drawn(stroke, what.radius, sheet));
    }
    drawing
        .add(lap(what, sheet))
        .add(stations(what, sheet))
        .to_string()
}

/// Drawing units in a metre of this machine.
#[derive(Clone, Copy)]
struct Sheet(f64);

impl Sheet {
    /// Machine frame to page: front to the left, so that the left side is towards the reader.
    fn at(self, x: f64, y: f64) -> (f64, f64) {
        (-x * self.0, y * self.0)
    }
}

fn danger(what: &Plan<'_>, sheet: Sheet) -> Option<((f64, f64), f64)> {
    let zone = what.book.danger_zone.as_ref()?;
    let middle = zone.middle.map_or((0.0, 0.0), |m| sheet.at(m.x, m.y));
    Some((middle, zone.reach.si_f64() * sheet.0))
}

fn places<'a>(what: &Plan<'a>, sheet: Sheet) -> Vec<(usize, &'a StationId, (f64, f64))> {
    let book = what.book;
    let along = book.lap.iter().enumerate();
    along
        .filter_map(|(i, id)| {
            let station = book.stations.iter().find(|s| s.id == *id)?;
            station.at.map(|at| (i + 1, id, sheet.at(at.x, at.y)))
        })
        .collect()
}

fn extent(what: &Plan<'_>, sheet: Sheet) -> (f64, f64, f64, f64) {
    let mut all: Vec<(f64, f64)> = places(what, sheet).into_iter().map(|(.., at)| at).collect();
    for stroke in what.book.drawing.iter().filter(|s| s.view == View::Plan) {
        match &stroke.shape {
            Shape::Line(points) => all.extend(points.iter().map(|(x, y)| sheet.at(*x, *y))),
            Shape::Circle { middle, .. } => all.push(sheet.at(middle.0, middle.1)),
        }
    }
    if let Some(((x, y), r)) = danger(what, sheet) {
        all.extend([(x - r, y - r), (x + r, y + r)]);
    }
    let pad = what.radius * 1.4;
    let fold = |f: fn(f64, f64) -> f64, pick: fn(&(f64, f64)) -> f64| {
        all.iter().map(pick).reduce(f).unwrap_or(0.0)
    };
    (
        fold(f64::min, |p| p.0) - pad,
        fold(f64::max, |p| p.0) + pad,
        fold(f64::min, |p| p.1) - pad,
        fold(f64::max, |p| p.1) + pad,
    )
}

fn zone(what: &Plan<'_>, sheet: Sheet, bottom: f64) -> Group {
    let Some((middle, reach)) = danger(what, sheet) else {
        return Group::new();
    };
    let id = format!("{}-hatch", what.id);
    let area = Circle::new()
        .set("cx", pen::unit(middle.0))
        .set("cy", pen::unit(middle.1))
        .set("r", pen::unit(reach))
        .set("fill", format!("url(#{id})"))
        .set("stroke", HATCH)
        .set("stroke-width", pen::unit(what.radius * 0.12))
        .set(
            "stroke-dasharray",
            format!("{0} {0}", pen::unit(what.radius * 0.6)),
        );
    let label = pen::label(
        (middle.0, (middle.1 + reach - what.radius * 1.6).min(bottom)),
        what.radius,
        PENCIL,
        what.zone,
    );
    Group::new()
        .add(pen::hatch(&id, what.radius * 1.1))
        .add(area)
        .add(label)
}

fn drawn(stroke: &Stroke, radius: f64, sheet: Sheet) -> Group {
    let width = pen::weight(stroke.heavy, radius.min(20.0));
    match &stroke.shape {
        Shape::Line(points) => {
            let points: Vec<(f64, f64)> = points.iter().map(|(x, y)| sheet.at(*x, *y)).collect();
            if stroke.closed {
                Group::new().add(pen::body(&points, width))
            } else {
                Group::new().add(pen::line(&points, INK, width))
            }
        }
        Shape::Circle { middle, radius } => {
            let fill = if stroke.closed { SHEET } else { "none" };
            Group::new().add(pen::ring(
                sheet.at(middle.0, middle.1),
                radius * sheet.0,
                fill,
                INK,
                width,
            ))
        }
    }
}

fn lap(what: &Plan<'_>, sheet: Sheet) -> Group {
    let path: Vec<(f64, f64)> = places(what, sheet).into_iter().map(|(.., at)| at).collect();
    let line = pen::line(&path, DIMENSION, what.radius * 0.12)
        .set("stroke-dasharray", pen::unit(what.radius * 0.5));
    Group::new().add(line)
}

fn stations(what: &Plan<'_>, sheet: Sheet) -> Group {
    places(what, sheet)
        .into_iter()
        .fold(Group::new(), |group, (number, id, at)| {
            let here = what.here == Some(id);
            let (fill, ink) = if here { (INK, SHEET) } else { (SHEET, INK) };
            group
                .add(pen::ring(at, what.radius, fill, INK, what.radius * 0.11))
                .add(pen::text(
                    (at.0, at.1 + what.radius * 0.38),
                    what.radius * 1.05,
                    ink,
                    true,
                    "middle",
                    &number.to_string(),
                ))
        })
}
