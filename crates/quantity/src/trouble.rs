//! What can be wrong with a written quantity: codes and arguments only, never sentences.

use std::fmt;
use std::ops::Range;

use crate::{Dimension, Quantity, Unit};

/// A byte range in the text as it was given.
pub type Span = Range<usize>;

/// Why a text was not taken. The person is asked; nothing is guessed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Nothing is written.
    Empty {
        /// The whole text.
        span: Span,
    },
    /// No number can be read here.
    NotANumber {
        /// The first thing that does not fit.
        span: Span,
    },
    /// A number, but no unit, and none is shown beside the box.
    NoUnit {
        /// Units that would do, usual ones first; empty when the dimension wanted is not known.
        possible: Vec<Unit>,
        /// The number.
        span: Span,
    },
    /// A word that is none of the closed list of units.
    UnknownUnit {
        /// The word as written.
        written: String,
        /// The unit it may be a slip for.
        nearest: Option<Unit>,
        /// The word.
        span: Span,
    },
    /// More than one meaning, or one that was never plainly written.
    Ambiguous {
        /// Each possible meaning, with a text that says it plainly. May be one only: then it wants a yes.
        readings: Vec<Quantity>,
        /// What leaves it open.
        why: AmbiguityKind,
        /// What is open.
        span: Span,
    },
    /// A unit of another kind than wanted.
    WrongDimension {
        /// What was written.
        found: Dimension,
        /// What belongs here.
        wanted: Dimension,
        /// The unit, or the whole quantity.
        span: Span,
    },
    /// More text, digits or power of ten than any measurement has.
    TooLong {
        /// The excess.
        span: Span,
    },
    /// A fraction over zero.
    ZeroDenominator {
        /// The fraction.
        span: Span,
    },
    /// A whole number with a fraction that is one or more: `4 9/4`.
    FractionNotProper {
        /// The fraction.
        span: Span,
    },
    /// A ± below zero.
    NegativeUncertainty {
        /// The ±.
        span: Span,
    },
    /// A ± with no value before it.
    OnlyPlusMinus {
        /// The ±.
        span: Span,
    },
    /// Two numbers with a dash between, as in `5-10 mm`: not one quantity.
    TwoEnds {
        /// Both numbers.
        span: Span,
    },
    /// Units that do not make one quantity together: `2 m 3 in`.
    MixedUnits {
        /// The first unit.
        first: Unit,
        /// The one that does not go with it.
        second: Unit,
        /// The whole quantity.
        span: Span,
    },
    /// The smaller part of a compound is a whole larger one or more: `5 ft 14 in`; or the larger is not whole: `5.5 ft 2 in`.
    PartOutOfRange {
        /// The unit of that part.
        unit: Unit,
        /// That part.
        span: Span,
    },
}

/// What leaves a text open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AmbiguityKind {
    /// `gal` (also `gpm`): US or imperial.
    BareGallon,
    /// `qt`: US or imperial.
    BareQuart,
    /// `pt`: US or imperial.
    BarePint,
    /// `ton`: short, long or metric.
    BareTon,
    /// `oz`: a weight, or a US or imperial fluid ounce.
    BareOunce,
    /// `6.4 ft`: tenths of a foot, or six feet four inches.
    DecimalFeet,
    /// `1,5` or `1,204`: a decimal comma or a thousands mark.
    Comma,
    /// `1.204` where commas are decimal, `1.000.000`, `1 204`: perhaps a thousands mark.
    ThousandsMark,
    /// `1-1-1/2`: perhaps feet, inches and a fraction.
    FeetInchFraction,
}

impl Trouble {
    /// Where in the text, in bytes.
    #[must_use]
    pub fn span(&self) -> Span {
        match self {
            Self::Empty { span }
            | Self::NotANumber { span }
            | Self::NoUnit { span, .. }
            | Self::UnknownUnit { span, .. }
            | Self::Ambiguous { span, .. }
            | Self::WrongDimension { span, .. }
            | Self::TooLong { span }
            | Self::ZeroDenominator { span }
            | Self::FractionNotProper { span }
            | Self::NegativeUncertainty { span }
            | Self::OnlyPlusMinus { span }
            | Self::TwoEnds { span }
            | Self::MixedUnits { span, .. }
            | Self::PartOutOfRange { span, .. } => span.clone(),
        }
    }

    /// A short permanent name, for tables of sentences, JSON and tests.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Empty { .. } => "empty",
            Self::NotANumber { .. } => "not-a-number",
            Self::NoUnit { .. } => "no-unit",
            Self::UnknownUnit { .. } => "unknown-unit",
            Self::Ambiguous { why, .. } => why.code(),
            Self::WrongDimension { .. } => "wrong-dimension",
            Self::TooLong { .. } => "too-long",
            Self::ZeroDenominator { .. } => "zero-denominator",
            Self::FractionNotProper { .. } => "fraction-not-proper",
            Self::NegativeUncertainty { .. } => "negative-uncertainty",
            Self::OnlyPlusMinus { .. } => "only-plus-minus",
            Self::TwoEnds { .. } => "two-ends",
            Self::MixedUnits { .. } => "mixed-units",
            Self::PartOutOfRange { .. } => "part-out-of-range",
        }
    }
}

impl AmbiguityKind {
    /// Every kind.
    pub const ALL: [Self; 9] = [
        Self::BareGallon,
        Self::BareQuart,
        Self::BarePint,
        Self::BareTon,
        Self::BareOunce,
        Self::DecimalFeet,
        Self::Comma,
        Self::ThousandsMark,
        Self::FeetInchFraction,
    ];

    /// Whether the unit's word is what is open, not the number.
    pub(crate) fn is_of_unit(self) -> bool {
        matches!(
            self,
            Self::BareGallon | Self::BareQuart | Self::BarePint | Self::BareTon | Self::BareOunce
        )
    }

    /// A short permanent name.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::BareGallon => "bare-gallon",
            Self::BareQuart => "bare-quart",
            Self::BarePint => "bare-pint",
            Self::BareTon => "bare-ton",
            Self::BareOunce => "bare-ounce",
            Self::DecimalFeet => "decimal-feet",
            Self::Comma => "comma",
            Self::ThousandsMark => "thousands-mark",
            Self::FeetInchFraction => "feet-inch-fraction",
        }
    }
}

/// The code and the place, for logs; not a sentence for people.
impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let span = self.span();
        write!(f, "{} at {}..{}", self.code(), span.start, span.end)
    }
}

impl std::error::Error for Trouble {}
