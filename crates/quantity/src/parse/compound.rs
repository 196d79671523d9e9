//! Numbers with their units put together: one alone, feet and inches, hours and minutes.

use super::Habits;
use super::lexeme::{Lexeme, Token};
use super::numeral::{Numeral, numeral};
use crate::unit::{Word, nearest, normalise, read_word};
use crate::{AmbiguityKind, Dimension, Exact, Span, Trouble, Unit};

/// A unit as written.
#[derive(Clone, Debug)]
pub(super) struct UnitWord {
    written: String,
    span: Span,
}

/// One side of a ± as written: a sign, then numbers with or without units.
#[derive(Clone, Debug)]
pub(super) struct Raw {
    pub(super) negative: bool,
    pub(super) components: Vec<(Numeral, Option<UnitWord>)>,
    pub(super) span: Span,
}

impl Raw {
    /// Whether it is a number with no unit at all.
    pub(super) fn is_bare(&self) -> bool {
        self.components.iter().all(|(_, unit)| unit.is_none())
            && self
                .components
                .iter()
                .all(|(numeral, _)| numeral.why != Some(AmbiguityKind::FeetInchFraction))
    }

    /// The last unit written, if any.
    pub(super) fn last_word(&self) -> Result<Option<Word>, Trouble> {
        let last = self
            .components
            .iter()
            .rev()
            .find_map(|(_, unit)| unit.as_ref());
        last.map(|unit| known(unit, None)).transpose()
    }
}

/// What one side may mean: values with their units (none where none was written), and what leaves it open.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) choices: Vec<(Exact, Option<Unit>)>,
    pub(super) why: Option<(AmbiguityKind, Span)>,
    pub(super) span: Span,
}

/// Reads a sign, numbers and units to the end of `all`.
pub(super) fn read_raw(text: &str, all: &[Lexeme], habits: &Habits) -> Result<Raw, Trouble> {
    let mut at = 0;
    let mut negative = false;
    if let Some(Lexeme {
        token: Token::Hyphen | Token::Plus,
        ..
    }) = all.first()
    {
        negative = all[0].token == Token::Hyphen;
        at = 1;
    }
    let ends = |all: &[Lexeme]| {
        all.first().map_or(0, |l| l.span.start)..all.last().map_or(text.len(), |l| l.span.end)
    };
    let mut components = Vec::new();
    if at == all.len() {
        return Err(Trouble::NotANumber { span: ends(all) });
    }
    while at < all.len() {
        let (number, taken) = numeral(&all[at..], habits)?;
        at += taken;
        let length = unit_length(&all[at..]);
        let unit = (length > 0).then(|| {
            let span = all[at].span.start..all[at + length - 1].span.end;
            UnitWord {
                written: text[span.clone()].to_owned(),
                span,
            }
        });
        at += length;
        let joins =
            matches!(all.get(at), Some(lexeme) if lexeme.token == Token::Hyphen) && unit.is_some();
        at += usize::from(joins && at + 1 < all.len());
        components.push((number, unit));
    }
    Ok(Raw {
        negative,
        components,
        span: ends(all),
    })
}

/// How many pieces at the start make a unit: a foot or inch mark, or words with the marks between them.
fn unit_length(all: &[Lexeme]) -> usize {
    let word = |at: usize| {
        matches!(
            all.get(at).map(|l| &l.token),
            Some(Token::Word | Token::Degree | Token::Percent)
        )
    };
    let mark = |at: usize| {
        matches!(
            all.get(at).map(|l| &l.token),
            Some(Token::Join | Token::Slash | Token::Hyphen)
        )
    };
    match all.first().map(|lexeme| &lexeme.token) {
        Some(Token::Feet | Token::Inches) => return 1,
        _ if !word(0) => return 0,
        _ => {}
    }
    let mut length = 1;
    loop {
        if word(length) {
            length += 1;
        } else if mark(length) && word(length + 1) {
            length += 2;
        } else if matches!(all.get(length).map(|l| &l.token), Some(Token::Join)) {
            length += 1;
        } else {
            return length;
        }
    }
}

/// The unit a word names, or what to ask about it.
fn known(unit: &UnitWord, wanted: Option<Dimension>) -> Result<Word, Trouble> {
    let mark = unit
        .written
        .chars()
        .all(|c| !c.is_alphabetic() || c == 'ʹ' || c == 'ʺ');
    let normal = normalise(&unit.written);
    if mark && !unit.written.contains(['°', 'º', '˚', '%']) {
        let doubled = unit.written.chars().count() == 2;
        let inches = doubled || unit.written.contains(['"', '″', '”', '“', '„', 'ʺ', '＂']);
        return Ok(Word::Plain(if inches { Unit::Inch } else { Unit::Foot }));
    }
    if let Some(word) = read_word(&normal) {
        return Ok(word);
    }
    match nearest(&normal, wanted) {
        Some(open @ Word::Open(..)) => Ok(open),
        other => {
            let nearest = other.and_then(|word| {
                if let Word::Plain(unit) = word {
                    Some(unit)
                } else {
                    None
                }
            });
            Err(Trouble::UnknownUnit {
                written: unit.written.clone(),
                nearest,
                span: unit.span.clone(),
            })
        }
    }
}

/// Works out what one side means. A number without a unit takes `fallback`; units of another dimension than `wanted` are
/// refused.
pub(super) fn resolve(
    raw: &Raw,
    fallback: Option<Word>,
    wanted: Option<Dimension>,
) -> Result<Part, Trouble> {
    let mut part = match raw.components.as_slice() {
        [(number, unit)] => single(number, unit.as_ref(), fallback, wanted)?,
        several => compound(several, &raw.span, wanted)?,
    };
    if raw.negative {
        part.choices
            .iter_mut()
            .for_each(|(value, _)| *value = -&*value);
    }
    let fits = |unit: &Option<Unit>| {
        unit.is_none_or(|unit| wanted.is_none_or(|wanted| unit.dimension() == wanted))
    };
    let found = part.choices.first().and_then(|(_, unit)| *unit);
    part.choices.retain(|(_, unit)| fits(unit));
    match (found, wanted) {
        (Some(found), Some(wanted)) if part.choices.is_empty() => {
            let unit = raw.components.last().and_then(|(_, unit)| unit.as_ref());
            let span = unit.map_or(&raw.span, |unit| &unit.span).clone();
            Err(Trouble::WrongDimension {
                found: found.dimension(),
                wanted,
                span,
            })
        }
        _ => Ok(Part {
            span: raw.span.clone(),
            ..part
        }),
    }
}

/// One number with one unit.
fn single(
    number: &Numeral,
    unit: Option<&UnitWord>,
    fallback: Option<Word>,
    wanted: Option<Dimension>,
) -> Result<Part, Trouble> {
    let span = number.span.clone();
    let mut why = number.why.map(|why| (why, span.clone()));
    if number.why == Some(AmbiguityKind::FeetInchFraction) {
        let inch = unit.is_none_or(|unit| known(unit, wanted) == Ok(Word::Plain(Unit::Inch)));
        let choices = number
            .readings
            .iter()
            .map(|value| (value.clone(), Some(Unit::Inch)))
            .collect();
        return if inch {
            Ok(Part { choices, why, span })
        } else {
            Err(Trouble::NotANumber { span })
        };
    }
    let word = unit
        .map(|unit| known(unit, wanted))
        .transpose()?
        .or(fallback);
    let units: Vec<Option<Unit>> = match word {
        None => vec![None],
        Some(Word::Plain(unit)) => vec![Some(unit)],
        Some(Word::Open(kind, units)) => {
            why = why.or(Some((
                kind,
                unit.map_or(span.clone(), |unit| unit.span.clone()),
            )));
            units.iter().map(|unit| Some(*unit)).collect()
        }
    };
    if let (Some(Unit::Foot), Some(choices)) = (units[0], decimal_feet(number)) {
        let why = why.or(Some((AmbiguityKind::DecimalFeet, span.clone())));
        return Ok(Part { choices, why, span });
    }
    let pairs = number
        .readings
        .iter()
        .flat_map(|value| units.iter().map(|unit| (value.clone(), *unit)));
    Ok(Part {
        choices: pairs.collect(),
        why,
        span,
    })
}

/// `6.4 ft` as tenths of a foot and as feet and inches, both in inches; `None` where only the first is possible.
fn decimal_feet(number: &Numeral) -> Option<Vec<(Exact, Option<Unit>)>> {
    let inches: i64 = number
        .places
        .as_ref()
        .filter(|places| places.len() <= 2)?
        .parse()
        .ok()?;
    let twelve = Exact::from(12);
    let readings = number.readings.iter().flat_map(|feet| {
        let decimal = feet * &twelve;
        let compound = feet.floor() * &twelve + Exact::from(inches);
        if decimal == compound || feet.is_whole() {
            vec![decimal]
        } else {
            vec![decimal, compound]
        }
    });
    let readings: Vec<_> = readings.map(|value| (value, Some(Unit::Inch))).collect();
    (inches < 12 && readings.len() > number.readings.len()).then_some(readings)
}

/// Several numbers with units that belong together, each smaller than one of the unit before it.
fn compound(
    parts: &[(Numeral, Option<UnitWord>)],
    whole: &Span,
    wanted: Option<Dimension>,
) -> Result<Part, Trouble> {
    let mut total = Exact::zero();
    let mut before: Option<Unit> = None;
    let mut why = None;
    for (at, (number, written)) in parts.iter().enumerate() {
        let last = at + 1 == parts.len();
        let unit = match (written, before) {
            (Some(written), _) => match known(written, wanted)? {
                Word::Plain(unit) => unit,
                Word::Open(_, units) => units[0],
            },
            // After feet a number without a unit can only be inches.
            (None, Some(Unit::Foot)) if last => Unit::Inch,
            _ => {
                return Err(Trouble::NotANumber {
                    span: number.span.clone(),
                });
            }
        };
        let steps = match before {
            None => Exact::one(),
            Some(larger) => {
                Exact::from(steps(larger, unit).ok_or_else(|| mixed(parts, unit, whole, wanted))?)
            }
        };
        let value = number.readings.first().cloned().unwrap_or_else(Exact::zero);
        let too_much = before.is_some() && value >= steps;
        if too_much || !(last || value.is_whole()) {
            return Err(Trouble::PartOutOfRange {
                unit,
                span: number.span.clone(),
            });
        }
        why = why.or(number.why.map(|why| (why, number.span.clone())));
        total = total * steps + value;
        before = Some(unit);
    }
    Ok(Part {
        choices: vec![(total, before)],
        why,
        span: whole.clone(),
    })
}

/// How many of the smaller unit make one of the larger, for the pairs that are written together.
fn steps(larger: Unit, smaller: Unit) -> Option<i64> {
    match (larger, smaller) {
        (Unit::Foot, Unit::Inch) => Some(12),
        (Unit::Hour, Unit::Minute) | (Unit::Minute, Unit::Second) => Some(60),
        _ => None,
    }
}

fn mixed(
    parts: &[(Numeral, Option<UnitWord>)],
    second: Unit,
    whole: &Span,
    wanted: Option<Dimension>,
) -> Trouble {
    let first = parts
        .iter()
        .find_map(|(_, unit)| match known(unit.as_ref()?, wanted) {
            Ok(Word::Plain(unit)) => Some(unit),
            Ok(Word::Open(_, units)) => Some(units[0]),
            Err(_) => None,
        });
    Trouble::MixedUnits {
        first: first.unwrap_or(second),
        second,
        span: whole.clone(),
    }
}
