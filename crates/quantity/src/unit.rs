//! The closed list of units: kind, symbol, system, and conversion by exact factors.

mod dimension;
mod spelling;
mod table;

pub use dimension::{Dimension, System};
pub(crate) use spelling::{Word, is_space, nearest, normalise, read_word};
pub use table::Unit;

use crate::Exact;

impl Unit {
    /// What it measures.
    #[must_use]
    pub fn dimension(self) -> Dimension {
        self.row().dimension
    }

    /// The symbol as printed; it reads back as this unit. Empty for [`Unit::One`].
    #[must_use]
    pub fn symbol(self) -> &'static str {
        self.row().symbol
    }

    /// The system it belongs to; [`System::Both`] where there is only one unit for all.
    #[must_use]
    pub fn system(self) -> System {
        self.row().system
    }

    /// Where the factor comes from.
    #[must_use]
    pub fn source(self) -> &'static str {
        self.row().source
    }

    /// The spellings accepted besides the symbol, in normal form (no dots, single spaces).
    #[must_use]
    pub fn spellings(self) -> &'static [&'static str] {
        self.row().spellings
    }

    /// The unit written so, in any accepted spelling; `None` when unknown or ambiguous.
    #[must_use]
    pub fn find(written: &str) -> Option<Self> {
        match read_word(&normalise(written)) {
            Some(Word::Plain(unit)) => Some(unit),
            _ => None,
        }
    }

    /// Every unit of a dimension, usual ones first.
    pub fn of(dimension: Dimension) -> impl Iterator<Item = Self> {
        Self::ALL
            .iter()
            .copied()
            .filter(move |unit| unit.dimension() == dimension)
    }

    /// How much of the SI unit one step of this unit is: for differences, and for all but temperatures for values too.
    ///
    /// Exact by definition, except for degrees and radians, where π is carried to 40 digits so that whole degrees stay exact.
    #[must_use]
    pub fn factor(self) -> Exact {
        let (above, below) = self.row().factor;
        let constant = |text| Exact::parse(text).expect("factors in the table are plain decimals");
        constant(above)
            .checked_div(&constant(below))
            .expect("no factor in the table is over zero")
    }

    /// What to add to a value before scaling: zero but for °C and °F.
    fn offset(self) -> Exact {
        Exact::parse(self.row().offset).expect("offsets in the table are plain decimals")
    }

    /// A value in this unit, in the SI unit of its dimension (see [`Dimension::si_symbol`]).
    #[must_use]
    pub fn to_si(self, value: &Exact) -> Exact {
        (value + self.offset()) * self.factor()
    }

    /// A value in the SI unit of this unit's dimension, in this unit.
    #[must_use]
    pub fn from_si(self, si: &Exact) -> Exact {
        si.checked_div(&self.factor())
            .expect("factors are not zero")
            - self.offset()
    }

    /// Converts a value, exactly; `None` when the units measure different things.
    #[must_use]
    pub fn convert(self, value: &Exact, to: Self) -> Option<Exact> {
        if self == to {
            return Some(value.clone());
        }
        (self.dimension() == to.dimension()).then(|| to.from_si(&self.to_si(value)))
    }

    /// Converts a difference or a ±: like [`Unit::convert`] but without the zero points of temperature scales.
    #[must_use]
    pub fn convert_difference(self, difference: &Exact, to: Self) -> Option<Exact> {
        if self == to {
            return Some(difference.clone());
        }
        if self.dimension() != to.dimension() {
            return None;
        }
        (difference * self.factor()).checked_div(&to.factor())
    }

    /// Whether it is counted on the calendar (day, week, month, year) rather than on a meter or a clock.
    ///
    /// A month and a year convert by the Gregorian mean (365.2425 days to the year); a due date must be counted on the
    /// calendar instead.
    #[must_use]
    pub fn is_calendar(self) -> bool {
        matches!(self, Self::Day | Self::Week | Self::Month | Self::Year)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::format_exact;

    /// NIST Special Publication 811 (2008), appendix B.8 and B.9, from memory, to the digits printed there (seven, or all
    /// where the factor is exact). The torque and power rows are products of exact factors, printed there to seven digits.
    const PUBLISHED: &[(Unit, Unit, &str)] = &[
        (Unit::Inch, Unit::Millimetre, "25.4"),
        (Unit::Foot, Unit::Metre, "0.3048"),
        (Unit::Yard, Unit::Metre, "0.9144"),
        (Unit::Mile, Unit::Kilometre, "1.609344"),
        (Unit::SquareInch, Unit::SquareCentimetre, "6.4516"),
        (Unit::SquareFoot, Unit::SquareMetre, "0.09290304"),
        (Unit::CubicInch, Unit::CubicCentimetre, "16.38706"),
        (Unit::CubicFoot, Unit::CubicMetre, "0.02831685"),
        (Unit::CubicYard, Unit::CubicMetre, "0.7645549"),
        (Unit::UsGallon, Unit::Litre, "3.785412"),
        (Unit::ImperialGallon, Unit::Litre, "4.54609"),
        (Unit::UsQuart, Unit::Litre, "0.9463529"),
        (Unit::UsPint, Unit::Litre, "0.4731765"),
        (Unit::UsFluidOunce, Unit::Millilitre, "29.57353"),
        (Unit::ImperialFluidOunce, Unit::Millilitre, "28.41306"),
        (Unit::Pound, Unit::Kilogram, "0.45359237"),
        (Unit::Ounce, Unit::Gram, "28.34952"),
        (Unit::ShortTon, Unit::Kilogram, "907.1847"),
        (Unit::LongTon, Unit::Kilogram, "1016.047"),
        (Unit::PoundForce, Unit::Newton, "4.448222"),
        (Unit::KilogramForce, Unit::Newton, "9.80665"),
        (Unit::PoundForceFoot, Unit::NewtonMetre, "1.355818"),
        (Unit::PoundForceInch, Unit::NewtonMetre, "0.1129848"),
        (Unit::Psi, Unit::Kilopascal, "6.894757"),
        (Unit::Bar, Unit::Kilopascal, "100"),
        (Unit::Horsepower, Unit::Watt, "745.6999"),
        (Unit::MetricHorsepower, Unit::Watt, "735.4988"),
        (
            Unit::PoundPerCubicFoot,
            Unit::KilogramPerCubicMetre,
            "16.01846",
        ),
        (Unit::MilePerHour, Unit::KilometrePerHour, "1.609344"),
        (Unit::KilometrePerHour, Unit::MetrePerSecond, "0.2777778"),
        (Unit::UsGallonPerMinute, Unit::LitrePerMinute, "3.785412"),
        (Unit::Degree, Unit::Radian, "0.01745329"),
    ];

    #[test]
    fn factors_agree_with_the_published_table() {
        for (from, to, published) in PUBLISHED {
            let one = from.convert(&Exact::one(), *to).unwrap();
            let places = published
                .split_once('.')
                .map_or(0, |(_, places)| places.len());
            assert_eq!(
                format_exact(&one, places.try_into().unwrap()),
                *published,
                "{from:?} in {to:?}"
            );
        }
    }

    /// Fixed points of the scales: water freezes at 32 °F, boils at 212 °F; −40 is the same on both (common knowledge).
    #[test]
    fn temperatures_have_their_zero_points() {
        let convert = |value: i64, from: Unit, to: Unit| from.convert(&value.into(), to).unwrap();
        assert_eq!(convert(32, Unit::Fahrenheit, Unit::Celsius), 0.into());
        assert_eq!(convert(100, Unit::Celsius, Unit::Fahrenheit), 212.into());
        assert_eq!(convert(-40, Unit::Celsius, Unit::Fahrenheit), (-40).into());
        assert_eq!(
            convert(0, Unit::Celsius, Unit::Kelvin),
            Exact::parse("273.15").unwrap()
        );
        let nine = Unit::Celsius
            .convert_difference(&5.into(), Unit::Fahrenheit)
            .unwrap();
        assert_eq!(nine, 9.into(), "a difference has no zero point");
    }

    #[test]
    fn whole_turns_stay_exact() {
        let half_turn = Unit::Degree.to_si(&180.into());
        assert_eq!(Unit::Degree.from_si(&half_turn), 180.into());
        assert_eq!(half_turn.to_f64().to_bits(), std::f64::consts::PI.to_bits());
    }

    #[test]
    fn the_table_is_whole() {
        for (at, unit) in Unit::ALL.iter().enumerate() {
            assert_eq!(*unit as usize, at, "row order");
            assert!(!unit.factor().is_zero() && !unit.factor().is_negative());
            assert!(!unit.source().is_empty());
            if *unit != Unit::One {
                assert_eq!(Unit::find(unit.symbol()), Some(*unit), "{}", unit.symbol());
            }
            for spelling in unit.spellings() {
                assert_eq!(normalise(spelling), *spelling, "not in normal form");
                assert_eq!(Unit::find(spelling), Some(*unit), "{spelling}");
            }
        }
    }

    #[test]
    fn every_dimension_has_its_si_unit() {
        for dimension in Dimension::ALL {
            assert!(Unit::of(dimension).any(
                |unit| unit.symbol() == dimension.si_symbol() && unit.factor() == Exact::one()
            ));
        }
    }
}
