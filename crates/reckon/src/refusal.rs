//! Why a leaf gives no value.

use std::fmt;

/// Why a leaf gives no value. Nothing is ever guessed instead.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// An input the leaf needs was not given.
    NotKnown {
        /// The input's name.
        input: &'static str,
    },
    /// The leaf has no input of this name.
    NoSuchInput {
        /// The name that was given.
        input: String,
    },
    /// An input was given more than once.
    Twice {
        /// The input's name.
        input: &'static str,
    },
    /// A list was given where one number belongs, or the other way round.
    WrongShape {
        /// The input's name.
        input: &'static str,
    },
    /// A list is empty, too long, or of another length than the list it goes with.
    WrongCount {
        /// The input's name.
        input: &'static str,
        /// How many numbers were given.
        count: usize,
    },
    /// The value is no finite number.
    NotANumber {
        /// The input's name.
        input: &'static str,
    },
    /// The quantity measures something else than the input.
    WrongUnit {
        /// The input's name.
        input: &'static str,
        /// The unit the leaf declares.
        wanted: &'static str,
    },
    /// The value must be a whole number and is not.
    NotWhole {
        /// The input's name.
        input: &'static str,
        /// The value given.
        value: f64,
    },
    /// The value lies outside what the leaf can work with.
    OutOfRange {
        /// The input's name.
        input: &'static str,
        /// The value given, in the leaf's unit.
        value: f64,
        /// The lowest value the leaf takes.
        low: f64,
        /// The highest value the leaf takes.
        high: f64,
    },
    /// Each input is possible, all of them together are not.
    Contradiction {
        /// Which contradiction: a code the layer of words has a sentence for.
        what: &'static str,
    },
    /// The formula gives no finite number for these inputs.
    NoResult {
        /// The output's name.
        output: &'static str,
    },
}

impl Refusal {
    /// The code of the kind, for the layer of words, for JSON and for cases.
    pub fn code(&self) -> &'static str {
        match self {
            Refusal::NotKnown { .. } => "not-known",
            Refusal::NoSuchInput { .. } => "no-such-input",
            Refusal::Twice { .. } => "given-twice",
            Refusal::WrongShape { .. } => "wrong-shape",
            Refusal::WrongCount { .. } => "wrong-count",
            Refusal::NotANumber { .. } => "not-a-number",
            Refusal::WrongUnit { .. } => "wrong-unit",
            Refusal::NotWhole { .. } => "not-whole",
            Refusal::OutOfRange { .. } => "out-of-range",
            Refusal::Contradiction { what } => what,
            Refusal::NoResult { .. } => "no-result",
        }
    }

    /// The input the refusal speaks of, where it is one input.
    pub fn input(&self) -> Option<&str> {
        match self {
            Refusal::NotKnown { input }
            | Refusal::Twice { input }
            | Refusal::WrongShape { input }
            | Refusal::WrongCount { input, .. }
            | Refusal::NotANumber { input }
            | Refusal::WrongUnit { input, .. }
            | Refusal::NotWhole { input, .. }
            | Refusal::OutOfRange { input, .. } => Some(input),
            Refusal::NoSuchInput { input } => Some(input),
            Refusal::Contradiction { .. } | Refusal::NoResult { .. } => None,
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())?;
        if let Some(input) = self.input() {
            write!(f, " ({input})")?;
        }
        Ok(())
    }
}

impl std::error::Error for Refusal {}
