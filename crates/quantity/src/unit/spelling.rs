//! How units may be spelled: normal form, words that need asking back, and the nearest unit to a slip.

use std::sync::LazyLock;

use super::table::Unit;
use crate::{AmbiguityKind, Dimension};

/// What a unit word turns out to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Word {
    /// One unit.
    Plain(Unit),
    /// A word with several units behind it.
    Open(AmbiguityKind, &'static [Unit]),
}

/// Words that are never guessed, in normal form, with the units they may mean.
const OPEN: &[(AmbiguityKind, &[&str], &[Unit])] = &[
    (
        AmbiguityKind::BareGallon,
        &["gal", "gals", "gallon", "gallons"],
        &[Unit::UsGallon, Unit::ImperialGallon],
    ),
    (
        AmbiguityKind::BareQuart,
        &["qt", "qts", "quart", "quarts"],
        &[Unit::UsQuart, Unit::ImperialQuart],
    ),
    (
        AmbiguityKind::BarePint,
        &["pt", "pts", "pint", "pints"],
        &[Unit::UsPint, Unit::ImperialPint],
    ),
    (
        AmbiguityKind::BareTon,
        &["ton", "tons"],
        &[Unit::Tonne, Unit::ShortTon, Unit::LongTon],
    ),
    (
        AmbiguityKind::BareOunce,
        &["oz", "ounce", "ounces"],
        &[Unit::UsFluidOunce, Unit::ImperialFluidOunce, Unit::Ounce],
    ),
    (
        AmbiguityKind::BareOunce,
        &["fl oz", "fluid ounce", "fluid ounces"],
        &[Unit::UsFluidOunce, Unit::ImperialFluidOunce],
    ),
    (
        AmbiguityKind::BareGallon,
        &["gpm", "gal/min"],
        &[Unit::UsGallonPerMinute, Unit::ImperialGallonPerMinute],
    ),
];

/// Brings a written unit to normal form: single spaces, no dots, dashes or brackets, plain 2 and 3 for powers.
pub(crate) fn normalise(written: &str) -> String {
    let mut plain = String::with_capacity(written.len());
    for c in written.chars() {
        match c {
            '.' | '^' | '(' | ')' => {}
            '·' | '⋅' | '∙' | '•' | '×' | '*' | '-' | '\u{2010}' | '\u{2011}' => {
                plain.push(' ')
            }
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            'º' | '˚' => plain.push('°'),
            '⁄' | '∕' => plain.push('/'),
            c if is_space(c) => plain.push(' '),
            c => plain.push(c),
        }
    }
    let words: Vec<&str> = plain.split(' ').filter(|word| !word.is_empty()).collect();
    words
        .join(" ")
        .replace(" per ", "/")
        .replace(" /", "/")
        .replace("/ ", "/")
        .replace("° ", "°")
}

/// Whether a character is blank on paper, whatever its width.
pub(crate) fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{200B}' | '\u{2060}' | '\u{FEFF}')
}

/// Every spelling in normal form with its unit.
static SPELLINGS: LazyLock<Vec<(String, Unit)>> = LazyLock::new(|| {
    let of = |unit: &Unit| {
        let symbol = normalise(unit.symbol());
        let others = unit
            .spellings()
            .iter()
            .map(|spelling| (*spelling).to_owned());
        let unit = *unit;
        std::iter::once(symbol)
            .chain(others)
            .filter(|s| !s.is_empty())
            .map(move |s| (s, unit))
            .collect::<Vec<_>>()
    };
    Unit::ALL.iter().flat_map(of).collect()
});

/// Reads a unit in normal form: as spelled, else without regard to capitals where that leaves one unit only.
///
/// Single letters, and symbols where a capital changes the meaning (`MPa`, `mPa`), must be spelled as they are.
pub(crate) fn read_word(normal: &str) -> Option<Word> {
    let plain = SPELLINGS
        .iter()
        .find(|(spelling, _)| spelling == normal)
        .map(|(_, unit)| Word::Plain(*unit));
    plain.or_else(|| {
        let small = normal.to_lowercase();
        let open = OPEN
            .iter()
            .find(|(_, words, _)| words.contains(&small.as_str()));
        let without_capitals = || {
            let free = |spelling: &str| {
                spelling.chars().count() > 1 && !CAPITALS_MATTER.contains(&spelling)
            };
            SPELLINGS
                .iter()
                .find(|(spelling, _)| free(spelling) && spelling.to_lowercase() == small)
        };
        open.map(|(why, _, units)| Word::Open(*why, units))
            .or_else(|| without_capitals().map(|(_, unit)| Word::Plain(*unit)))
    })
}

/// Symbols that would be another unit, on our list or off it, with other capitals.
const CAPITALS_MATTER: &[&str] = &[
    "MPa", "kN", "Nm", "N m", "kNm", "kN m", "mA", "Pa", "°C", "°F", "PS", "kN/m2", "N/m2",
    "N/mm2", "kN/m3", "N/m3",
];

/// The word a slip was most likely meant to be: one letter off in a short word, two in a long one.
///
/// Of equally near ones that of the dimension wanted wins, then the more usual.
pub(crate) fn nearest(normal: &str, wanted: Option<Dimension>) -> Option<Word> {
    let small = normal.to_lowercase();
    let letters = small.chars().count();
    let most = if letters <= 4 { 1 } else { 2 };
    let plain = SPELLINGS
        .iter()
        .map(|(spelling, unit)| (spelling.as_str(), Word::Plain(*unit), unit.dimension()));
    let open = OPEN.iter().flat_map(|(why, words, units)| {
        words
            .iter()
            .map(|word| (*word, Word::Open(*why, units), units[0].dimension()))
    });
    let candidates = plain.chain(open).filter_map(|(spelling, word, dimension)| {
        let distance = strsim::damerau_levenshtein(&small, &spelling.to_lowercase());
        let shares_a_letter = distance < letters.max(spelling.chars().count());
        (distance <= most && shares_a_letter).then_some((wanted != Some(dimension), distance, word))
    });
    candidates
        .min_by_key(|(foreign, distance, _)| (*distance, *foreign))
        .map(|(_, _, word)| word)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn no_spelling_names_two_units() {
        for (at, (spelling, unit)) in SPELLINGS.iter().enumerate() {
            let twin = SPELLINGS[at + 1..]
                .iter()
                .find(|(other, _)| other == spelling);
            assert!(twin.is_none(), "{spelling} is both {unit:?} and {twin:?}");
            assert!(
                OPEN.iter()
                    .all(|(_, words, _)| !words.contains(&spelling.as_str())),
                "{spelling} is asked back"
            );
        }
    }

    #[test]
    fn capitals_are_forgiven_where_harmless() {
        let read = |text: &str| read_word(&normalise(text));
        assert_eq!(read("IN."), Some(Word::Plain(Unit::Inch)));
        assert_eq!(read("PSI"), Some(Word::Plain(Unit::Psi)));
        assert_eq!(read("U.S. Gal."), Some(Word::Plain(Unit::UsGallon)));
        assert_eq!(read("ft-lb"), Some(Word::Plain(Unit::PoundForceFoot)));
        assert_eq!(read("N·m"), Some(Word::Plain(Unit::NewtonMetre)));
        assert_eq!(read("litres per minute"), None);
        assert_eq!(read("mPa"), None, "a millipascal is not a megapascal");
        assert_eq!(read("nm"), None, "a nanometre is not a newton metre");
        assert_eq!(read("M"), None);
    }

    /// The slips of general converters: `gramm` as a grain and a metre, `min` as a thousandth of an inch.
    #[test]
    fn slips_are_offered_and_minutes_are_minutes() {
        assert_eq!(nearest("gramm", None), Some(Word::Plain(Unit::Gram)));
        assert_eq!(nearest("inn", None), Some(Word::Plain(Unit::Inch)));
        assert_eq!(
            nearest("galon", None),
            Some(Word::Open(
                AmbiguityKind::BareGallon,
                &[Unit::UsGallon, Unit::ImperialGallon]
            ))
        );
        assert_eq!(nearest("furlong", None), None);
        assert_eq!(read_word("min"), Some(Word::Plain(Unit::Minute)));
    }
}
