//! Quantities in words: both systems side by side, and what is wrong with one that does not read.

use crate::{Arg, Told, Words};
use quantity::{AmbiguityKind, Quantity, Shown, System, Trouble, Unit, show};

impl Words {
    /// A quantity as written, the other system beside it: "3/4 in (19.05 mm)".
    pub fn quantity(&self, quantity: &Quantity) -> String {
        self.quantity_first(quantity, System::Both)
    }

    /// A quantity with the chosen system first.
    pub fn quantity_first(&self, quantity: &Quantity, first: System) -> String {
        match show(quantity, first) {
            Shown {
                first,
                beside: Some(beside),
            } => self.say(
                "in-both",
                &[("value", first.into()), ("other", beside.into())],
            ),
            Shown {
                first,
                beside: None,
            } => first,
        }
    }

    /// How far a level stands from another, in whole millimetres with inches beside it, without a sign.
    pub fn level_shift(&self, millimetres: i32) -> String {
        let off = millimetres.unsigned_abs();
        let metric = format!("{off} {}", Unit::Millimetre.symbol());
        let inches = format!("{:.1} {}", f64::from(off) / 25.4, Unit::Inch.symbol());
        self.say(
            "in-both",
            &[("value", metric.into()), ("other", inches.into())],
        )
    }

    /// What is wrong with a written quantity, and what would be right.
    pub fn quantity_trouble(&self, trouble: &Trouble) -> Told {
        let code = trouble.code();
        let (detail, args): (&str, Vec<(&str, Arg<'_>)>) = match trouble {
            Trouble::NoUnit { possible, .. } if possible.is_empty() => ("-known-none", vec![]),
            Trouble::NoUnit { possible, .. } => {
                ("", vec![("units", self.list_or(&symbols(possible)).into())])
            }
            Trouble::UnknownUnit {
                written,
                nearest: Some(nearest),
                ..
            } => (
                "-near",
                vec![
                    ("written", written.into()),
                    ("nearest", nearest.symbol().into()),
                ],
            ),
            Trouble::UnknownUnit {
                written,
                nearest: None,
                ..
            } => ("", vec![("written", written.into())]),
            Trouble::Ambiguous { readings, why, .. } => return self.ambiguous(readings, *why),
            Trouble::WrongDimension { found, wanted, .. } => (
                "",
                vec![
                    ("found", self.dimension(*found).into()),
                    ("wanted", self.dimension(*wanted).into()),
                ],
            ),
            Trouble::MixedUnits { first, second, .. } => (
                "",
                vec![
                    ("first", first.symbol().into()),
                    ("second", second.symbol().into()),
                ],
            ),
            Trouble::PartOutOfRange { unit, .. } => ("", vec![("unit", unit.symbol().into())]),
            _ => ("", vec![]),
        };
        self.told(&format!("quantity-trouble-{code}{detail}"), &args)
    }

    fn ambiguous(&self, readings: &[Quantity], why: AmbiguityKind) -> Told {
        let texts: Vec<&str> = readings.iter().map(Quantity::text).collect();
        let args = [("readings", self.list_or(&texts).into())];
        let key = format!("quantity-trouble-{}", why.code());
        let next = if readings.len() == 1 {
            "quantity-ask-one"
        } else {
            "quantity-ask-which"
        };
        Told {
            what: self.text(&key),
            next: self.say(next, &args),
        }
    }
}

fn symbols(units: &[Unit]) -> Vec<&'static str> {
    units
        .iter()
        .map(|unit| unit.symbol())
        .filter(|symbol| !symbol.is_empty())
        .collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use quantity::{Dimension, Habits, parse};

    #[test]
    fn every_code_has_its_sentence() {
        let words = Words::english();
        let plain = [
            "empty",
            "not-a-number",
            "no-unit",
            "no-unit-known-none",
            "unknown-unit",
            "unknown-unit-near",
            "wrong-dimension",
            "too-long",
            "zero-denominator",
            "fraction-not-proper",
            "negative-uncertainty",
            "only-plus-minus",
            "two-ends",
            "mixed-units",
            "part-out-of-range",
        ];
        for code in plain {
            assert!(
                words.has(&format!("quantity-trouble-{code}.next")),
                "{code}"
            );
        }
        for kind in AmbiguityKind::ALL {
            assert!(
                words.has(&format!("quantity-trouble-{}", kind.code())),
                "{kind:?}"
            );
        }
    }

    #[test]
    fn both_systems_stand_side_by_side() {
        let words = Words::english();
        let read = |text| parse(text, &Habits::default(), None).unwrap();
        insta::assert_snapshot!(words.quantity(&read("3/4 in")), @"3/4 in (19.05 mm)");
        insta::assert_snapshot!(words.quantity(&read("180 bar")), @"180 bar (2610 psi)");
        insta::assert_snapshot!(words.quantity(&read("50 h")), @"50 h");
        insta::assert_snapshot!(words.quantity_first(&read("3/4 in"), System::Metric), @"19.05 mm (3/4 in)");
    }

    #[test]
    fn troubles_say_what_would_be_right() {
        let words = Words::english();
        let lengths = [
            "",
            "abc",
            "19",
            "19 mn",
            "6.4 ft",
            "1,204 mm",
            "5-10 mm",
            "2 m 3 in",
            "± 2 mm",
            "4 9/4 in",
            "1/0 in",
            "5 ft 14 in",
            "9 bar",
        ];
        let anything = ["19", "19 furlong", "5 gal", "2 qt", "3 pt", "2 ton", "3 oz"];
        let wanted = lengths
            .map(|text| (text, Some(Dimension::Length)))
            .into_iter()
            .chain(anything.map(|text| (text, None)));
        let told: Vec<String> = wanted
            .filter_map(|(text, wanted)| {
                parse(text, &Habits::default(), wanted)
                    .err()
                    .map(|trouble| (text, words.quantity_trouble(&trouble)))
            })
            .map(|(text, told)| format!("{text}\n    {}\n    {}", told.what, told.next))
            .collect();
        insta::assert_snapshot!(told.join("\n"));
    }
}
