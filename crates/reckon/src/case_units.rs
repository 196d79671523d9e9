//! The units cases are written in, beside those of the leaves.
//!
//! On purpose a short table of its own: a source is quoted in its own units, and a case is worth more where it does
//! not lean on the conversions it may one day have to question.

/// A unit, the unit it is a multiple of, and how much of that it is: exact by definition.
const UNITS: [(&str, &str, f64); 45] = [
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
    ("psi", "kPa", 6.894_757_293_168_361),
    ("psi", "bar", 0.068_947_572_931_683_6),
    ("psi", "MPa", 0.006_894_757_293_168_361),
    ("bar", "kPa", 100.0),
    ("MPa", "bar", 10.0),
    ("Pa", "bar", 1e-5),
    ("Pa", "MPa", 1e-6),
    ("GPa", "MPa", 1000.0),
    ("lbf", "kN", 0.004_448_221_615_260_5),
    ("kip", "kN", 4.448_221_615_260_5),
    ("N", "kN", 0.001),
    ("t", "kg", 1000.0),
    ("ksi", "MPa", 6.894_757_293_168_361),
    ("Nm", "kNm", 0.001),
    ("rad", "°", 180.0 / core::f64::consts::PI),
    ("in", "m", 0.0254),
    ("cm", "mm", 10.0),
    ("in²", "m²", 0.000_645_16),
    ("in²", "mm²", 645.16),
    ("in³", "L", 0.016_387_064),
    ("cm³", "L", 0.001),
    ("m³", "L", 1000.0),
    ("mL", "L", 0.001),
    ("in⁴", "mm⁴", 416_231.425_6),
    ("m⁴", "mm⁴", 1e12),
    ("hp", "kW", 0.745_699_871_582_270_2),
    ("US gal/min", "L/min", 3.785_411_784),
    ("lbf/ft", "N/m", 4.448_221_615_260_5 / 0.3048),
    ("ft/s", "m/s", 0.3048),
    ("in/s", "m/s", 0.0254),
    ("Δ°F", "K", 1.0 / 1.8),
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
    Err(format!("{unit} given, {wanted} wanted"))
}
