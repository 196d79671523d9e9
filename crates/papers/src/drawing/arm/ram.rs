//! One ram: barrel, piston, rod; the oil that carries the load hatched; the one that works drawn heavy.

use super::{
    super::{
        ink::{INK, SHEET},
        pen,
    },
    ArmDrawing, page,
};
use reckon::arm::shape::{Joint, Side};
use svg::node::element::{Group, Polygon};

/// How much of the barrel lies beyond the piston when the ram is fully in, as a part of its closed length.
const END_CAP: f64 = 0.09;

/// From barrel pin to the end of the barrel, as a part of the closed length.
const BARREL: f64 = 0.9;

/// The steel round the bore, as a part of the bore.
const WALL: f64 = 1.18;

/// A bore, where the book has none, metres.
const BORE: f64 = 0.09;

/// The ram in its pose.
pub(super) fn drawn(what: &ArmDrawing<'_>, joint: Joint, line: f64) -> Group {
    let ram = what.shape.ram(joint);
    let look = &what.rams[joint.index()];
    let (from, to) = (
        what.placed.barrels[joint.index()],
        what.placed.rods[joint.index()],
    );
    let length = (to - from).length();
    if length <= 0.0 {
        return Group::new();
    }
    let along = (to - from) * (1.0 / length);
    let at = |far: f64, aside: f64| page(from + along * far + along.quarter() * aside);
    let gland = ram.closed * BARREL;
    // The piston keeps its distance from the rod's pin.
    let piston = (length - ram.closed + ram.closed * END_CAP).clamp(0.0, gland);
    // A bore or a rod that nobody measured is drawn as thick as most are.
    let bore = if ram.bore > 0.0 { ram.bore } else { BORE };
    let rod = if ram.rod > 0.0 { ram.rod } else { BORE * 0.55 };
    let half = bore * WALL / 2.0;
    let strip = |begin: f64, end: f64, half: f64| {
        [
            at(begin, half),
            at(end, half),
            at(end, -half),
            at(begin, -half),
        ]
    };
    let weight = if look.works { line * 1.5 } else { line * 0.7 };
    let mut group = Group::new()
        .add(pen::line(
            &[at(piston, 0.0), page(to)],
            INK,
            rod * 100.0 + weight,
        ))
        .add(pen::line(
            &[at(piston, 0.0), page(to)],
            if look.works { INK } else { SHEET },
            rod * 100.0 - weight,
        ))
        .add(pen::line(&[page(from), at(0.05, 0.0)], INK, half * 100.0))
        .add(pen::body(&strip(0.05, gland, half), weight));
    if let Some(side) = look.loaded {
        let oil = match side {
            Side::Cap => strip(0.05, piston, half * 0.84),
            Side::Rod => strip(piston, gland, half * 0.84),
        };
        group = group.add(oil_in(&oil, what.id));
    }
    group = group
        .add(pen::line(
            &[at(piston, half * 0.8), at(piston, -half * 0.8)],
            INK,
            line * 1.2,
        ))
        .add(pen::line(
            &[at(gland, half * 1.25), at(gland, -half * 1.25)],
            INK,
            line * 1.1,
        ));
    group
}

fn oil_in(corners: &[(f64, f64)], id: &str) -> Polygon {
    Polygon::new()
        .set("points", pen::pairs(corners))
        .set("fill", format!("url(#{id}-oil)"))
}
