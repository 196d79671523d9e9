//! Runs every check in `cases/quantity` (its README says how they are written).
#![allow(clippy::unwrap_used, missing_docs)]

use std::path::Path;

use quantity::limit::{Call, End, Limit, Measured, Side, Take, judge};
use quantity::{Habits, Quantity, Trouble, Unit, format_exact, parse, parse_in};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    leaf: String,
    source: String,
    read: String,
    why: String,
    check: Vec<Check>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Check {
    text: Option<String>,
    unit: Option<String>,
    #[serde(default)]
    decimal_comma: bool,
    reads: Option<String>,
    asks: Option<String>,
    refuses: Option<String>,
    nearest: Option<String>,
    gives: Option<String>,
    #[serde(default)]
    readings: Vec<String>,
    min: Option<String>,
    max: Option<String>,
    take: Option<String>,
    call: Option<String>,
}

#[test]
fn every_case_holds() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/quantity");
    let mut checks = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.file_name().unwrap() == "README.md" {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let front = text
            .split("---\n")
            .nth(1)
            .unwrap_or_else(|| panic!("{}: no front matter", path.display()));
        let case: Case =
            toml::from_str(front).unwrap_or_else(|trouble| panic!("{}: {trouble}", path.display()));
        assert_eq!(case.leaf, "quantity", "{}", case.name);
        assert!(
            ["read", "memory", "common practice"].contains(&case.read.as_str()),
            "{}",
            case.name
        );
        assert!(
            !case.source.is_empty() && !case.why.is_empty() && !case.check.is_empty(),
            "{}",
            case.name
        );
        for check in &case.check {
            run(&case.name, check);
            checks += 1;
        }
    }
    assert!(checks > 60, "only {checks} checks were found");
}

fn run(name: &str, check: &Check) {
    let Some(text) = &check.text else {
        assert_eq!(
            Some(call(check)),
            check.call,
            "{name}: {:?}",
            check.readings
        );
        return;
    };
    let habits = Habits {
        decimal_comma: check.decimal_comma,
    };
    let unit = check.unit.as_deref().map(|unit| Unit::find(unit).unwrap());
    let got = parse_in(text, unit, &habits);
    let place = format!("{name}: {text}");
    if let Some(expected) = &check.reads {
        let (got, expected) = (got.expect(&place), plain(expected));
        assert_eq!(
            (got.value(), got.unit()),
            (expected.value(), expected.unit()),
            "{place}"
        );
    } else if let Some(expected) = &check.gives {
        let (number, symbol) = expected.split_once(' ').unwrap();
        let places = number.split_once('.').map_or(0, |(_, places)| places.len());
        let value = got
            .expect(&place)
            .in_unit(Unit::find(symbol).unwrap())
            .expect(&place);
        assert_eq!(
            format_exact(&value, places.try_into().unwrap()),
            number,
            "{place}"
        );
    } else if let Some(code) = &check.asks {
        let trouble = got.expect_err(&place);
        assert_eq!(trouble.code(), code, "{place}");
        let Trouble::Ambiguous { readings, .. } = trouble else {
            panic!("{place}: not asked back")
        };
        let texts: Vec<_> = readings
            .iter()
            .map(|reading| reading.text().to_owned())
            .collect();
        assert_eq!(texts, check.readings, "{place}");
    } else {
        let trouble = got.expect_err(&place);
        assert_eq!(Some(trouble.code()), check.refuses.as_deref(), "{place}");
        if let Some(unit) = &check.nearest {
            assert!(
                matches!(trouble, Trouble::UnknownUnit { nearest, .. } if nearest == Unit::find(unit)),
                "{place}"
            );
        }
    }
}

/// A quantity that a case states plainly.
fn plain(text: &str) -> Quantity {
    parse(text, &Habits::default(), None).unwrap()
}

fn call(check: &Check) -> String {
    let end = |text: &Option<String>| text.as_deref().map(plain);
    let limit = Limit::written(end(&check.min).as_ref(), end(&check.max).as_ref()).unwrap();
    let take = match check.take.as_deref() {
        Some("mean") => Take::Mean,
        Some("worst") => Take::Worst,
        Some("each") => Take::Each,
        other => panic!("no such rule: {other:?}"),
    };
    let readings: Vec<_> = check.readings.iter().map(|text| measured(text)).collect();
    let side = |side| match side {
        Side::Under => "under",
        Side::Over => "over",
        Side::Either => "either",
    };
    match judge(&limit, &readings, take).unwrap().call {
        Call::Inside => "inside".to_owned(),
        Call::Outside(which) => format!("outside {}", side(which)),
        Call::TooClose(which) => format!("too close {}", side(which)),
    }
}

/// `2 in ± 1/16`, `88.9 mm < s < 101.6 mm`, `101.6 mm < s` or `s < 101.6 mm`.
fn measured(text: &str) -> Measured {
    let parts: Vec<_> = text.split('<').map(str::trim).collect();
    if parts.len() == 1 {
        return Measured::read(&plain(text));
    }
    let at = parts.iter().position(|part| *part == "s").unwrap();
    let end = |text: &str| (plain(text), plain(text).unit());
    let low = (at > 0).then(|| end(parts[0]));
    let high = parts.get(at + 1).map(|part| end(part));
    let unit = low.as_ref().or(high.as_ref()).unwrap().1;
    let strict = |end: (Quantity, Unit)| End {
        value: end.0.in_unit(unit).unwrap(),
        strict: true,
    };
    Measured::between(low.map(strict), high.map(strict), unit)
}
