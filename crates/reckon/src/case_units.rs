//! The units cases are written in, beside those of the leaves.
//!
//! On purpose a short table of its own: a source is quoted in its own units, and a case is worth more where it does
//! not lean on the conversions it may one day have to question.

/// A unit, the unit it is a multiple of, and how much of that it is: exact by definition.
const UNITS: [(&str, &str, f64); 14] = [
    ("min", "h", 1.0 / 60.0),
    ("d", "h", 24.0),
    ("y", "d", 365.0),
    ("in", "mm", 25.4),
    ("ft", "m", 0.3048),
    ("ft", "mm", 304.8),
    ("m", "mm", 1000.0),
    ("mm", "m", 0.001),
    ("US gal", "L", 3.785_411_784),
    ("1/US gal", "1/L", 1.0 / 3.785_411_784),
    ("oz", "g", 28.349_523_125),
    ("kg", "g", 1000.0),
    ("lbf/in", "N/m", 4.448_221_615_260_5 / 0.0254),
    ("lbf", "N", 4.448_221_615_260_5),
];

/// A value in another unit of the same kind.
///
/// # Errors
/// Says so where the one unit is not a multiple of the other that stands in the table.
pub(crate) fn in_unit_of_leaf(value: f64, unit: &str, wanted: &str) -> Result<f64, String> {
    if unit == wanted || wanted == "any" {
        return Ok(value);
    }
    if let Some((_, _, factor)) = UNITS
        .iter()
        .find(|(from, to, _)| (*from, *to) == (unit, wanted))
    {
        return Ok(value * factor);
    }
    if (unit, wanted) == ("in", "m") {
        return Ok(value * 0.0254);
    }
    Err(format!("{unit} given, {wanted} wanted"))
}
