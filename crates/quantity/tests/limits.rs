//! Decisions at limits: single readings, several, go/no-go findings.
#![allow(clippy::unwrap_used, missing_docs)]

use quantity::limit::{
    Call, End, Limit, LimitTrouble, Measured, Side, Take, Unjudged, decide, judge,
};
use quantity::{Exact, Habits, Quantity, Unit, parse};

fn read(text: &str) -> Quantity {
    parse(text, &Habits::default(), None).unwrap()
}

fn limit(min: &str, max: &str) -> Limit {
    let end = |text: &str| (!text.is_empty()).then(|| read(text));
    Limit::written(end(min).as_ref(), end(max).as_ref()).unwrap()
}

fn call(min: &str, max: &str, reading: &str) -> Call {
    decide(&limit(min, max), &Measured::read(&read(reading))).unwrap()
}

fn interval(low: Option<&str>, high: Option<&str>, strict: bool) -> Measured {
    let end = |text: Option<&str>| {
        text.map(|text| End {
            value: Exact::parse(text).unwrap(),
            strict,
        })
    };
    Measured::between(end(low), end(high), Unit::Millimetre)
}

/// Track sag of a heavy loader-backhoe: not under 3/4 in, not over about 2 in (common practice, no source).
#[test]
fn single_readings() {
    let table = [
        ("1 3/8 in ± 1/16", Call::Inside),
        ("2 1/8 in ± 1/16", Call::Outside(Side::Over)),
        ("2 1/8 in", Call::Outside(Side::Over)),
        ("2 in ± 1/16", Call::TooClose(Side::Over)),
        ("2 in", Call::Inside),
        ("1 15/16 in ± 1/16", Call::Inside),
        ("2 1/16 in ± 1/16", Call::TooClose(Side::Over)),
        ("3/4 in ± 1/32", Call::TooClose(Side::Under)),
        ("1/2 in ± 1/16", Call::Outside(Side::Under)),
        ("1 in ± 2 in", Call::TooClose(Side::Either)),
        ("50.8 mm", Call::Inside),
        ("50.81 mm", Call::Outside(Side::Over)),
    ];
    for (reading, expected) in table {
        assert_eq!(call("3/4 in", "2 in", reading), expected, "{reading}");
    }
    assert_eq!(call("", "2 in", "1 in ± 3/4"), Call::Inside);
    assert_eq!(
        call("150 bar", "", "140 bar ± 12 bar"),
        Call::TooClose(Side::Under)
    );
}

/// Two spans of 1.00 and 1.50 in against 1.14 to 1.6 in for their average: the mean keeps it, one span alone does not.
#[test]
fn the_rule_decides_which_of_several_readings_counts() {
    let spans = ["1.00 in", "1.50 in"].map(|text| Measured::read(&read(text)));
    let limit = limit("1.14 in", "1.6 in");
    let mean = judge(&limit, &spans, Take::Mean).unwrap();
    assert_eq!(mean.call, Call::Inside);
    assert_eq!(
        mean.taken.middle_and_half(),
        Some((Exact::parse("1.25").unwrap(), Exact::zero()))
    );
    assert_eq!(mean.each, [Call::Outside(Side::Under), Call::Inside]);
    let worst = judge(&limit, &spans, Take::Worst).unwrap();
    assert_eq!(
        (worst.call, worst.which),
        (Call::Outside(Side::Under), Some(0))
    );
    assert_eq!(
        judge(&limit, &spans, Take::Each).unwrap().call,
        Call::Outside(Side::Under)
    );
    assert_eq!(judge(&limit, &[], Take::Mean), Err(Unjudged::NoReadings));
    assert_eq!(judge(&limit, &[], Take::Worst), Err(Unjudged::NoReadings));
}

/// Readings with one tape are wrong together: the mean is no surer than the least sure of them.
#[test]
fn a_mean_keeps_the_largest_half_width() {
    let spans = ["1.50 in ± 1/8", "1.60 in ± 1/16"].map(|text| Measured::read(&read(text)));
    let judged = judge(&limit("1.14 in", "1.6 in"), &spans, Take::Mean).unwrap();
    assert_eq!(
        judged.taken.middle_and_half(),
        Some((
            Exact::parse("1.55").unwrap(),
            Exact::from_ratio(1, 8).unwrap()
        ))
    );
    assert_eq!(judged.call, Call::TooClose(Side::Over));
}

#[test]
fn of_two_readings_beyond_the_farther_is_the_worst() {
    let readings = ["2 1/8 in", "2 1/2 in", "1/2 in"].map(|text| Measured::read(&read(text)));
    assert_eq!(
        judge(&limit("3/4 in", "2 in"), &readings, Take::Worst)
            .unwrap()
            .which,
        Some(1)
    );
}

/// Cup on its side hidden, upright visible: 88.9 < s < 101.6 mm, against 3 1/2 to 4 in, and against closer limits.
#[test]
fn a_gauge_gives_an_interval() {
    let between = interval(Some("88.9"), Some("101.6"), true);
    assert_eq!(
        decide(&limit("3 1/2 in", "4 in"), &between),
        Ok(Call::Inside)
    );
    assert_eq!(
        decide(&limit("90 mm", "101.6 mm"), &between),
        Ok(Call::TooClose(Side::Under))
    );
    assert_eq!(
        decide(&limit("101.6 mm", "120 mm"), &between),
        Ok(Call::Outside(Side::Under))
    );
    let touching = interval(Some("88.9"), Some("101.6"), false);
    assert_eq!(
        decide(&limit("101.6 mm", "120 mm"), &touching),
        Ok(Call::TooClose(Side::Under))
    );
    let no_go = interval(Some("101.6"), None, true);
    assert_eq!(
        decide(&limit("3 1/2 in", "4 in"), &no_go),
        Ok(Call::Outside(Side::Over))
    );
    assert_eq!(decide(&limit("3 1/2 in", ""), &no_go), Ok(Call::Inside));
    let loose = interval(None, Some("101.6"), true);
    assert_eq!(
        decide(&limit("3 1/2 in", "4 in"), &loose),
        Ok(Call::TooClose(Side::Under))
    );
    let mean = judge(&limit("3 1/2 in", "4 in"), &[between, loose], Take::Mean).unwrap();
    assert_eq!(mean.call, Call::TooClose(Side::Under));
}

#[test]
fn a_reading_without_its_own_takes_the_half_width_of_the_method() {
    let tape = read("1/16 in");
    let by_tape = |text| Measured::by_method(&read(text), &tape).unwrap();
    assert_eq!(
        decide(&limit("3/4 in", "2 in"), &by_tape("2 in")),
        Ok(Call::TooClose(Side::Over))
    );
    assert_eq!(
        decide(&limit("3/4 in", "2 in"), &by_tape("2 in ± 0 in")),
        Ok(Call::Inside)
    );
    assert!(Measured::by_method(&read("2 L"), &tape).is_err());
}

#[test]
fn limits_that_are_none_are_refused() {
    assert_eq!(Limit::new(None, None, Unit::Bar), Err(LimitTrouble::NoEnd));
    assert_eq!(
        Limit::written(Some(&read("2 in")), Some(&read("25.4 mm"))),
        Err(LimitTrouble::OutOfOrder)
    );
    assert!(matches!(
        Limit::written(Some(&read("2 in")), Some(&read("3 L"))),
        Err(LimitTrouble::TwoDimensions { .. })
    ));
    assert!(decide(&limit("3/4 in", ""), &Measured::read(&read("3 L"))).is_err());
}
