//! Findings in a line, and rows that explain: a formula's leaf, how one figure was got.

use crate::{Names, Words};
use reckon::{Figure, Leaf, Value};
use yard::{
    entry::Answered,
    state::{Finding, Found},
};

impl Words {
    /// What a finding says, in a line: point and answer, or the reporter's own words.
    pub fn found(&self, finding: &Finding, names: &dyn Names) -> String {
        match &finding.what {
            Found::Answer(answered) => self.answered_at(answered, names),
            Found::Fault(fault) => fault.what.clone(),
            Found::StoodDown(why) => self.say("found-stood-down", &[("why", why.as_str().into())]),
        }
    }

    /// A point and what was answered there.
    pub fn answered_at(&self, answered: &Answered, names: &dyn Names) -> String {
        let point = self.point(&answered.point, names);
        let answer = self.answered(answered, names);
        self.say(
            "found-at-point",
            &[("point", point.into()), ("answer", answer.into())],
        )
    }

    /// A formula's leaf as rows: formula in words, inputs and outputs with units and bounds, source, caution.
    pub fn leaf_rows(&self, leaf: &Leaf) -> Vec<(String, String)> {
        let mut rows = vec![(self.text("leaf-formula"), self.leaf_formula(leaf))];
        for input in leaf.inputs {
            let args = [
                ("low", plain(input.low).into()),
                ("high", plain(input.high).into()),
                ("unit", input.unit.into()),
            ];
            rows.push((
                self.leaf_input(leaf, input.name),
                self.say("leaf-bounds", &args),
            ));
        }
        for output in leaf.outputs {
            rows.push((
                self.leaf_output(leaf, output.name),
                self.say("leaf-gives", &[("unit", output.unit.into())]),
            ));
        }
        rows.push((self.text("leaf-source"), self.source(&leaf.source)));
        rows.push((self.text("leaf-caution"), self.leaf_caution(leaf)));
        rows
    }

    /// How a figure was got: each input with its value and origin, the results, formula, source.
    pub fn figure_rows(&self, figure: &Figure) -> Vec<(String, String)> {
        let leaf = figure.leaf();
        let unit_in = |name: &str| leaf.input(name).map_or("", |input| input.unit);
        let mut rows: Vec<(String, String)> = Vec::new();
        for input in figure.inputs() {
            let value = self.measured(input.value(), input.half_width(), unit_in(input.name()));
            let args = [
                ("value", value.into()),
                ("origin", self.origin(input.origin()).into()),
            ];
            rows.push((
                self.leaf_input(leaf, input.name()),
                self.say("figure-input", &args),
            ));
        }
        for output in figure.outputs() {
            let unit = leaf
                .outputs
                .iter()
                .find(|o| o.name == output.name)
                .map_or("", |o| o.unit);
            rows.push((
                self.leaf_output(leaf, output.name),
                self.measured(&output.value, output.half_width, unit),
            ));
        }
        rows.push((self.text("leaf-formula"), self.leaf_formula(leaf)));
        rows.push((self.text("leaf-source"), self.source(&leaf.source)));
        rows.push((self.text("leaf-caution"), self.leaf_caution(leaf)));
        rows
    }

    fn measured(&self, value: &Value, half_width: Option<f64>, unit: &str) -> String {
        let number = match value {
            Value::Number(number) => plain(*number),
            Value::List(numbers) => numbers
                .iter()
                .map(|n| plain(*n))
                .collect::<Vec<_>>()
                .join("; "),
        };
        let more = half_width
            .map(|half| format!(" ± {}", plain(half)))
            .unwrap_or_default();
        format!("{number}{more} {unit}").trim_end().to_owned()
    }
}

/// A number with at most six decimals, no trailing zeros: the same digits everywhere.
fn plain(number: f64) -> String {
    let text = format!("{number:.6}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn numbers_are_plain() {
        assert_eq!(plain(820.3), "820.3");
        assert_eq!(plain(0.1 + 0.2), "0.3");
        assert_eq!(plain(-0.0), "0");
    }
}
