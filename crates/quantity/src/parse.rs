//! Reading what a person writes: a number, a unit, perhaps a ±. What is open is asked back, never guessed.

mod compound;
mod lexeme;
mod numeral;

use compound::{Part, Raw, read_raw, resolve};
use lexeme::{Lexeme, Token, lexemes};

use crate::unit::Word;
use crate::{Dimension, Exact, Quantity, Span, Trouble, Unit};

/// Bytes a written quantity may have.
const MOST_BYTES: usize = 200;

/// How the writers of a yard are used to writing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Habits {
    /// Whether a comma is the decimal mark: `1,5 mm` is then plain, and `1.204` is asked about.
    pub decimal_comma: bool,
}

/// Reads a quantity with its unit: `1 3/4 in`, `6'2"`, `12.5 L`, `3/4" ± 1/16"`.
///
/// With `wanted`, a unit of another dimension is refused, and a bare number stands for [`Dimension::Pure`] only.
///
/// # Errors
/// A [`Trouble`] that says what is wrong or open, and where in `text`.
pub fn parse(text: &str, habits: &Habits, wanted: Option<Dimension>) -> Result<Quantity, Trouble> {
    let bare = (wanted == Some(Dimension::Pure)).then_some(Unit::One);
    Reader {
        text,
        habits,
        wanted,
        bare,
    }
    .quantity()
}

/// Reads what is written in a box that shows `unit` beside it: a bare number is in that unit; another unit of the same
/// dimension may be written out. Without `unit` this is [`parse`] with no dimension wanted.
///
/// The text kept has the unit added where it was not written, so that it reads back by itself.
///
/// # Errors
/// As [`parse`].
pub fn parse_in(text: &str, unit: Option<Unit>, habits: &Habits) -> Result<Quantity, Trouble> {
    Reader {
        text,
        habits,
        wanted: unit.map(Unit::dimension),
        bare: unit,
    }
    .quantity()
}

/// Reads an uncertainty by itself: `± 1/16 in`, `+/- 2 mm`, or without the sign, `1/16 in`. The value is the half width.
///
/// # Errors
/// As [`parse`]; a half width below zero is [`Trouble::NegativeUncertainty`].
pub fn parse_plus_minus(
    text: &str,
    habits: &Habits,
    wanted: Option<Dimension>,
) -> Result<Quantity, Trouble> {
    let reader = Reader {
        text,
        habits,
        wanted,
        bare: None,
    };
    let all = reader.lexemes()?;
    let rest = match all.split_first() {
        Some((
            Lexeme {
                token: Token::PlusMinus,
                ..
            },
            rest,
        )) => rest,
        _ => &all[..],
    };
    let raw = read_raw(text, rest, habits)?;
    if raw.negative {
        return Err(Trouble::NegativeUncertainty { span: raw.span });
    }
    let main = resolve(&raw, None, wanted)?;
    reader.finish(&raw, &main, None)
}

/// One reading of one text.
struct Reader<'a> {
    text: &'a str,
    habits: &'a Habits,
    wanted: Option<Dimension>,
    /// The unit of a number that has none.
    bare: Option<Unit>,
}

/// A value with what its ± turns out to be.
type Choice = (Exact, Unit, Option<Exact>);

impl Reader<'_> {
    fn quantity(&self) -> Result<Quantity, Trouble> {
        let all = self.lexemes()?;
        let Some(sign) = all
            .iter()
            .position(|lexeme| lexeme.token == Token::PlusMinus)
        else {
            let raw = read_raw(self.text, &all, self.habits)?;
            let main = resolve(&raw, self.bare.map(Word::Plain), self.wanted)?;
            return self.finish(&raw, &main, None);
        };
        let (before, after) = (&all[..sign], &all[sign + 1..]);
        if before.is_empty() {
            return Err(Trouble::OnlyPlusMinus {
                span: all[sign].span.clone(),
            });
        }
        let raw = read_raw(self.text, before, self.habits)?;
        if after.is_empty() {
            return Err(Trouble::NotANumber {
                span: all[sign].span.clone(),
            });
        }
        let raw_width = read_raw(self.text, after, self.habits)?;
        if raw_width.negative {
            return Err(Trouble::NegativeUncertainty {
                span: raw_width.span,
            });
        }
        let main = resolve(&raw, self.unit_for_bare(&raw, &raw_width)?, self.wanted)?;
        let width = self.width(&raw, &raw_width, &main)?;
        self.finish(&raw, &main, Some(&width))
    }

    fn lexemes(&self) -> Result<Vec<Lexeme>, Trouble> {
        if self.text.len() > MOST_BYTES {
            let whole = self
                .text
                .char_indices()
                .map(|(at, _)| at)
                .find(|at| *at >= MOST_BYTES);
            return Err(Trouble::TooLong {
                span: whole.unwrap_or(MOST_BYTES)..self.text.len(),
            });
        }
        let all = lexemes(self.text);
        if all.is_empty() {
            return Err(Trouble::Empty {
                span: 0..self.text.len(),
            });
        }
        Ok(all)
    }

    /// The unit of a value written without one: that of its ± (`2 ± 1/16 in`), or the one shown; both only if they agree.
    fn unit_for_bare(&self, raw: &Raw, width: &Raw) -> Result<Option<Word>, Trouble> {
        let shown = self.bare.map(Word::Plain);
        let of_width = width
            .last_word()?
            .filter(|word| *word != Word::Plain(Unit::Percent));
        match (shown, of_width) {
            (Some(Word::Plain(shown)), Some(Word::Plain(other)))
                if raw.is_bare() && shown != other =>
            {
                Err(Trouble::NoUnit {
                    possible: vec![shown, other],
                    span: raw.span.clone(),
                })
            }
            (shown, of_width) => Ok(shown.or(of_width)),
        }
    }

    /// The ± resolved; a bare one after feet alone is asked about (`6 ft ± 1/4`).
    fn width(&self, raw: &Raw, width: &Raw, main: &Part) -> Result<Part, Trouble> {
        let feet = raw.components.len() == 1
            && main
                .choices
                .iter()
                .any(|(_, unit)| *unit == Some(Unit::Foot));
        let feet_asked = main
            .why
            .as_ref()
            .is_some_and(|(why, _)| *why == crate::AmbiguityKind::DecimalFeet);
        if width.is_bare() && (feet || feet_asked) {
            return Err(Trouble::NoUnit {
                possible: vec![Unit::Inch, Unit::Foot],
                span: width.span.clone(),
            });
        }
        let mut part = resolve(width, None, None)?;
        // The gallons of the ± are those of the value.
        if let (Some((why, _)), [(_, unit)]) = (&part.why, main.choices.as_slice())
            && why.is_of_unit()
            && part.choices.iter().any(|(_, other)| other == unit)
        {
            part.choices.retain(|(_, other)| other == unit);
            part.why = None;
        }
        Ok(part)
    }

    /// One meaning is taken, several are asked about.
    fn finish(&self, raw: &Raw, main: &Part, width: Option<&Part>) -> Result<Quantity, Trouble> {
        let mut choices: Vec<Choice> = Vec::new();
        for (value, unit) in &main.choices {
            let unit = unit.ok_or_else(|| Trouble::NoUnit {
                possible: self.possible(),
                span: raw.span.clone(),
            })?;
            choices.extend(with_width(value, unit, width));
        }
        let why = main
            .why
            .clone()
            .or_else(|| width.and_then(|width| width.why.clone()));
        match (choices.as_slice(), why) {
            ([], _) => Err(foreign_width(main, width, &raw.span)),
            ([(value, unit, half)], None) => Ok(Quantity::written(
                self.kept_text(raw, width.is_some(), *unit),
                value.clone(),
                *unit,
                half.clone(),
            )),
            (several, why) => {
                let (why, span) = why.expect("a part with several meanings says why");
                let plain = |(value, unit, half): &Choice| {
                    Quantity::from_exact(value.clone(), *unit, half.clone())
                };
                Err(Trouble::Ambiguous {
                    readings: several.iter().map(plain).collect(),
                    why,
                    span,
                })
            }
        }
    }

    /// Units that would do for a bare number.
    fn possible(&self) -> Vec<Unit> {
        self.wanted
            .map(|dimension| Unit::of(dimension).collect())
            .unwrap_or_default()
    }

    /// The text trimmed, with the unit shown beside the box put where it was left out.
    fn kept_text(&self, raw: &Raw, has_width: bool, unit: Unit) -> String {
        let (before, after) = self.text.split_at(raw.span.end);
        let (before, after) = (before.trim(), after.trim());
        let add = raw.is_bare() && self.bare == Some(unit) && unit != Unit::One;
        match (add, has_width) {
            (true, true) => format!("{before} {} {after}", unit.symbol()),
            (true, false) => format!("{before} {}", unit.symbol()),
            (false, _) => self.text.trim().to_owned(),
        }
    }
}

/// The value with each meaning its ± may have beside it.
fn with_width(value: &Exact, unit: Unit, width: Option<&Part>) -> Vec<Choice> {
    let Some(width) = width else {
        return vec![(value.clone(), unit, None)];
    };
    let same = width.choices.iter().any(|(_, other)| *other == Some(unit));
    let fitting = width
        .choices
        .iter()
        .filter(|(_, other)| !same || *other == Some(unit));
    let relative = !matches!(
        unit.dimension(),
        Dimension::Fraction | Dimension::Temperature
    );
    fitting
        .filter_map(|(half, other)| match other {
            None => Some(half.clone()),
            Some(Unit::Percent) if relative => Some(value.abs() * half * Unit::Percent.factor()),
            Some(other) => other.convert_difference(half, unit),
        })
        .map(|half| (value.clone(), unit, Some(half)))
        .collect()
}

/// The trouble of a ± that does not measure what the value does.
fn foreign_width(main: &Part, width: Option<&Part>, whole: &Span) -> Trouble {
    let dimension = |part: &Part| {
        part.choices
            .iter()
            .find_map(|(_, unit)| unit.map(Unit::dimension))
    };
    let found = width.and_then(dimension).unwrap_or(Dimension::Pure);
    let span = width.map_or(whole, |width| &width.span).clone();
    Trouble::WrongDimension {
        found,
        wanted: dimension(main).unwrap_or(Dimension::Pure),
        span,
    }
}
