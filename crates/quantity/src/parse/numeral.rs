//! Numbers as people write them: decimals, fractions, whole numbers with a fraction, and marks that leave them open.

use super::Habits;
use super::lexeme::{Lexeme, Token};
use crate::{AmbiguityKind, Exact, Span, Trouble};

/// Digits either side of a fraction line.
const MOST_FRACTION_DIGITS: usize = 12;

/// One written number.
#[derive(Clone, Debug)]
pub(super) struct Numeral {
    /// What it may be; one only when it is plain.
    pub(super) readings: Vec<Exact>,
    /// What leaves it open.
    pub(super) why: Option<AmbiguityKind>,
    /// The digits after a decimal mark, where it was written as a plain decimal.
    pub(super) places: Option<String>,
    pub(super) span: Span,
}

impl Numeral {
    fn plain(value: Exact, span: Span) -> Self {
        Self {
            readings: vec![value],
            why: None,
            places: None,
            span,
        }
    }
}

/// Reads the number at the start of `all`; gives it with how many pieces it took.
pub(super) fn numeral(all: &[Lexeme], habits: &Habits) -> Result<(Numeral, usize), Trouble> {
    let (first, rest) = all.split_first().expect("called where a piece is left");
    match &first.token {
        Token::Vulgar(above, below) => {
            let value = fraction(*above, *below, &first.span)?;
            Ok((Numeral::plain(value, first.span.clone()), 1))
        }
        Token::Number(digits) => after_number(digits, first, rest, habits),
        _ => Err(Trouble::NotANumber {
            span: first.span.clone(),
        }),
    }
}

/// What follows a number decides what it is part of.
fn after_number(
    digits: &str,
    first: &Lexeme,
    rest: &[Lexeme],
    habits: &Habits,
) -> Result<(Numeral, usize), Trouble> {
    let token = |at: usize| rest.get(at).map(|lexeme| &lexeme.token);
    let gap = |at: usize| rest.get(at).is_some_and(|lexeme| lexeme.gap);
    match (token(0), token(1), token(2)) {
        (Some(Token::Slash), Some(Token::Number(_)), _) => {
            let (value, span) = written_fraction(first, &rest[1])?;
            Ok((Numeral::plain(value, span), 3))
        }
        (Some(Token::Vulgar(..)), ..) => mixed(digits, first, &rest[..1]).map(|it| (it, 2)),
        (Some(Token::Number(_)), Some(Token::Slash), Some(Token::Number(_))) if gap(0) => {
            mixed(digits, first, &rest[..3]).map(|it| (it, 4))
        }
        (Some(Token::Number(_)), ..) => spaced_groups(digits, first, rest),
        (Some(Token::Hyphen), Some(Token::Vulgar(..)), _) if !gap(0) && !gap(1) => {
            mixed(digits, first, &rest[1..2]).map(|it| (it, 3))
        }
        (Some(Token::Hyphen), Some(Token::Number(_)), Some(Token::Slash))
            if !gap(0) && !gap(1) && rest.len() > 3 =>
        {
            mixed(digits, first, &rest[1..4]).map(|it| (it, 5))
        }
        (Some(Token::Hyphen), Some(Token::Number(inches)), Some(Token::Hyphen)) => {
            feet_inch_fraction(digits, inches, first, rest)
        }
        (Some(Token::Hyphen), Some(Token::Number(_) | Token::Vulgar(..)), _) => {
            Err(Trouble::TwoEnds {
                span: first.span.start..rest[1].span.end,
            })
        }
        _ => decimal(digits, &first.span, habits).map(|it| (it, 1)),
    }
}

/// `1-1-1/2`: some write feet, inches and a fraction so; asked, never assumed.
fn feet_inch_fraction(
    feet: &str,
    inches: &str,
    first: &Lexeme,
    rest: &[Lexeme],
) -> Result<(Numeral, usize), Trouble> {
    let (tail, taken) = match rest.get(3..) {
        Some(
            [
                part @ Lexeme {
                    token: Token::Vulgar(..),
                    ..
                },
                ..,
            ],
        ) => (std::slice::from_ref(part), 5),
        Some([_, slash, _, ..]) if slash.token == Token::Slash => (&rest[3..6], 7),
        _ => {
            return Err(Trouble::TwoEnds {
                span: first.span.start..rest[1].span.end,
            });
        }
    };
    let inches = mixed(inches, &rest[1], tail)?;
    let feet = small_whole(feet, &first.span)?;
    let value = Exact::from(feet) * Exact::from(12) + &inches.readings[0];
    let span = first.span.start..inches.span.end;
    let why = Some(AmbiguityKind::FeetInchFraction);
    Ok((
        Numeral {
            readings: vec![value],
            why,
            places: None,
            span,
        },
        taken,
    ))
}

/// A whole number and a proper fraction: `1 3/4`, `1-3/4`, `1¾`. `tail` is the fraction's one or three pieces.
fn mixed(digits: &str, first: &Lexeme, tail: &[Lexeme]) -> Result<Numeral, Trouble> {
    let whole = small_whole(digits, &first.span)?;
    let (part, span) = match tail {
        [
            Lexeme {
                token: Token::Vulgar(above, below),
                span,
                ..
            },
        ] => (fraction(*above, *below, span)?, span.clone()),
        [above, _, below] => written_fraction(above, below)?,
        _ => {
            return Err(Trouble::NotANumber {
                span: first.span.clone(),
            });
        }
    };
    if part >= Exact::one() {
        return Err(Trouble::FractionNotProper { span });
    }
    Ok(Numeral::plain(
        Exact::from(whole) + part,
        first.span.start..span.end,
    ))
}

/// Two whole numbers with a line between.
fn written_fraction(above: &Lexeme, below: &Lexeme) -> Result<(Exact, Span), Trouble> {
    let span = above.span.start..below.span.end;
    let whole = |lexeme: &Lexeme| match &lexeme.token {
        Token::Number(digits) => small_whole(digits, &lexeme.span),
        _ => Err(Trouble::NotANumber {
            span: lexeme.span.clone(),
        }),
    };
    Ok((fraction(whole(above)?, whole(below)?, &span)?, span))
}

fn fraction(above: i64, below: i64, span: &Span) -> Result<Exact, Trouble> {
    Exact::from_ratio(above, below).ok_or_else(|| Trouble::ZeroDenominator { span: span.clone() })
}

/// A whole number without any mark, as beside a fraction.
fn small_whole(digits: &str, span: &Span) -> Result<i64, Trouble> {
    if !digits.bytes().all(|b| b.is_ascii_digit()) {
        return Err(Trouble::NotANumber { span: span.clone() });
    }
    if digits.len() > MOST_FRACTION_DIGITS {
        return Err(Trouble::TooLong { span: span.clone() });
    }
    digits
        .parse()
        .map_err(|_| Trouble::TooLong { span: span.clone() })
}

/// `1 204`: digits in threes with spaces, asked about; anything else side by side is no number.
fn spaced_groups(
    digits: &str,
    first: &Lexeme,
    rest: &[Lexeme],
) -> Result<(Numeral, usize), Trouble> {
    let mut groups = vec![digits];
    let mut end = first.span.end;
    for lexeme in rest {
        let Token::Number(more) = &lexeme.token else {
            break;
        };
        groups.push(more);
        end = lexeme.span.end;
    }
    let span = first.span.start..end;
    let value = grouped(&groups).ok_or_else(|| Trouble::NotANumber {
        span: rest[0].span.clone(),
    })?;
    let why = Some(AmbiguityKind::ThousandsMark);
    let taken = groups.len();
    Ok((
        Numeral {
            readings: vec![value],
            why,
            places: None,
            span,
        },
        taken,
    ))
}

/// A number in one piece, where points and commas may leave it open.
fn decimal(written: &str, span: &Span, habits: &Habits) -> Result<Numeral, Trouble> {
    let (mantissa, power) = written.split_at(written.find(['e', 'E']).unwrap_or(written.len()));
    if written.bytes().filter(u8::is_ascii_digit).count() > 40
        || Exact::parse(&format!("1{power}")).is_none()
    {
        return Err(Trouble::TooLong { span: span.clone() });
    }
    let scale = Exact::parse(&format!("1{power}")).expect("just checked");
    let (readings, why) =
        marks(mantissa, habits).ok_or_else(|| Trouble::NotANumber { span: span.clone() })?;
    let places = mantissa
        .split_once(['.', ','])
        .map(|(_, places)| places.to_owned());
    let places = places.filter(|_| power.is_empty());
    Ok(Numeral {
        readings: readings.into_iter().map(|value| value * &scale).collect(),
        why,
        places,
        span: span.clone(),
    })
}

/// The readings of digits with points and commas, and what leaves them open; `None` when they make no number.
fn marks(text: &str, habits: &Habits) -> Option<(Vec<Exact>, Option<AmbiguityKind>)> {
    let points = text.matches('.').count();
    let commas = text.matches(',').count();
    let (mark, other) = if habits.decimal_comma {
        (',', '.')
    } else {
        ('.', ',')
    };
    let open = if habits.decimal_comma {
        AmbiguityKind::ThousandsMark
    } else {
        AmbiguityKind::Comma
    };
    match (points, commas) {
        (0, 0) => Some((vec![Exact::parse(text)?], None)),
        (1, 0) | (0, 1) if text.contains(mark) => Some((vec![split(text, mark)?], None)),
        (1, 0) | (0, 1) => {
            let decimal = split(text, other)?;
            match grouped(&text.split(other).collect::<Vec<_>>()) {
                Some(whole) => Some((vec![decimal, whole], Some(open))),
                // With the comma decimal, a point in a place no thousands mark can have is a point.
                None if habits.decimal_comma => Some((vec![decimal], None)),
                None => Some((vec![decimal], Some(open))),
            }
        }
        (_, 0) => Some((
            vec![grouped(&text.split('.').collect::<Vec<_>>())?],
            Some(AmbiguityKind::ThousandsMark),
        )),
        (0, _) => Some((
            vec![grouped(&text.split(',').collect::<Vec<_>>())?],
            Some(AmbiguityKind::Comma),
        )),
        _ => Some((vec![both_marks(text)?], Some(open))),
    }
}

/// A decimal with this mark.
fn split(text: &str, mark: char) -> Option<Exact> {
    Exact::parse(&text.replace(mark, "."))
}

/// `1.204,5` or `1,204.5`: the last mark is the decimal one, the others must group by threes.
fn both_marks(text: &str) -> Option<Exact> {
    let at = text.rfind(['.', ','])?;
    let (whole, places) = (&text[..at], &text[at + 1..]);
    let group_mark = if text[at..].starts_with('.') {
        ','
    } else {
        '.'
    };
    let whole = grouped(&whole.split(group_mark).collect::<Vec<_>>())?;
    Some(whole + Exact::parse(&format!(".{places}"))?)
}

/// Whole number from groups of three digits (the first may be shorter but not start with a zero).
fn grouped(groups: &[&str]) -> Option<Exact> {
    let (first, rest) = groups.split_first()?;
    let digits = |group: &str| group.bytes().all(|b| b.is_ascii_digit());
    let fits = (1..=3).contains(&first.len()) && !first.starts_with('0') && digits(first);
    let threes = !rest.is_empty() && rest.iter().all(|group| group.len() == 3 && digits(group));
    if fits && threes {
        Exact::parse(&groups.concat())
    } else {
        None
    }
}
