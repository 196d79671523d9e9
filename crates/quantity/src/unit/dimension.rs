//! What a unit measures, and which of the two systems it belongs to.

/// What is measured. A closed list: a quantity of one dimension is never compared with another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Distance.
    Length,
    /// Surface.
    Area,
    /// Space, and fluids.
    Volume,
    /// Turn.
    Angle,
    /// Mass (a weight as a scale shows it).
    Mass,
    /// Mass over volume.
    Density,
    /// Weight over volume, of soil.
    UnitWeight,
    /// Push or pull.
    Force,
    /// Twist, and bending moment.
    Torque,
    /// Force over area.
    Pressure,
    /// Distance over time.
    Speed,
    /// Speed over time (vibration).
    Acceleration,
    /// Time passed; running hours too.
    Duration,
    /// Turns or cycles over time.
    Frequency,
    /// Volume over time.
    FlowRate,
    /// Work over time.
    Power,
    /// Temperature on a scale.
    Temperature,
    /// Electrical pressure.
    Voltage,
    /// Electrical flow.
    Current,
    /// Sound level, A-weighted; decibels are not converted to pressures.
    SoundLevel,
    /// A part of a whole.
    Fraction,
    /// Strokes of a hand pump or grease gun.
    Strokes,
    /// A bare number: a count or a ratio.
    Pure,
}

impl Dimension {
    /// Every dimension.
    pub const ALL: [Self; 23] = [
        Self::Length,
        Self::Area,
        Self::Volume,
        Self::Angle,
        Self::Mass,
        Self::Density,
        Self::UnitWeight,
        Self::Force,
        Self::Torque,
        Self::Pressure,
        Self::Speed,
        Self::Acceleration,
        Self::Duration,
        Self::Frequency,
        Self::FlowRate,
        Self::Power,
        Self::Temperature,
        Self::Voltage,
        Self::Current,
        Self::SoundLevel,
        Self::Fraction,
        Self::Strokes,
        Self::Pure,
    ];

    /// The symbol of the unit that [`Quantity::si`](crate::Quantity::si) is in: the SI unit without prefix, rad for angles,
    /// the bare number for parts of a whole and counts, dB(A) for sound.
    #[must_use]
    pub fn si_symbol(self) -> &'static str {
        match self {
            Self::Length => "m",
            Self::Area => "m²",
            Self::Volume => "m³",
            Self::Angle => "rad",
            Self::Mass => "kg",
            Self::Density => "kg/m³",
            Self::UnitWeight => "N/m³",
            Self::Force => "N",
            Self::Torque => "Nm",
            Self::Pressure => "Pa",
            Self::Speed => "m/s",
            Self::Acceleration => "m/s²",
            Self::Duration => "s",
            Self::Frequency => "Hz",
            Self::FlowRate => "m³/s",
            Self::Power => "W",
            Self::Temperature => "K",
            Self::Voltage => "V",
            Self::Current => "A",
            Self::SoundLevel => "dB(A)",
            Self::Fraction => "of one",
            Self::Strokes => "stroke",
            Self::Pure => "",
        }
    }
}

/// The two systems a yard meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum System {
    /// SI and the units used with it.
    Metric,
    /// Inch, pound and gallon units, US and imperial.
    Inch,
    /// Common to both (hours, volts, degrees of arc); as a choice of display: as written, the other beside it.
    Both,
}
