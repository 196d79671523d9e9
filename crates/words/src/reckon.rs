//! The reckoner in words: why a leaf gives no value, where an input and a formula come from.

use crate::{Told, Words};
use reckon::{Basis, Leaf, Origin, Refusal, Source};

impl Words {
    /// A leaf's name, as its page and every figure that rests on it call it.
    pub fn leaf_name(&self, leaf: &Leaf) -> String {
        self.text(&format!("{}-name", leaf.words_key()))
    }

    /// A sentence of a leaf's page: `name`, `purpose`, `formula`, `valid` or `caution`; none where the leaf has no such sentence.
    pub fn leaf_sentence(&self, leaf: &Leaf, which: &str) -> Option<String> {
        let key = format!("{}-{which}", leaf.words_key());
        self.has(&key).then(|| self.text(&key))
    }

    /// Where a formula comes from, in a line. The title stands as printed, in every language.
    pub fn source(&self, source: &Source) -> String {
        let mut args = vec![
            ("title", source.title.into()),
            ("place", source.place.into()),
        ];
        if source.year == 0 {
            return self.say("source-line-undated", &args);
        }
        args.push(("year", source.year.to_string().into()));
        self.say("source-line", &args)
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
    pub fn refusal(&self, refusal: &Refusal) -> Told {
        let input = refusal.input().unwrap_or_default().replace('_', " ");
        let mut args = vec![("input", input.as_str().into())];
        match refusal {
            Refusal::NoSuchInput { input } => args.push(("name", input.into())),
            Refusal::WrongCount { count, .. } => args.push(("n", (*count).into())),
            Refusal::NotWhole { value, .. } => args.push(("value", value.to_string().into())),
            Refusal::OutOfRange {
                value, low, high, ..
            } => {
                args.extend([
                    ("value", value.to_string().into()),
                    ("low", low.to_string().into()),
                    ("high", high.to_string().into()),
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
