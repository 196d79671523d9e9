//! Putting shapes into an SVG: strokes of the book, hatching, labels, with rounding that gives the same text everywhere.

use super::ink::{HATCH, INK, SHEET};
use svg::node::element::{
    Circle, Definitions, Group, Path, Pattern, Polygon, Polyline, Rectangle, Text,
};

/// A number as it stands in the SVG: one decimal of a hundredth of a metre, no negative zero.
pub(super) fn unit(value: f64) -> String {
    let rounded = (value * 10.0).round() / 10.0;
    let rounded = if rounded == 0.0 { 0.0 } else { rounded };
    format!("{rounded}")
}

/// Corners as an SVG writes them.
pub(super) fn pairs(points: &[(f64, f64)]) -> String {
    points
        .iter()
        .map(|(x, y)| format!("{},{}", unit(*x), unit(*y)))
        .collect::<Vec<_>>()
        .join(" ")
}

/// Heavy outline or light line, in drawing units for a drawing whose label radius is `r`.
pub(super) fn weight(heavy: bool, r: f64) -> f64 {
    r * if heavy { 0.17 } else { 0.085 }
}

/// An open line.
pub(super) fn line(points: &[(f64, f64)], stroke: &str, width: f64) -> Polyline {
    Polyline::new()
        .set("points", pairs(points))
        .set("fill", "none")
        .set("stroke", stroke)
        .set("stroke-width", unit(width))
        .set("stroke-linejoin", "round")
        .set("stroke-linecap", "round")
}

/// A closed shape filled with the sheet, so that it covers what lies behind it.
pub(super) fn body(points: &[(f64, f64)], width: f64) -> Polygon {
    Polygon::new()
        .set("points", pairs(points))
        .set("fill", SHEET)
        .set("stroke", INK)
        .set("stroke-width", unit(width))
        .set("stroke-linejoin", "round")
}

/// A circle.
pub(super) fn ring(
    middle: (f64, f64),
    radius: f64,
    fill: &str,
    stroke: &str,
    width: f64,
) -> Circle {
    Circle::new()
        .set("cx", unit(middle.0))
        .set("cy", unit(middle.1))
        .set("r", unit(radius))
        .set("fill", fill)
        .set("stroke", stroke)
        .set("stroke-width", unit(width))
}

/// Text set about a middle.
pub(super) fn text(
    at: (f64, f64),
    size: f64,
    fill: &str,
    bold: bool,
    anchor: &str,
    what: &str,
) -> Text {
    Text::new(what)
        .set("x", unit(at.0))
        .set("y", unit(at.1))
        .set("font-family", "DejaVu Sans, Verdana, sans-serif")
        .set("font-size", unit(size))
        .set("font-weight", if bold { "bold" } else { "normal" })
        .set("text-anchor", anchor)
        .set("fill", fill)
}

/// Words on a strip of the sheet's colour, so that lines behind them do not cross them.
pub(super) fn label(at: (f64, f64), size: f64, fill: &str, what: &str) -> Group {
    // About as wide as DejaVu Sans sets it; the strip only has to cover lines.
    let wide = size * 0.62 * what.chars().count() as f64;
    let strip = Rectangle::new()
        .set("x", unit(at.0 - wide / 2.0))
        .set("y", unit(at.1 - size * 0.95))
        .set("width", unit(wide))
        .set("height", unit(size * 1.3))
        .set("fill", SHEET);
    Group::new()
        .add(strip)
        .add(text(at, size, fill, false, "middle", what))
}

/// The hatch of the danger zone, under an id that is this drawing's own.
pub(super) fn hatch(id: &str, spacing: f64) -> Definitions {
    // Beyond the tile's corners too, so that the lines meet those of the tiles beside it.
    let (s, a, b) = (spacing, unit(spacing * -0.25), unit(spacing * 1.25));
    let quarter = unit(spacing * 0.25);
    let rest = unit(s * 0.75);
    let stroke = Path::new()
        .set(
            "d",
            format!("M{a},{quarter} L{quarter},{a} M{a},{b} L{b},{a} M{rest},{b} L{b},{rest}"),
        )
        .set("stroke", HATCH)
        .set("stroke-width", unit(spacing * 0.055))
        .set("fill", "none");
    let pattern = Pattern::new()
        .set("id", id)
        .set("width", unit(spacing))
        .set("height", unit(spacing))
        .set("patternUnits", "userSpaceOnUse")
        .add(stroke);
    Definitions::new().add(pattern)
}

/// The hatch of oil that carries a load, close and in ink, so that it shows in a narrow barrel.
pub(super) fn oil(id: &str) -> Definitions {
    let stroke = Path::new()
        .set("d", "M-1,4 L4,-1 M-1,2 L2,-1 M1,4 L4,1")
        .set("stroke", INK)
        .set("stroke-width", "0.9")
        .set("fill", "none");
    let pattern = Pattern::new()
        .set("id", id)
        .set("width", "3")
        .set("height", "3")
        .set("patternUnits", "userSpaceOnUse")
        .add(stroke);
    Definitions::new().add(pattern)
}

#[cfg(test)]
mod tests {
    use super::unit;

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        assert_eq!(unit(12.3456), "12.3");
        assert_eq!(unit(-0.01), "0");
        assert_eq!(unit(100.0), "100");
    }
}
