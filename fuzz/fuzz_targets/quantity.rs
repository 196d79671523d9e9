//! No text may panic the reader; whatever it takes must print and read back as the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use quantity::{Dimension, Habits, System, Trouble, Unit, parse, parse_in, parse_plus_minus, show};

fuzz_target!(|input: (&str, bool, u8)| {
    let (text, decimal_comma, pick) = input;
    let habits = Habits { decimal_comma };
    let unit = Unit::ALL[usize::from(pick) % Unit::ALL.len()];
    let wanted = |unit| (unit == Unit::One).then_some(Dimension::Pure);
    let _ = parse_plus_minus(text, &habits, Some(unit.dimension()));
    let _ = parse(text, &habits, None);
    match parse_in(text, Some(unit), &habits) {
        Ok(quantity) => {
            let again = parse(quantity.text(), &habits, wanted(quantity.unit()));
            assert_eq!(again.as_ref(), Ok(&quantity), "the kept text does not read back");
            if let Some(beside) = show(&quantity, System::Both).beside {
                assert!(parse(&beside, &Habits::default(), None).is_ok() || beside.len() > 40, "{beside}");
            }
        }
        Err(trouble) => {
            assert!(text.get(trouble.span()).is_some(), "the place told is not in the text");
            if let Trouble::Ambiguous { readings, .. } = trouble {
                assert!(!readings.is_empty());
                for reading in readings {
                    let again = parse(reading.text(), &Habits::default(), wanted(reading.unit()));
                    assert_eq!(again, Ok(reading), "an offered reading does not read back");
                }
            }
        }
    }
});
