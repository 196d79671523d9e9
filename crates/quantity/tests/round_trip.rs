//! Properties: nothing panics, what is printed reads back, decisions do not depend on the display.
#![allow(clippy::unwrap_used, missing_docs)]

use proptest::prelude::*;
use quantity::limit::{Call, Limit, Measured, decide};
use quantity::{
    Dimension, Exact, Habits, Quantity, System, Trouble, Unit, format_exact, format_feet_inches,
    format_fraction_inches, parse, parse_in, parse_plus_minus, round_to_step, show,
};

const HABITS: Habits = Habits {
    decimal_comma: false,
};

fn any_unit() -> impl Strategy<Value = Unit> {
    proptest::sample::select(Unit::ALL)
}

fn units_of_one_dimension() -> impl Strategy<Value = (Unit, Unit)> {
    any_unit().prop_flat_map(|unit| {
        (
            Just(unit),
            proptest::sample::select(Unit::of(unit.dimension()).collect::<Vec<_>>()),
        )
    })
}

/// A rational as a person might come to: small denominators, decimals, halves of halves.
fn any_exact() -> impl Strategy<Value = Exact> {
    let denominator = prop_oneof![
        Just(1),
        Just(2),
        Just(8),
        Just(64),
        Just(10),
        Just(1000),
        1i64..10_000
    ];
    (-1_000_000i64..1_000_000, denominator)
        .prop_map(|(above, below)| Exact::from_ratio(above, below).unwrap())
}

fn wanted_for(unit: Unit) -> Option<Dimension> {
    (unit == Unit::One).then_some(Dimension::Pure)
}

/// Texts made of the pieces that quantities are made of, to get further in than noise would.
fn almost_quantity() -> impl Strategy<Value = String> {
    let piece = proptest::sample::select(vec![
        "1",
        "2",
        "12",
        "204",
        "3/4",
        "1/0",
        ".5",
        ",5",
        "1.5",
        "1,204",
        "e3",
        "-",
        "–",
        "+",
        "±",
        "+/-",
        "'",
        "\"",
        "′",
        "”",
        "''",
        "½",
        "¾",
        " ",
        "\u{a0}",
        "in",
        "ft",
        "mm",
        "gal",
        "US ",
        "imp ",
        "ton",
        "oz",
        "h",
        "min",
        "m3",
        "m²",
        "/",
        "·",
        "(",
        ")",
        "°",
        "%",
        "C",
        "psi",
        "x",
        "é",
        "\u{200b}",
        "9999999999999",
        "²",
        "^",
        ".",
    ]);
    proptest::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_panics(text in prop_oneof![any::<String>(), almost_quantity()], unit in any_unit(), decimal_comma: bool) {
        let habits = Habits { decimal_comma };
        let answers = [
            parse(&text, &habits, None),
            parse(&text, &habits, Some(unit.dimension())),
            parse_in(&text, Some(unit), &habits),
            parse_plus_minus(&text, &habits, None),
        ];
        for answer in answers {
            match answer {
                Ok(quantity) => drop((quantity.both(), quantity.si_f64())),
                Err(trouble) => prop_assert!(text.get(trouble.span()).is_some(), "{trouble:?} is not within {text:?}"),
            }
        }
    }

    /// What was read keeps a text that reads as the same again; what is offered for a choice reads plainly.
    #[test]
    fn a_kept_text_reads_back(text in almost_quantity(), unit in any_unit()) {
        match parse_in(&text, Some(unit), &HABITS) {
            Ok(quantity) => {
                let wanted = wanted_for(quantity.unit());
                prop_assert_eq!(parse(quantity.text(), &HABITS, wanted), Ok(quantity));
            }
            Err(Trouble::Ambiguous { readings, .. }) => {
                for reading in readings {
                    let again = parse(reading.text(), &HABITS, wanted_for(reading.unit())).unwrap();
                    prop_assert_eq!(again, reading);
                }
            }
            Err(_) => {}
        }
    }

    /// A comma leaves a long number open; what is offered then has more digits than a fraction may.
    #[test]
    fn a_long_decimal_that_is_offered_reads_back(digits in "[1-9][0-9]{12,25}", whole in "|[1-9][0-9]{0,12}", unit in any_unit()) {
        let Err(Trouble::Ambiguous { readings, .. }) = parse_in(&format!("{whole},{digits}"), Some(unit), &HABITS) else {
            return Err(TestCaseError::fail("a comma is asked about"));
        };
        for reading in readings {
            prop_assert_eq!(parse(reading.text(), &HABITS, wanted_for(reading.unit())), Ok(reading));
        }
    }

    #[test]
    fn an_exact_text_reads_back(value in any_exact(), unit in any_unit(), half in proptest::option::of(any_exact())) {
        let quantity = Quantity::from_exact(value, unit, half);
        prop_assert_eq!(parse(quantity.text(), &HABITS, wanted_for(unit)), Ok(quantity));
    }

    #[test]
    fn exact_numbers_read_back(value in any_exact()) {
        prop_assert_eq!(Exact::parse(&value.to_string()), Some(value));
    }

    #[test]
    fn rounded_texts_read_back_as_the_rounded_value(value in any_exact(), places in 0u32..6, power in 0u32..7) {
        let text = format!("{} mm", format_exact(&value, places));
        let step = Exact::from_ratio(1, 10i64.pow(places)).unwrap();
        prop_assert_eq!(parse(&text, &HABITS, None).unwrap().value().clone(), round_to_step(&value, &step));
        let denominator = 2u32.pow(power);
        let rounded = round_to_step(&value, &Exact::from_ratio(1, denominator.into()).unwrap());
        for text in [format_fraction_inches(&value, denominator), format_feet_inches(&value, denominator)] {
            prop_assert_eq!(parse(&text, &HABITS, None).unwrap().in_unit(Unit::Inch), Some(rounded.clone()), "{}", text);
        }
    }

    /// The other system's text is a quantity too, and not far off: within a twentieth, or a thirty-second of an inch.
    #[test]
    fn the_other_system_reads_back_near(value in any_exact(), unit in any_unit(), half in proptest::option::of(any_exact())) {
        let quantity = Quantity::from_exact(value, unit, half);
        let Some(beside) = show(&quantity, System::Both).beside else { return Ok(()) };
        let other = parse(&beside, &HABITS, None).unwrap_or_else(|trouble| panic!("{beside}: {trouble:?}"));
        prop_assert_eq!(other.dimension(), quantity.dimension());
        let off = (other.si() - quantity.si()).abs();
        let zero = if quantity.dimension() == Dimension::Temperature { Exact::from(1) } else { Exact::zero() };
        let twentieth = quantity.si().abs() * Exact::from_ratio(1, 20).unwrap();
        let fraction = Unit::Inch.to_si(&Exact::from_ratio(1, 4).unwrap());
        let length = if quantity.dimension() == Dimension::Length { fraction } else { Exact::zero() };
        let width = quantity.plus_minus_si().unwrap_or_else(Exact::zero);
        prop_assert!(off <= twentieth + length + zero + width, "{} beside {}", quantity.text(), beside);
    }

    #[test]
    fn conversions_come_back_exactly(value in any_exact(), from in any_unit(), to in any_unit()) {
        if let Some(there) = from.convert(&value, to) {
            prop_assert_eq!(to.convert(&there, from), Some(value));
        } else {
            prop_assert_ne!(from.dimension(), to.dimension());
        }
    }

    /// The unit a reading is shown in never changes the answer.
    #[test]
    fn the_display_unit_decides_nothing(
        reading in any_exact(), half in any_exact(), ends in (any_exact(), any_exact()), (unit, other) in units_of_one_dimension(),
    ) {
        let (min, max) = if ends.0 <= ends.1 { ends } else { (ends.1, ends.0) };
        let limit = Limit::new(Some(min), Some(max), unit).unwrap();
        let here = Measured::value(&reading, &half, unit);
        let there = Measured::value(
            &unit.convert(&reading, other).unwrap(), &unit.convert_difference(&half, other).unwrap(), other,
        );
        prop_assert_eq!(decide(&limit, &here), decide(&limit, &there));
    }

    /// Knowing less never settles anything: a wider ± turns no "too close" into a decision and flips none.
    #[test]
    fn a_wider_half_width_never_settles(reading in any_exact(), half in any_exact(), more in any_exact(), ends in (any_exact(), any_exact())) {
        let (min, max) = if ends.0 <= ends.1 { ends } else { (ends.1, ends.0) };
        let limit = Limit::new(Some(min), Some(max), Unit::Millimetre).unwrap();
        let call = |half: &Exact| decide(&limit, &Measured::value(&reading, half, Unit::Millimetre)).unwrap();
        let (narrow, wide) = (call(&half.abs()), call(&(half.abs() + more.abs())));
        match narrow {
            Call::TooClose(_) => prop_assert!(matches!(wide, Call::TooClose(_))),
            settled => prop_assert!(wide == settled || matches!(wide, Call::TooClose(_))),
        }
    }

    /// With no uncertainty at all the decision is the plain comparison.
    #[test]
    fn an_exact_reading_is_simply_compared(reading in any_exact(), ends in (any_exact(), any_exact())) {
        let (min, max) = if ends.0 <= ends.1 { ends } else { (ends.1, ends.0) };
        let kept = min <= reading && reading <= max;
        let limit = Limit::new(Some(min), Some(max), Unit::Bar).unwrap();
        let call = decide(&limit, &Measured::value(&reading, &Exact::zero(), Unit::Bar)).unwrap();
        prop_assert_eq!(call == Call::Inside, kept);
        prop_assert!(!matches!(call, Call::TooClose(_)));
    }
}
