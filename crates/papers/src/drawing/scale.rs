//! A measured value against its limit: the band that is allowed, the reading with its ±, hatched where it is too close to call.

use super::{
    ink::{CARE, FIT, INK, PENCIL, SHEET},
    pen,
};
use svg::node::element::{Group, Rectangle, SVG, Text, Title};

/// What to draw; all values in one unit.
#[derive(Clone, Debug)]
pub struct LimitScale<'a> {
    /// Lower limit.
    pub min: Option<f64>,
    /// Upper limit.
    pub max: Option<f64>,
    /// The reading.
    pub value: f64,
    /// Its ±.
    pub plus_minus: f64,
    /// Lower limit as written.
    pub min_text: &'a str,
    /// Upper limit as written.
    pub max_text: &'a str,
    /// The reading as written.
    pub value_text: &'a str,
    /// What the picture says, for those who cannot see it.
    pub title: &'a str,
    /// An id no other drawing of the page has.
    pub id: &'a str,
}

const WIDTH: f64 = 320.0;
const EDGE: f64 = 28.0;
const TOP: f64 = 22.0;
const HEIGHT: f64 = 18.0;

/// Draws the scale, 320 by 62 units.
pub fn limit_scale(what: &LimitScale<'_>) -> String {
    let x = axis(what);
    let left = what.min.map_or(0.0, &x);
    let right = what.max.map_or(WIDTH, &x);
    let hatch_id = format!("{}-close", what.id);
    let mut group = Group::new()
        .add(pen::hatch(&hatch_id, 6.0))
        .add(bar(left, right, "#CFE0D0", FIT));
    for limit in [what.min, what.max].into_iter().flatten() {
        let (from, to) = (x(limit - what.plus_minus), x(limit + what.plus_minus));
        group = group.add(bar(
            from.max(0.0),
            to.min(WIDTH),
            &format!("url(#{hatch_id})"),
            CARE,
        ));
    }
    for (limit, text) in [(what.min, what.min_text), (what.max, what.max_text)] {
        if let Some(limit) = limit {
            group = group.add(pen::text(
                (x(limit).clamp(20.0, WIDTH - 20.0), TOP + HEIGHT + 16.0),
                12.0,
                PENCIL,
                false,
                "middle",
                text,
            ));
        }
    }
    let at = x(what.value).clamp(2.0, WIDTH - 2.0);
    let (low, high) = (
        x(what.value - what.plus_minus).max(0.0),
        x(what.value + what.plus_minus).min(WIDTH),
    );
    group = group
        .add(pen::line(
            &[(low, TOP + HEIGHT / 2.0), (high, TOP + HEIGHT / 2.0)],
            INK,
            3.0,
        ))
        .add(pen::line(
            &[(at, TOP - 6.0), (at, TOP + HEIGHT + 6.0)],
            INK,
            3.0,
        ))
        .add(reading(at, what.value_text));
    SVG::new()
        .set("viewBox", format!("0 0 {WIDTH} 62"))
        .set("role", "img")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(Title::new(what.title))
        .add(group)
        .to_string()
}

/// What was read, above its mark; near an edge it runs away from that edge, so that two readings fit as well.
fn reading(at: f64, text: &str) -> Text {
    let (at, anchor) = match at / WIDTH {
        share if share < 0.35 => (at.min(EDGE), "start"),
        share if share > 0.65 => (at.max(WIDTH - EDGE), "end"),
        _ => (at, "middle"),
    };
    pen::text((at, TOP - 9.0), 13.0, INK, true, anchor, text)
}

/// Maps values to the page so that limits, reading and a margin all show.
fn axis(what: &LimitScale<'_>) -> impl Fn(f64) -> f64 + use<> {
    let ends = [
        what.min,
        what.max,
        Some(what.value - what.plus_minus),
        Some(what.value + what.plus_minus),
    ];
    let (low, high) = ends
        .into_iter()
        .flatten()
        .filter(|v| v.is_finite())
        .fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
    let span = if high > low { high - low } else { 1.0 };
    move |value: f64| EDGE + (value - low) / span * (WIDTH - 2.0 * EDGE)
}

fn bar(from: f64, to: f64, fill: &str, stroke: &str) -> Rectangle {
    Rectangle::new()
        .set("x", pen::unit(from))
        .set("y", pen::unit(TOP))
        .set("width", pen::unit((to - from).max(0.0)))
        .set("height", pen::unit(HEIGHT))
        .set("fill", if fill.is_empty() { SHEET } else { fill })
        .set("stroke", stroke)
        .set("stroke-width", "1")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_reading_stands_where_it_belongs() {
        let scale = LimitScale {
            min: Some(0.75),
            max: Some(2.0),
            value: 2.0,
            plus_minus: 0.0625,
            min_text: "3/4 in",
            max_text: "2 in",
            value_text: "2 in",
            title: "t",
            id: "a",
        };
        let x = axis(&scale);
        assert!(x(0.75) < x(2.0) && x(2.0) < x(2.0625));
        assert!(limit_scale(&scale).contains("3/4 in"));
    }
}
