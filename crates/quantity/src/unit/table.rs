//! The table of units: one row each, with its exact factor and where that comes from.

use super::dimension::{Dimension, System};

/// One unit's facts.
pub(super) struct Row {
    pub(super) dimension: Dimension,
    pub(super) system: System,
    pub(super) symbol: &'static str,
    /// The factor to the SI unit as numerator and denominator, both decimals.
    pub(super) factor: (&'static str, &'static str),
    /// Added to the value before scaling.
    pub(super) offset: &'static str,
    pub(super) source: &'static str,
    pub(super) spellings: &'static [&'static str],
}

/// Declares the enum, the list of all and the rows together, so that they cannot drift apart.
macro_rules! units {
    ($($name:ident $dimension:ident $system:ident $symbol:literal = $above:literal / $below:literal $(+ $offset:literal)?,
        $source:expr, [$($spelling:literal),*];)*) => {
        /// A unit of the closed list. The name says it; the symbol is [`Unit::symbol`].
        #[allow(missing_docs, reason = "each name is the unit's own")]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Unit { $($name),* }

        impl Unit {
            /// Every unit; within a dimension the usual ones first.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];
        }

        const ROWS: &[Row] = &[$(Row {
            dimension: Dimension::$dimension,
            system: System::$system,
            symbol: $symbol,
            factor: ($above, $below),
            offset: units!(@offset $($offset)?),
            source: $source,
            spellings: &[$($spelling),*],
        }),*];
    };
    (@offset) => { "0" };
    (@offset $offset:literal) => { $offset };
}

impl Unit {
    /// This unit's row.
    pub(super) fn row(self) -> &'static Row {
        &ROWS[self as usize]
    }
}

const SI: &str = "BIPM SI Brochure, 9th edition: SI unit or prefix, exact";
const SI_ACCEPTED: &str =
    "BIPM SI Brochure, 9th edition, table 8: accepted for use with the SI, exact";
const NIST: &str = "NIST SP 811 (2008), appendix B.8: exact";
const NIST_PRODUCT: &str = "product of exact factors of NIST SP 811 (2008), appendix B.8";
const IMPERIAL: &str =
    "gallon of 4.54609 L, exact (NIST SP 811 (2008), appendix B.8), and its parts";
const US_LIQUID: &str =
    "gallon of 231 cubic inches, exact (NIST Handbook 44, appendix C), and its parts";
const GREGORIAN: &str =
    "mean Gregorian year of 365.2425 days (97 leap years in 400), a twelfth of it for a month";
const COUNT: &str = "a number by itself";

units! {
    Millimetre Length Metric "mm" = "0.001" / "1", SI, ["millimetre", "millimetres", "millimeter", "millimeters"];
    Inch Length Inch "in" = "0.0254" / "1", NIST, ["inch", "inches", "ins"];
    Centimetre Length Metric "cm" = "0.01" / "1", SI, ["centimetre", "centimetres", "centimeter", "centimeters"];
    Metre Length Metric "m" = "1" / "1", SI, ["metre", "metres", "meter", "meters"];
    Foot Length Inch "ft" = "0.3048" / "1", NIST, ["foot", "feet"];
    Yard Length Inch "yd" = "0.9144" / "1", NIST, ["yard", "yards", "yds"];
    Kilometre Length Metric "km" = "1000" / "1", SI, ["kilometre", "kilometres", "kilometer", "kilometers"];
    Mile Length Inch "mi" = "1609.344" / "1", NIST, ["mile", "miles"];

    SquareMillimetre Area Metric "mm²" = "0.000001" / "1", SI, ["sq mm"];
    SquareCentimetre Area Metric "cm²" = "0.0001" / "1", SI, ["sq cm"];
    SquareInch Area Inch "in²" = "0.00064516" / "1", NIST, ["sq in"];
    SquareMetre Area Metric "m²" = "1" / "1", SI, ["sq m"];
    SquareFoot Area Inch "ft²" = "0.09290304" / "1", NIST, ["sq ft"];

    Litre Volume Metric "L" = "0.001" / "1", SI_ACCEPTED, ["l", "litre", "litres", "liter", "liters", "ltr"];
    UsGallon Volume Inch "US gal" = "0.003785411784" / "1", US_LIQUID, ["gal us", "us gals", "us gallon", "us gallons"];
    ImperialGallon Volume Inch "imp gal" = "0.00454609" / "1", IMPERIAL,
        ["gal imp", "imp gals", "imp gallon", "imp gallons", "imperial gallon", "imperial gallons", "uk gal", "gal uk", "uk gallon", "uk gallons"];
    UsQuart Volume Inch "US qt" = "0.000946352946" / "1", US_LIQUID, ["us qts", "us quart", "us quarts"];
    ImperialQuart Volume Inch "imp qt" = "0.0011365225" / "1", IMPERIAL, ["imp qts", "imp quart", "imp quarts", "imperial quart", "imperial quarts", "uk qt"];
    UsPint Volume Inch "US pt" = "0.000473176473" / "1", US_LIQUID, ["us pts", "us pint", "us pints"];
    ImperialPint Volume Inch "imp pt" = "0.00056826125" / "1", IMPERIAL, ["imp pts", "imp pint", "imp pints", "imperial pint", "imperial pints", "uk pt"];
    UsFluidOunce Volume Inch "US fl oz" = "0.0000295735295625" / "1", US_LIQUID, ["us fluid ounce", "us fluid ounces"];
    ImperialFluidOunce Volume Inch "imp fl oz" = "0.0000284130625" / "1", IMPERIAL,
        ["imp fluid ounce", "imp fluid ounces", "imperial fluid ounce", "imperial fluid ounces", "uk fl oz"];
    Millilitre Volume Metric "mL" = "0.000001" / "1", SI_ACCEPTED, ["ml", "millilitre", "millilitres", "milliliter", "milliliters"];
    CubicCentimetre Volume Metric "cm³" = "0.000001" / "1", SI, ["cc", "ccm"];
    CubicMetre Volume Metric "m³" = "1" / "1", SI, ["cu m"];
    CubicInch Volume Inch "in³" = "0.000016387064" / "1", NIST, ["cu in"];
    CubicFoot Volume Inch "ft³" = "0.028316846592" / "1", NIST, ["cu ft"];
    CubicYard Volume Inch "yd³" = "0.764554857984" / "1", NIST, ["cu yd", "cu yds"];

    Degree Angle Both "°" = "3.141592653589793238462643383279502884197" / "180", "half a turn is π, here to 40 digits", ["deg", "degree", "degrees"];
    Radian Angle Both "rad" = "1" / "1", SI, ["radian", "radians"];

    Kilogram Mass Metric "kg" = "1" / "1", SI, ["kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"];
    Pound Mass Inch "lb" = "0.45359237" / "1", NIST, ["lbs", "lbm", "pound", "pounds"];
    Gram Mass Metric "g" = "0.001" / "1", SI, ["gram", "grams", "gramme", "grammes"];
    Ounce Mass Inch "oz av" = "0.028349523125" / "1", NIST, ["oz avdp", "avoirdupois ounce", "avoirdupois ounces"];
    Tonne Mass Metric "t" = "1000" / "1", SI_ACCEPTED, ["tonne", "tonnes", "metric ton", "metric tons"];
    ShortTon Mass Inch "short ton" = "907.18474" / "1", NIST, ["short tons", "us ton", "us tons"];
    LongTon Mass Inch "long ton" = "1016.0469088" / "1", NIST, ["long tons", "imp ton", "imp tons", "imperial ton", "imperial tons", "uk ton", "uk tons"];

    KilogramPerCubicMetre Density Metric "kg/m³" = "1" / "1", SI, [];
    TonnePerCubicMetre Density Metric "t/m³" = "1000" / "1", SI_ACCEPTED, [];
    KilogramPerLitre Density Metric "kg/L" = "1000" / "1", SI_ACCEPTED, ["kg/l"];
    PoundPerCubicFoot Density Inch "lb/ft³" = "0.45359237" / "0.028316846592", NIST_PRODUCT, ["lb/cu ft", "lbs/cu ft", "pcf"];

    KilonewtonPerCubicMetre UnitWeight Metric "kN/m³" = "1000" / "1", SI, [];
    NewtonPerCubicMetre UnitWeight Metric "N/m³" = "1" / "1", SI, [];

    Kilonewton Force Metric "kN" = "1000" / "1", SI, ["kilonewton", "kilonewtons"];
    Newton Force Metric "N" = "1" / "1", SI, ["newton", "newtons"];
    PoundForce Force Inch "lbf" = "4.4482216152605" / "1", NIST_PRODUCT, ["pound force", "pounds force"];
    KilogramForce Force Metric "kgf" = "9.80665" / "1", NIST, ["kp", "kilogram force"];

    NewtonMetre Torque Metric "Nm" = "1" / "1", SI, ["N m", "newton metre", "newton metres", "newton meter", "newton meters"];
    PoundForceFoot Torque Inch "lbf·ft" = "1.3558179483314004" / "1", NIST_PRODUCT, ["lb ft", "lbs ft", "ft lb", "ft lbs", "ft lbf", "foot pound", "foot pounds"];
    PoundForceInch Torque Inch "lbf·in" = "0.1129848290276167" / "1", NIST_PRODUCT, ["lb in", "lbs in", "in lb", "in lbs", "in lbf", "inch pound", "inch pounds"];
    KilonewtonMetre Torque Metric "kNm" = "1000" / "1", SI, ["kN m"];

    Bar Pressure Metric "bar" = "100000" / "1", SI_ACCEPTED, ["bars"];
    Psi Pressure Inch "psi" = "4.4482216152605" / "0.00064516", NIST_PRODUCT, ["lbf/in2", "lb/in2", "lbs/in2", "lbf/sq in", "lb/sq in"];
    Kilopascal Pressure Metric "kPa" = "1000" / "1", SI, ["kilopascal", "kilopascals", "kN/m2"];
    Megapascal Pressure Metric "MPa" = "1000000" / "1", SI, ["megapascal", "megapascals", "N/mm2"];
    Pascal Pressure Metric "Pa" = "1" / "1", SI, ["pascal", "pascals", "N/m2"];

    KilometrePerHour Speed Metric "km/h" = "1" / "3.6", SI_ACCEPTED, ["kph", "kmh"];
    MilePerHour Speed Inch "mph" = "0.44704" / "1", NIST, ["mi/h"];
    MetrePerSecond Speed Metric "m/s" = "1" / "1", SI, [];
    MillimetrePerMinute Speed Metric "mm/min" = "0.001" / "60", SI_ACCEPTED, [];
    InchPerMinute Speed Inch "in/min" = "0.0254" / "60", NIST_PRODUCT, [];

    MetrePerSecondSquared Acceleration Metric "m/s²" = "1" / "1", SI, [];

    Hour Duration Both "h" = "3600" / "1", SI_ACCEPTED, ["hr", "hrs", "hour", "hours"];
    Minute Duration Both "min" = "60" / "1", SI_ACCEPTED, ["mins", "minute", "minutes"];
    Second Duration Both "s" = "1" / "1", SI, ["sec", "secs", "second", "seconds"];
    Day Duration Both "day" = "86400" / "1", SI_ACCEPTED, ["d", "days"];
    Week Duration Both "week" = "604800" / "1", SI_ACCEPTED, ["wk", "weeks", "wks"];
    Month Duration Both "month" = "2629746" / "1", GREGORIAN, ["months"];
    Year Duration Both "year" = "31556952" / "1", GREGORIAN, ["years", "yr", "yrs"];

    RevolutionPerMinute Frequency Both "rpm" = "1" / "60", SI_ACCEPTED, ["rev/min", "r/min"];
    Hertz Frequency Both "Hz" = "1" / "1", SI, ["hertz"];

    LitrePerMinute FlowRate Metric "L/min" = "0.001" / "60", SI_ACCEPTED, ["l/min", "lpm"];
    UsGallonPerMinute FlowRate Inch "US gal/min" = "0.003785411784" / "60", US_LIQUID, ["us gpm"];
    ImperialGallonPerMinute FlowRate Inch "imp gal/min" = "0.00454609" / "60", IMPERIAL, ["imp gpm", "uk gal/min"];
    LitrePerHour FlowRate Metric "L/h" = "0.001" / "3600", SI_ACCEPTED, ["l/h", "L/hr", "l/hr"];
    UsGallonPerHour FlowRate Inch "US gal/h" = "0.003785411784" / "3600", US_LIQUID, ["us gal/hr", "us gph"];
    CubicMetrePerHour FlowRate Metric "m³/h" = "1" / "3600", SI_ACCEPTED, ["m3/hr"];
    CubicMetrePerSecond FlowRate Metric "m³/s" = "1" / "1", SI, [];

    Kilowatt Power Metric "kW" = "1000" / "1", SI, ["kilowatt", "kilowatts"];
    Horsepower Power Inch "hp" = "745.69987158227022" / "1", "550 foot pounds-force a second: product of exact factors of NIST SP 811 (2008), appendix B.8", ["bhp", "horsepower"];
    Watt Power Metric "W" = "1" / "1", SI, ["watt", "watts"];
    MetricHorsepower Power Metric "PS" = "735.49875" / "1", "75 metre kilograms-force a second, exact (NIST SP 811 (2008), appendix B.8)", ["metric hp", "metric horsepower"];

    Celsius Temperature Metric "°C" = "1" / "1" + "273.15", SI, ["C", "deg C", "degC", "degrees C", "celsius", "degrees celsius"];
    Fahrenheit Temperature Inch "°F" = "5" / "9" + "459.67", "NIST SP 811 (2008), appendix B.8: (t + 459.67)/1.8, exact", ["F", "deg F", "degF", "degrees F", "fahrenheit", "degrees fahrenheit"];
    Kelvin Temperature Metric "K" = "1" / "1", SI, ["kelvin"];

    Volt Voltage Both "V" = "1" / "1", SI, ["v", "volt", "volts"];
    Ampere Current Both "A" = "1" / "1", SI, ["amp", "amps", "ampere", "amperes"];
    Milliampere Current Both "mA" = "0.001" / "1", SI, [];
    DecibelA SoundLevel Both "dB(A)" = "1" / "1", "IEC 61672-1: A-weighted level, kept as a number on its own scale", [];

    Percent Fraction Both "%" = "0.01" / "1", "a hundredth", ["percent", "per cent", "pct"];
    PartOfOne Fraction Both "of one" = "1" / "1", COUNT, [];
    Stroke Strokes Both "stroke" = "1" / "1", COUNT, ["strokes", "pump", "pumps"];
    One Pure Both "" = "1" / "1", COUNT, [];
}
