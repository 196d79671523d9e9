//! A quantity in the other system: which unit the trade would use there, and how finely.

use super::number::{rounded_pair, to_place, with_unit};
use super::{format_feet_inches, format_fraction_inches};
use crate::{Dimension, Exact, Quantity, System, Unit};

/// The text in the other system; `None` where both use the same unit.
pub(super) fn other_system(quantity: &Quantity) -> Option<String> {
    let unit = counterpart(quantity)?;
    let value = quantity.in_unit(unit)?;
    let half = quantity.plus_minus_in(unit).filter(|half| !half.is_zero());
    if unit == Unit::Inch && value.abs() >= quarter() {
        return Some(on_a_rule(&value, half.as_ref()));
    }
    if let Some(half) = half {
        let (value, half) = rounded_pair(&value, &half);
        return Some(format!("{value} ± {}", with_unit(&half, unit)));
    }
    Some(with_unit(
        &to_place(&value, place(quantity, &value, unit)),
        unit,
    ))
}

/// The unit of the other system, by the size of the value. US gallons and their parts stand for all inch volumes, since a
/// yard that uses imperial ones writes them itself.
fn counterpart(quantity: &Quantity) -> Option<Unit> {
    let si = quantity.si().abs();
    let at_least = |limit: &str| Exact::parse(limit).is_some_and(|limit| si >= limit);
    let metric = quantity.unit().system() == System::Metric;
    let either = |inch: Unit, other: Unit| Some(if metric { inch } else { other });
    if quantity.unit().system() == System::Both {
        return None;
    }
    match quantity.dimension() {
        Dimension::Length if at_least("1000") => either(Unit::Mile, Unit::Kilometre),
        Dimension::Length if at_least("1") => either(Unit::Inch, Unit::Metre),
        Dimension::Length => either(Unit::Inch, Unit::Millimetre),
        Dimension::Area if at_least("0.1") => either(Unit::SquareFoot, Unit::SquareMetre),
        Dimension::Area => either(Unit::SquareInch, Unit::SquareCentimetre),
        Dimension::Volume => volume(quantity.unit(), &si, metric),
        Dimension::Mass if at_least("0.4") => either(Unit::Pound, Unit::Kilogram),
        Dimension::Mass => either(Unit::Ounce, Unit::Gram),
        Dimension::Density => either(Unit::PoundPerCubicFoot, Unit::KilogramPerCubicMetre),
        Dimension::Force if at_least("10000") => either(Unit::PoundForce, Unit::Kilonewton),
        Dimension::Force => either(Unit::PoundForce, Unit::Newton),
        Dimension::Torque => either(Unit::PoundForceFoot, Unit::NewtonMetre),
        Dimension::Pressure if at_least("100000") => either(Unit::Psi, Unit::Bar),
        Dimension::Pressure => either(Unit::Psi, Unit::Kilopascal),
        Dimension::Speed
            if matches!(
                quantity.unit(),
                Unit::MillimetrePerMinute | Unit::InchPerMinute
            ) =>
        {
            either(Unit::InchPerMinute, Unit::MillimetrePerMinute)
        }
        Dimension::Speed => either(Unit::MilePerHour, Unit::KilometrePerHour),
        Dimension::FlowRate
            if matches!(quantity.unit(), Unit::LitrePerHour | Unit::UsGallonPerHour) =>
        {
            either(Unit::UsGallonPerHour, Unit::LitrePerHour)
        }
        Dimension::FlowRate => either(Unit::UsGallonPerMinute, Unit::LitrePerMinute),
        Dimension::Power => either(Unit::Horsepower, Unit::Kilowatt),
        Dimension::Temperature => either(Unit::Fahrenheit, Unit::Celsius),
        _ => None,
    }
}

/// Volumes of engines and of earth keep their own kind of unit; fluids go by their size.
fn volume(unit: Unit, si: &Exact, metric: bool) -> Option<Unit> {
    let below = |limit: &str| Exact::parse(limit).is_some_and(|limit| *si < limit);
    Some(match (unit, metric) {
        (Unit::CubicCentimetre, _) => Unit::CubicInch,
        (Unit::CubicInch, _) => Unit::CubicCentimetre,
        (Unit::CubicMetre, _) => Unit::CubicYard,
        (Unit::CubicFoot | Unit::CubicYard, _) => Unit::CubicMetre,
        (_, true) if below("0.0009") => Unit::UsFluidOunce,
        (_, true) if below("0.0037") => Unit::UsQuart,
        (_, true) => Unit::UsGallon,
        (_, false) if below("0.0009") => Unit::Millilitre,
        (_, false) => Unit::Litre,
    })
}

fn quarter() -> Exact {
    Exact::from_ratio(1, 4).unwrap_or_else(Exact::one)
}

/// Inches as the trade reads them off a tape: to 1/32 under a foot, to 1/16 under ten feet, to 1/4 beyond; in feet from three
/// feet on. No finer than the ±, and the ± is rounded up to the same fraction.
fn on_a_rule(inches: &Exact, half: Option<&Exact>) -> String {
    let size = inches.abs();
    let feet = |feet: i64| Exact::from(feet * 12);
    let usual = if size < feet(1) {
        32
    } else if size < feet(10) {
        16
    } else {
        4
    };
    let fits = |denominator: &u32| {
        half.is_none_or(|half| {
            Exact::from_ratio(1, i64::from(*denominator)).is_some_and(|step| step <= *half)
        })
    };
    let denominator = [32, 16, 8, 4, 2]
        .into_iter()
        .filter(|it| *it <= usual)
        .find(fits)
        .unwrap_or(1);
    let value = if size < feet(3) {
        format_fraction_inches(inches, denominator)
    } else {
        format_feet_inches(inches, denominator)
    };
    match half {
        Some(half) => format!(
            "{value} ± {}",
            format_fraction_inches(&rounded_up(half, denominator), denominator)
        ),
        None => value,
    }
}

/// The next multiple of `1/denominator` at or above a half width.
fn rounded_up(half: &Exact, denominator: u32) -> Exact {
    let steps = -(-(half * Exact::from(i64::from(denominator)))).floor();
    steps
        .checked_div(&Exact::from(i64::from(denominator)))
        .unwrap_or(steps)
}

/// The place, as a power of ten, that a converted value without ± is rounded to.
fn place(quantity: &Quantity, converted: &Exact, unit: Unit) -> i32 {
    match (quantity.dimension(), quantity.unit().system()) {
        // A size in inches is nominal: four digits, no finer than a hundredth of a millimetre (a hundred-thousandth of a metre).
        (Dimension::Length, System::Inch) => {
            let finest = if unit == Unit::Millimetre { -2 } else { -5 };
            converted
                .decade()
                .map_or(0, |decade| (decade - 3).max(finest))
        }
        (Dimension::Temperature, _) => -i32::from(!quantity.value().is_whole()),
        _ => {
            let size = resolution(quantity.value()) * quantity.unit().factor();
            let half_step = size.checked_div(&(unit.factor() * Exact::from(2)));
            half_step.and_then(|step| step.decade()).unwrap_or(0)
        }
    }
}

/// How finely a number was most likely known: its last digit that is not a closing zero, but no coarser than a twentieth of
/// itself; a hundredth of itself for a fraction.
fn resolution(value: &Exact) -> Exact {
    let twentieth =
        value.abs() * Exact::power_of_ten(-1) * Exact::from_ratio(1, 2).unwrap_or_else(Exact::one);
    match value.exact_places() {
        _ if value.is_zero() => Exact::one(),
        Some(0) => {
            let digits = value.numerator().to_string();
            let zeros = digits.len() - digits.trim_end_matches('0').len();
            Exact::power_of_ten(i32::try_from(zeros).unwrap_or(0)).min(twentieth)
        }
        Some(places) if places <= 6 => {
            Exact::power_of_ten(-i32::try_from(places).unwrap_or(6)).min(twentieth)
        }
        _ => value.abs() * Exact::power_of_ten(-2),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use crate::{Habits, System, parse, show};

    fn beside(text: &str) -> String {
        parse(text, &Habits::default(), None)
            .unwrap()
            .both()
            .1
            .unwrap_or_default()
    }

    #[test]
    fn the_other_system_is_what_the_trade_would_read() {
        let table = [
            ("1 3/4 in", "44.45 mm"),
            ("3/4\"", "19.05 mm"),
            ("19 mm", "3/4 in"),
            ("1880 mm", "6 ft 2 in"),
            ("6 ft 2 in", "1.880 m"),
            ("500 mm", "19 11/16 in"),
            ("0.15 mm", "0.0059 in"),
            ("180 bar", "2610 psi"),
            ("2500 psi", "172 bar"),
            ("35 kPa", "5.08 psi"),
            ("5 psi", "34.5 kPa"),
            ("12.5 L", "3.30 US gal"),
            ("5 US gal", "18.9 L"),
            ("5 imp gal", "22.7 L"),
            ("1.2 t", "2650 lb"),
            ("20 °C", "68 °F"),
            ("-40 °F", "-40 °C"),
            ("393 Nm", "289.9 lbf·ft"),
            ("2 in ± 1/16", "50.8 ± 1.6 mm"),
            ("50 mm ± 2 mm", "1 31/32 in ± 3/32 in"),
            ("12 V", ""),
            ("90°", ""),
        ];
        for (text, other) in table {
            assert_eq!(beside(text), other, "{text}");
        }
    }

    #[test]
    fn the_chosen_system_stands_first() {
        let quantity = parse("1 3/4 in", &Habits::default(), None).unwrap();
        assert_eq!(show(&quantity, System::Metric).first, "44.45 mm");
        assert_eq!(
            show(&quantity, System::Metric).beside.as_deref(),
            Some("1 3/4 in")
        );
        assert_eq!(show(&quantity, System::Inch).first, "1 3/4 in");
    }
}
