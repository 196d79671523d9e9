//! A written quantity cut into its smallest pieces, each with its place in the text.

use crate::Span;
use crate::unit::is_space;

/// What a piece is. Typographic variants are already the same here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Token {
    /// Digits with points and commas, perhaps a power of ten.
    Number(String),
    /// A fraction in one character.
    Vulgar(i64, i64),
    Slash,
    Hyphen,
    Plus,
    PlusMinus,
    /// `'` and its kin.
    Feet,
    /// `"` and its kin.
    Inches,
    /// Letters, with dots and powers: `in.`, `m³`.
    Word,
    Degree,
    Percent,
    /// A mark within a unit: `·`, `*`, a bracket.
    Join,
    /// Anything else.
    Other,
}

/// One piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Lexeme {
    pub(super) token: Token,
    pub(super) span: Span,
    /// Whether a space stands before it.
    pub(super) gap: bool,
}

/// Cuts the text up. Every character but spaces is in exactly one piece.
pub(super) fn lexemes(text: &str) -> Vec<Lexeme> {
    let mut found = Vec::new();
    let mut at = 0;
    let mut gap = false;
    while let Some(first) = text[at..].chars().next() {
        if is_space(first) {
            at += first.len_utf8();
            gap = true;
            continue;
        }
        let (token, length) = piece(&text[at..], first);
        found.push(Lexeme {
            token,
            span: at..at + length,
            gap,
        });
        at += length;
        gap = false;
    }
    found
}

/// The piece at the start of `rest` and its length in bytes.
fn piece(rest: &str, first: char) -> (Token, usize) {
    let second = rest[first.len_utf8()..].chars().next();
    let one = |token| (token, first.len_utf8());
    match first {
        '0'..='9' => number(rest),
        '.' | ',' if second.is_some_and(|c| c.is_ascii_digit()) => number(rest),
        '±' => one(Token::PlusMinus),
        '+' => plus(rest),
        '-' | '\u{2010}'..='\u{2013}' | '\u{2212}' => one(Token::Hyphen),
        '/' | '\u{2044}' | '\u{2215}' => one(Token::Slash),
        c if is_foot_mark(c) => match second {
            Some(next) if is_foot_mark(next) => (Token::Inches, c.len_utf8() + next.len_utf8()),
            _ => one(Token::Feet),
        },
        '"' | '″' | '”' | '“' | '„' | 'ʺ' | '＂' => one(Token::Inches),
        '°' | 'º' | '˚' => one(Token::Degree),
        '%' => one(Token::Percent),
        '·' | '⋅' | '∙' | '•' | '*' | '(' | ')' => one(Token::Join),
        c if c.is_alphabetic() => (Token::Word, word(rest)),
        c => one(vulgar(c).map_or(Token::Other, |(above, below)| Token::Vulgar(above, below))),
    }
}

fn is_foot_mark(c: char) -> bool {
    matches!(c, '\'' | '′' | '’' | '‘' | 'ʹ' | '´')
}

/// `+`, or one of the ways to type ±.
fn plus(rest: &str) -> (Token, usize) {
    let typed = ["+/-", "+/\u{2212}", "+-", "+\u{2212}"];
    let found = typed.iter().find(|form| rest.starts_with(**form));
    found.map_or((Token::Plus, 1), |form| (Token::PlusMinus, form.len()))
}

/// Digits, points and commas as long as a digit follows them, then perhaps a power of ten.
fn number(rest: &str) -> (Token, usize) {
    let bytes = rest.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let mut end = 0;
    while digit(end) || (matches!(bytes.get(end), Some(b'.' | b',')) && digit(end + 1)) {
        end += 1;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let signed = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        if digit(end + 1 + signed) {
            end += 1 + signed;
            while digit(end) {
                end += 1;
            }
        }
    }
    (Token::Number(rest[..end].to_owned()), end)
}

/// Length of a word: letters and dots, then perhaps a power written `²`, `^2` or a plain 2 or 3.
fn word(rest: &str) -> usize {
    let mark = |c: char| matches!(c, '°' | 'º' | '˚' | 'ʺ') || is_foot_mark(c);
    let letters = |c: char| (c.is_alphabetic() && !mark(c)) || c == '.';
    let end = rest.find(|c| !letters(c)).unwrap_or(rest.len());
    let tail = &rest[end..];
    let raised = tail.starts_with('^');
    let mut chars = tail[usize::from(raised)..].char_indices();
    match chars.next() {
        Some((at, c @ ('²' | '³'))) => end + at + usize::from(raised) + c.len_utf8(),
        Some((_, '2' | '3')) if raised || is_power(&tail[1..]) => end + usize::from(raised) + 1,
        _ => end,
    }
}

/// Whether the 2 or 3 right before `rest` is a power (`m3`, `m3/h`) and not the next number (`6ft2in`, `6ft3/4in`).
fn is_power(rest: &str) -> bool {
    let mut chars = rest.chars().skip_while(|c| is_space(*c));
    let next = chars.next();
    let spaced = rest.starts_with(is_space);
    match next {
        None => true,
        Some('/') => chars
            .find(|c| !is_space(*c))
            .is_some_and(char::is_alphabetic),
        Some('±' | '+' | '·' | '*' | ')') => true,
        Some(_) => {
            spaced
                && next.is_some_and(|c| {
                    !c.is_alphanumeric() && !is_foot_mark(c) && vulgar(c).is_none() && c != '"'
                })
        }
    }
}

/// The fraction a single character stands for.
fn vulgar(c: char) -> Option<(i64, i64)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}
