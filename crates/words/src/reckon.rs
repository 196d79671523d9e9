//! The reckoner in words: why a leaf gives no value, where an input and a formula come from.

use crate::{Arg, Told, Words};
use reckon::{Basis, Leaf, Origin, Refusal, Source};

impl Words {
    /// A leaf's name, as its page and every figure that rests on it call it.
    pub fn leaf_name(&self, leaf: &Leaf) -> String {
        self.text(&leaf.words_key())
    }

    /// What a leaf is for.
    pub fn leaf_purpose(&self, leaf: &Leaf) -> String {
        self.text(&format!("{}.purpose", leaf.words_key()))
    }

    /// A leaf's formula in words.
    pub fn leaf_formula(&self, leaf: &Leaf) -> String {
        self.text(&format!("{}.formula", leaf.words_key()))
    }

    /// What to mind with a leaf.
    pub fn leaf_caution(&self, leaf: &Leaf) -> String {
        self.text(&format!("{}.caution", leaf.words_key()))
    }

    /// What an input of a leaf is; the bare name where the leaf has no such input.
    pub fn leaf_input(&self, leaf: &Leaf, input: &str) -> String {
        self.leaf_part(leaf, "in", input)
    }

    /// What an output of a leaf is; the bare name where the leaf has no such output.
    pub fn leaf_output(&self, leaf: &Leaf, output: &str) -> String {
        self.leaf_part(leaf, "out", output)
    }

    fn leaf_part(&self, leaf: &Leaf, side: &str, name: &str) -> String {
        let key = format!("{}.{side}-{}", leaf.words_key(), name.replace('_', "-"));
        if self.has(&key) {
            self.text(&key)
        } else {
            name.replace('_', " ")
        }
    }

    /// Where a formula comes from, in a line. The title stands as printed, in every language.
    pub fn source(&self, source: &Source) -> String {
        let mut parts = vec![source.title.to_owned()];
        if source.year != 0 {
            parts.push(source.year.to_string());
        }
        if !source.place.is_empty() {
            parts.push(source.place.to_owned());
        }
        parts.join(", ")
    }

    /// How well a source is known.
    pub fn basis(&self, basis: Basis) -> String {
        self.text(&format!("basis-{}", basis.code().replace(' ', "-")))
    }

    /// Where an input of a figure was taken from.
    pub fn origin(&self, origin: &Origin) -> String {
        match origin {
            Origin::Entry(_) => self.text("origin-entry"),
            Origin::BookLine { line, .. } => {
                self.say("origin-book-line", &[("line", (*line).into())])
            }
            Origin::Default => self.text("origin-default"),
            Origin::Setting => self.text("origin-setting"),
            Origin::Figure(figure) => self.say(
                "origin-figure",
                &[("leaf", self.leaf_name(figure.leaf()).into())],
            ),
            Origin::Given => self.text("origin-given"),
        }
    }

    /// Why a leaf gives no value, and what would be right.
    pub fn refusal(&self, leaf: &Leaf, refusal: &Refusal) -> Told {
        let input = self.leaf_input(leaf, refusal.input().unwrap_or_default());
        let mut args = vec![("input", input.as_str().into())];
        match refusal {
            Refusal::NoSuchInput { input } => args.push(("name", input.into())),
            Refusal::WrongUnit { wanted, .. } => args.push(("unit", (*wanted).into())),
            Refusal::WrongCount { count, .. } => args.push(("n", (*count).into())),
            Refusal::NotWhole { value, .. } => args.push(("value", value.to_string().into())),
            Refusal::OutOfRange {
                value, low, high, ..
            } => {
                let unit = refusal
                    .input()
                    .and_then(|name| leaf.input(name))
                    .map_or("", |input| input.unit);
                args.extend([
                    ("value", with_unit(*value, unit)),
                    ("low", with_unit(*low, unit)),
                    ("high", with_unit(*high, unit)),
                ]);
            }
            Refusal::Contradiction { what } => args.push(("name", (*what).into())),
            _ => {}
        }
        let own = format!("refusal-{}", refusal.code());
        self.told(
            if self.has(&own) {
                &own
            } else {
                "refusal-contradiction"
            },
            &args,
        )
    }
}

/// A number with the unit its leaf declares; alone where that is "1" or "any".
fn with_unit(value: f64, unit: &str) -> Arg<'static> {
    if matches!(unit, "" | "1" | "any") {
        value.to_string().into()
    } else {
        format!("{value} {unit}").into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use reckon::catalogue::LEAVES;

    #[test]
    fn every_leaf_has_all_its_sentences() {
        let words = Words::english();
        let mut lacking = Vec::new();
        for leaf in LEAVES {
            let key = leaf.words_key();
            let hyphens = |name: &str| name.replace('_', "-");
            let mut keys = vec![
                key.clone(),
                format!("{key}.purpose"),
                format!("{key}.formula"),
                format!("{key}.caution"),
            ];
            keys.extend(
                leaf.inputs
                    .iter()
                    .map(|input| format!("{key}.in-{}", hyphens(input.name))),
            );
            keys.extend(
                leaf.outputs
                    .iter()
                    .map(|output| format!("{key}.out-{}", hyphens(output.name))),
            );
            lacking.extend(keys.into_iter().filter(|key| !words.has(key)));
        }
        assert_eq!(lacking, Vec::<String>::new());
    }

    #[test]
    fn refusals_name_the_input_in_words() {
        let words = Words::english();
        let leaf = reckon::find("machine.conformity_probability").unwrap();
        let refused = |refusal: &Refusal| {
            let told = words.refusal(leaf, refusal);
            format!("{}\n    {}", told.what, told.next)
        };
        let input = "standard_uncertainty";
        let said = [
            refused(&Refusal::NotKnown { input }),
            refused(&Refusal::NoSuchInput {
                input: "breadth".into(),
            }),
            refused(&Refusal::Twice { input }),
            refused(&Refusal::WrongShape { input }),
            refused(&Refusal::WrongCount { input, count: 3 }),
            refused(&Refusal::NotANumber { input }),
            refused(&Refusal::NotWhole { input, value: 1.5 }),
            refused(&Refusal::OutOfRange {
                input,
                value: -1.0,
                low: 0.0,
                high: 9.0,
            }),
            refused(&Refusal::Contradiction {
                what: "limits-crossed",
            }),
            refused(&Refusal::Contradiction { what: "moon-phase" }),
            refused(&Refusal::NoResult {
                output: "probability",
            }),
        ];
        insta::assert_snapshot!(said.join("\n"));
    }

    #[test]
    fn sources_and_origins() {
        let words = Words::english();
        let source = |year| Source {
            title: "A handbook",
            year,
            place: "table 3",
            basis: Basis::Memory,
        };
        assert_eq!(words.source(&source(1994)), "A handbook, 1994, table 3");
        assert_eq!(words.source(&source(0)), "A handbook, table 3");
        let nowhere = Source {
            place: "",
            ..source(0)
        };
        assert_eq!(words.source(&nowhere), "A handbook");
        assert_eq!(
            words.basis(Basis::CommonPractice),
            "common practice, no source"
        );
        assert_eq!(
            words.origin(&Origin::BookLine {
                revision: 2,
                line: 40
            }),
            "from line 40 of the machine book"
        );
    }
}
