//! The plan of the machine: numbered stations along the lap, and the danger zone.

use super::{
    ink::{DIMENSION, HATCH, INK, PENCIL, PER_METRE, SHEET},
    pen,
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
    let (left, right, top, bottom) = extent(what);
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
    drawing = drawing.add(zone(what, bottom));
    for stroke in what.book.drawing.iter().filter(|s| s.view == View::Plan) {
        drawing = drawing.add(drawn(stroke, what.radius));
    }
    drawing.add(lap(what)).add(stations(what)).to_string()
}

/// Machine frame to page: front to the left, so that the left side is towards the reader.
fn on_page(x: f64, y: f64) -> (f64, f64) {
    (-x * PER_METRE, y * PER_METRE)
}

fn danger(what: &Plan<'_>) -> Option<((f64, f64), f64)> {
    let zone = what.book.danger_zone.as_ref()?;
    let middle = zone.middle.map_or((0.0, 0.0), |m| on_page(m.x, m.y));
    Some((middle, zone.reach.si_f64() * PER_METRE))
}

fn places<'a>(what: &Plan<'a>) -> Vec<(usize, &'a StationId, (f64, f64))> {
    let book = what.book;
    let along = book.lap.iter().enumerate();
    along
        .filter_map(|(i, id)| {
            let station = book.stations.iter().find(|s| s.id == *id)?;
            station.at.map(|at| (i + 1, id, on_page(at.x, at.y)))
        })
        .collect()
}

fn extent(what: &Plan<'_>) -> (f64, f64, f64, f64) {
    let mut all: Vec<(f64, f64)> = places(what).into_iter().map(|(.., at)| at).collect();
    for stroke in what.book.drawing.iter().filter(|s| s.view == View::Plan) {
        match &stroke.shape {
            Shape::Line(points) => all.extend(points.iter().map(|(x, y)| on_page(*x, *y))),
            Shape::Circle { middle, .. } => all.push(on_page(middle.0, middle.1)),
        }
    }
    if let Some(((x, y), r)) = danger(what) {
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

fn zone(what: &Plan<'_>, bottom: f64) -> Group {
    let Some((middle, reach)) = danger(what) else {
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

fn drawn(stroke: &Stroke, radius: f64) -> Group {
    let width = pen::weight(stroke.heavy, radius.min(20.0));
    match &stroke.shape {
        Shape::Line(points) => {
            let points: Vec<(f64, f64)> = points.iter().map(|(x, y)| on_page(*x, *y)).collect();
            if stroke.closed {
                Group::new().add(pen::body(&points, width))
            } else {
                Group::new().add(pen::line(&points, INK, width))
            }
        }
        Shape::Circle { middle, radius } => {
            let fill = if stroke.closed { SHEET } else { "none" };
            Group::new().add(pen::ring(
                on_page(middle.0, middle.1),
                radius * PER_METRE,
                fill,
                INK,
                width,
            ))
        }
    }
}

fn lap(what: &Plan<'_>) -> Group {
    let path: Vec<(f64, f64)> = places(what).into_iter().map(|(.., at)| at).collect();
    let line = pen::line(&path, DIMENSION, what.radius * 0.12)
        .set("stroke-dasharray", pen::unit(what.radius * 0.5));
    Group::new().add(line)
}

fn stations(what: &Plan<'_>) -> Group {
    places(what)
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
