//! What is read, what is asked back and what is refused, in tables.
#![allow(clippy::unwrap_used, missing_docs)]

use quantity::{
    AmbiguityKind, Dimension, Exact, Habits, Quantity, Trouble, Unit, parse, parse_in,
    parse_plus_minus,
};

const POINT: Habits = Habits {
    decimal_comma: false,
};
const COMMA: Habits = Habits {
    decimal_comma: true,
};

fn exact(text: &str) -> Exact {
    Exact::parse(text).unwrap()
}

fn read(text: &str) -> Quantity {
    parse(text, &POINT, None).unwrap_or_else(|trouble| panic!("{text}: {trouble:?}"))
}

fn trouble(text: &str) -> Trouble {
    parse(text, &POINT, None).expect_err(text)
}

/// The readings offered, as their plain texts.
fn asked(text: &str, habits: &Habits) -> (AmbiguityKind, Vec<String>) {
    match parse(text, habits, None) {
        Err(Trouble::Ambiguous { readings, why, .. }) => (
            why,
            readings.iter().map(|it| it.text().to_owned()).collect(),
        ),
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn plain_forms() {
    let table = [
        // Feet, inches and fractions.
        ("1 3/4 in", "1.75", Unit::Inch),
        ("1-3/4\"", "1.75", Unit::Inch),
        ("¾ in", "0.75", Unit::Inch),
        ("1¾\"", "1.75", Unit::Inch),
        ("1 ¾ in.", "1.75", Unit::Inch),
        ("1-¾ in", "1.75", Unit::Inch),
        ("6 ft 2 in", "74", Unit::Inch),
        ("6'2\"", "74", Unit::Inch),
        ("6'2", "74", Unit::Inch),
        ("6ft2in", "74", Unit::Inch),
        ("6ft 3/4in", "72.75", Unit::Inch),
        ("5'-3 1/2\"", "63.5", Unit::Inch),
        ("5' 3/4\"", "60.75", Unit::Inch),
        ("5'-3-1/2\"", "63.5", Unit::Inch),
        ("1'-1-1/2\"", "13.5", Unit::Inch),
        ("5’ 3½”", "63.5", Unit::Inch),
        ("5′ 3½″", "63.5", Unit::Inch),
        ("5' 3 1⁄2\"", "63.5", Unit::Inch),
        ("1 1/2''", "1.5", Unit::Inch),
        ("85-1/2 in", "85.5", Unit::Inch),
        ("60 ft 1 in", "721", Unit::Inch),
        ("12 ft 1/4 in", "144.25", Unit::Inch),
        ("10 3/8 IN.", "10.375", Unit::Inch),
        ("9/4 in", "2.25", Unit::Inch),
        ("-1 3/4 in", "-1.75", Unit::Inch),
        ("−5' 3\"", "-63", Unit::Inch),
        ("6 ft", "6", Unit::Foot),
        ("6 1/2 ft", "6.5", Unit::Foot),
        ("6.25 ft", "6.25", Unit::Foot),
        ("1.234 in", "1.234", Unit::Inch),
        // Other kinds.
        ("19 mm", "19", Unit::Millimetre),
        ("19\u{a0}mm", "19", Unit::Millimetre),
        ("19\u{2009}mm", "19", Unit::Millimetre),
        ("19mm", "19", Unit::Millimetre),
        (".5 mm", "0.5", Unit::Millimetre),
        ("12.5 L", "12.5", Unit::Litre),
        ("180 bar", "180", Unit::Bar),
        ("40 bar", "40", Unit::Bar),
        ("2500 psi", "2500", Unit::Psi),
        ("40 psi", "40", Unit::Psi),
        ("2e3 psi", "2000", Unit::Psi),
        ("1.2 t", "1.2", Unit::Tonne),
        ("2 t", "2", Unit::Tonne),
        ("35 kPa", "35", Unit::Kilopascal),
        ("5 US gal", "5", Unit::UsGallon),
        ("5 U.S. gal.", "5", Unit::UsGallon),
        ("5 gal (US)", "5", Unit::UsGallon),
        ("5 imp gal", "5", Unit::ImperialGallon),
        ("20 US gal/min", "20", Unit::UsGallonPerMinute),
        ("3 L per min", "3", Unit::LitrePerMinute),
        ("90°", "90", Unit::Degree),
        ("-12.5 °", "-12.5", Unit::Degree),
        ("20 °C", "20", Unit::Celsius),
        ("95 %", "95", Unit::Percent),
        ("290 lb·ft", "290", Unit::PoundForceFoot),
        ("290 ft-lb", "290", Unit::PoundForceFoot),
        ("393 N·m", "393", Unit::NewtonMetre),
        ("0.6 m³", "0.6", Unit::CubicMetre),
        ("0.6 m3", "0.6", Unit::CubicMetre),
        ("6 m3/h", "6", Unit::CubicMetrePerHour),
        ("18 kN/m^3", "18", Unit::KilonewtonPerCubicMetre),
        ("15 min", "15", Unit::Minute),
        ("1 h 30 min", "90", Unit::Minute),
        ("12 in", "12", Unit::Inch),
        ("2 strokes", "2", Unit::Stroke),
    ];
    for (text, value, unit) in table {
        let quantity = read(text);
        assert_eq!(
            (quantity.value(), quantity.unit()),
            (&exact(value), unit),
            "{text}"
        );
        assert_eq!(quantity.text(), text, "kept as written");
        assert_eq!(quantity.plus_minus(), None, "{text}");
    }
}

#[test]
fn with_an_uncertainty() {
    let table = [
        ("3/4\" ± 1/16\"", "0.75", Unit::Inch, "1/16"),
        ("2 in ± 1/16", "2", Unit::Inch, "1/16"),
        ("2 in +/- 1/16 in", "2", Unit::Inch, "1/16"),
        ("2 ± 1/16 in", "2", Unit::Inch, "1/16"),
        ("2 in ± 2.54 mm", "2", Unit::Inch, "0.1"),
        ("6 ft 2 in ± 1/4", "74", Unit::Inch, "1/4"),
        ("6 ft ± 1 in", "6", Unit::Foot, "1/12"),
        ("200 bar ± 5 %", "200", Unit::Bar, "10"),
        ("60 % ± 5 %", "60", Unit::Percent, "5"),
        ("20 °C ± 9 °F", "20", Unit::Celsius, "5"),
        ("393 Nm +- 39 Nm", "393", Unit::NewtonMetre, "39"),
        ("5 US gal ± 1/2 gal", "5", Unit::UsGallon, "1/2"),
    ];
    for (text, value, unit, half) in table {
        let quantity = read(text);
        assert_eq!(
            (quantity.value(), quantity.unit()),
            (&exact(value), unit),
            "{text}"
        );
        assert_eq!(quantity.plus_minus(), Some(&exact(half)), "{text}");
    }
    let alone = parse_plus_minus("± 1/16 in", &POINT, Some(Dimension::Length)).unwrap();
    assert_eq!((alone.value(), alone.unit()), (&exact("1/16"), Unit::Inch));
    assert_eq!(
        parse_plus_minus("2 mm", &POINT, None).unwrap().value(),
        &exact("2")
    );
    assert_eq!(
        parse_plus_minus("-2 mm", &POINT, None).unwrap_err().code(),
        "negative-uncertainty"
    );
}

/// Never guessed: gallons, tons, ounces, tenths of a foot, commas, dashes.
#[test]
fn asked_back_with_the_readings_possible() {
    use AmbiguityKind as Why;
    let table: &[(&str, Why, &[&str])] = &[
        ("5 gal", Why::BareGallon, &["5 US gal", "5 imp gal"]),
        ("5 galon", Why::BareGallon, &["5 US gal", "5 imp gal"]),
        (
            "20 gpm",
            Why::BareGallon,
            &["20 US gal/min", "20 imp gal/min"],
        ),
        ("2 ton", Why::BareTon, &["2 t", "2 short ton", "2 long ton"]),
        (
            "3 oz",
            Why::BareOunce,
            &["3 US fl oz", "3 imp fl oz", "3 oz av"],
        ),
        ("3 fl oz", Why::BareOunce, &["3 US fl oz", "3 imp fl oz"]),
        ("2 qt", Why::BareQuart, &["2 US qt", "2 imp qt"]),
        ("6.4 ft", Why::DecimalFeet, &["76.8 in", "76 in"]),
        ("6.4'", Why::DecimalFeet, &["76.8 in", "76 in"]),
        ("6.10 ft", Why::DecimalFeet, &["73.2 in", "82 in"]),
        ("1,5 mm", Why::Comma, &["1.5 mm"]),
        ("1,204 mm", Why::Comma, &["1.204 mm", "1204 mm"]),
        ("1.204,5 mm", Why::Comma, &["1204.5 mm"]),
        ("1,204.5 mm", Why::Comma, &["1204.5 mm"]),
        ("1,204,000 kg", Why::Comma, &["1204000 kg"]),
        ("1.000.000 kg", Why::ThousandsMark, &["1000000 kg"]),
        ("1 204 mm", Why::ThousandsMark, &["1204 mm"]),
        ("1-1-1/2", Why::FeetInchFraction, &["13 1/2 in"]),
        ("1-1-½ in", Why::FeetInchFraction, &["13 1/2 in"]),
        (
            "5 gal ± 1/2 gal",
            Why::BareGallon,
            &["5 US gal ± 0.5 US gal", "5 imp gal ± 0.5 imp gal"],
        ),
        ("1,5 gal", Why::Comma, &["1.5 US gal", "1.5 imp gal"]),
        ("1,5 mm ± 0.2", Why::Comma, &["1.5 mm ± 0.2 mm"]),
    ];
    for (text, why, readings) in table {
        let readings = readings.iter().map(|it| (*it).to_owned()).collect();
        assert_eq!(asked(text, &POINT), (*why, readings), "{text}");
    }
}

#[test]
fn a_yard_may_say_that_the_comma_is_decimal() {
    let read = |text| parse(text, &COMMA, None).unwrap().value().clone();
    assert_eq!(read("1,5 mm"), exact("1.5"));
    assert_eq!(read("812,3 h"), exact("812.3"));
    assert_eq!(read("1,204 mm"), exact("1.204"));
    assert_eq!(
        read("12.5 L"),
        exact("12.5"),
        "no thousands mark stands there"
    );
    assert_eq!(
        asked("1.234 mm", &COMMA),
        (
            AmbiguityKind::ThousandsMark,
            vec!["1.234 mm".into(), "1234 mm".into()]
        )
    );
    assert_eq!(
        asked("1.204,5 mm", &COMMA),
        (AmbiguityKind::ThousandsMark, vec!["1204.5 mm".into()])
    );
    assert_eq!(
        asked("6,4 ft", &COMMA),
        (
            AmbiguityKind::DecimalFeet,
            vec!["76.8 in".into(), "76 in".into()]
        )
    );
}

#[test]
fn a_number_in_a_box_takes_the_unit_beside_it() {
    let read = |text, unit| parse_in(text, Some(unit), &POINT);
    let inches = read("10 3/8", Unit::Inch).unwrap();
    assert_eq!(inches.value(), &exact("10.375"));
    assert_eq!(inches.text(), "10 3/8 in");
    assert_eq!(inches.in_unit(Unit::Millimetre), Some(exact("263.525")));
    assert_eq!(read("85-1/2", Unit::Inch).unwrap().value(), &exact("85.5"));
    assert_eq!(read("48 mm", Unit::Inch).unwrap().unit(), Unit::Millimetre);
    let with_width = read("2 ± 1/16", Unit::Inch).unwrap();
    assert_eq!(with_width.text(), "2 in ± 1/16");
    assert_eq!(
        parse(with_width.text(), &POINT, None).unwrap(),
        with_width,
        "it reads back by itself"
    );
    assert_eq!(read("2 ± 5 %", Unit::Bar).unwrap().text(), "2 bar ± 5 %");
    assert_eq!(read("6.4", Unit::Foot).unwrap_err().code(), "decimal-feet");
    assert_eq!(
        read("2 ± 1 mm", Unit::Inch).unwrap_err().code(),
        "no-unit",
        "the box says one unit, the text another"
    );
    assert_eq!(
        read("5 L", Unit::Inch).unwrap_err().code(),
        "wrong-dimension"
    );
    let count = parse("23", &POINT, Some(Dimension::Pure)).unwrap();
    assert_eq!((count.unit(), count.text()), (Unit::One, "23"));
}

/// Spreadsheet damage and other things that are no quantity.
#[test]
fn refused_with_the_reason() {
    let table = [
        ("", "empty"),
        ("  \u{a0} ", "empty"),
        ("3/8", "no-unit"),
        ("0042917", "no-unit"),
        ("557E90", "too-long"),
        ("1914310000010100016", "no-unit"),
        ("10-30", "two-ends"),
        ("5 - 10 mm", "two-ends"),
        ("1/0 in", "zero-denominator"),
        ("4 9/4 in", "fraction-not-proper"),
        ("4'2-5/4\"", "fraction-not-proper"),
        ("4 1/2 + 9", "not-a-number"),
        ("3/8/16", "not-a-number"),
        ("1.2.3 mm", "not-a-number"),
        ("5. mm", "not-a-number"),
        ("1.5 3/4 in", "not-a-number"),
        ("hello", "not-a-number"),
        ("-", "not-a-number"),
        ("2 in ±", "not-a-number"),
        ("2 in ± 1/16 ± 1/8", "not-a-number"),
        ("± 1/16 in", "only-plus-minus"),
        ("2 in ± -1/16", "negative-uncertainty"),
        ("2 in ± 3 L", "wrong-dimension"),
        ("6 ft ± 1/4", "no-unit"),
        ("12 inn", "unknown-unit"),
        ("3 furlong", "unknown-unit"),
        ("2 m 3 in", "mixed-units"),
        ("12° 30'", "mixed-units"),
        ("5 ft 14 in", "part-out-of-range"),
        ("5.5 ft 2 in", "part-out-of-range"),
        ("1'204 mm", "mixed-units"),
        ("1 h 75 min", "part-out-of-range"),
    ];
    for (text, code) in table {
        assert_eq!(trouble(text).code(), code, "{text}");
    }
    assert_eq!(trouble(&"1".repeat(41)).code(), "too-long");
    assert_eq!(
        trouble(&format!("5 mm{}", " ".repeat(200))).code(),
        "too-long"
    );
}

#[test]
fn a_slip_is_offered_the_nearest_unit_and_its_place() {
    let table = [
        ("12 inn", Some(Unit::Inch)),
        ("5 gramm", Some(Unit::Gram)),
        ("40 spi", Some(Unit::Psi)),
        ("7 smoots", None),
    ];
    for (text, expected) in table {
        match trouble(text) {
            Trouble::UnknownUnit {
                written,
                nearest,
                span,
            } => {
                assert_eq!(nearest, expected, "{text}");
                assert_eq!(text[span], written);
            }
            other => panic!("{text}: {other:?}"),
        }
    }
}

#[test]
fn the_place_of_the_trouble_is_told() {
    let place = |text: &str| text[trouble(text).span()].to_owned();
    assert_eq!(place("  5 gal"), "gal");
    assert_eq!(place("1,5 mm"), "1,5");
    assert_eq!(place("4 9/4 in"), "9/4");
    assert_eq!(place("4 1/2 + 9"), "+");
    assert_eq!(place("2 in ± 3 L"), "3 L");
}

#[test]
fn the_dimension_wanted_narrows_and_refuses() {
    let wrong = parse("5 bar", &POINT, Some(Dimension::Length)).unwrap_err();
    assert_eq!(
        wrong,
        Trouble::WrongDimension {
            found: Dimension::Pressure,
            wanted: Dimension::Length,
            span: 2..5
        }
    );
    match parse("3 oz", &POINT, Some(Dimension::Mass)).unwrap_err() {
        Trouble::Ambiguous { readings, .. } => assert_eq!(readings[0].text(), "3 oz av"),
        other => panic!("{other:?}"),
    }
    match parse("5", &POINT, Some(Dimension::Angle)).unwrap_err() {
        Trouble::NoUnit { possible, .. } => assert_eq!(possible, [Unit::Degree, Unit::Radian]),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_same_value_in_other_units() {
    assert!(read("1 in").same_value(&read("25.4 mm")));
    assert!(read("1 bar").same_value(&read("100 kPa")));
    assert!(!read("1 in").same_value(&read("25.4 L")));
    assert_ne!(read("1 in"), read("25.4 mm"), "what was written differs");
}
