//! What is wrong with a machine book, told at the terminal or on a page.

use crate::{Arg, Told, Words};
use yard::book::{Level, Trouble, TroubleKind};

/// Characters of a line that are shown round a mistake.
const WIDTH: usize = 96;

impl Words {
    /// What is wrong, and what would be right.
    pub fn trouble(&self, trouble: &Trouble) -> Told {
        self.trouble_kind(&trouble.what)
    }

    /// Troubles as printed at a terminal: each with its place, its line, a caret line, what is wrong and what would be right;
    /// at the end how many there are. `file` is shown as given.
    pub fn diagnostics(&self, troubles: &[Trouble], file: &str, text: &str) -> String {
        let told: String = troubles
            .iter()
            .map(|trouble| self.diagnostic(trouble, file, text) + "\n")
            .collect();
        format!("{told}{}\n", self.trouble_count(troubles))
    }

    /// One trouble as printed at a terminal.
    pub fn diagnostic(&self, trouble: &Trouble, file: &str, text: &str) -> String {
        let level = self.text(match trouble.level {
            Level::Mistake => "book-level-mistake",
            Level::Warning => "book-level-warning",
        });
        let Told { what, next } = self.trouble(trouble);
        let (line, carets) = pointed(trouble, text);
        let (place, column) = (trouble.line, trouble.column);
        format!("{file}:{place}:{column} · {level}\n    {line}\n    {carets}\n  {what}\n  {next}\n")
    }

    /// How many mistakes and warnings there are, and whether the book can be adopted.
    pub fn trouble_count(&self, troubles: &[Trouble]) -> String {
        let mistakes = troubles
            .iter()
            .filter(|trouble| trouble.level == Level::Mistake)
            .count();
        let warnings = troubles.len() - mistakes;
        let counted = |key, n: usize| self.say(key, &[("n", n.into())]);
        match (mistakes, warnings) {
            (0, 0) => self.text("book-count-none"),
            (_, 0) => counted("book-count-mistakes", mistakes),
            (0, _) => counted("book-count-warnings", warnings),
            _ => {
                let besides = counted("book-count-more-warnings", warnings);
                let mistakes = counted("book-count-mistakes", mistakes);
                self.say(
                    "book-count-both",
                    &[("mistakes", mistakes.into()), ("warnings", besides.into())],
                )
            }
        }
    }

    fn trouble_kind(&self, kind: &TroubleKind) -> Told {
        let code = match kind {
            TroubleKind::Syntax { slip, .. } => format!("syntax-{}", slip.code()),
            TroubleKind::Format { found: Some(_), .. } => "format-unknown".to_owned(),
            other => other.code().to_owned(),
        };
        let Told { what, next } =
            self.told(&format!("book-trouble-{code}"), &self.trouble_args(kind));
        Told {
            what,
            next: self.better_next(kind, next),
        }
    }

    /// Where the book's reader has a guess, the guess stands first, or alone where nothing else would help.
    fn better_next(&self, kind: &TroubleKind, next: String) -> String {
        use TroubleKind::{
            BadId, PinNotKnown, Syntax, UnknownKey, UnknownReference, UnknownTable, UnknownWord,
        };
        let meant =
            |nearest: &String| self.say("book-did-you-mean", &[("nearest", nearest.into())]);
        let so = |right: &String| self.say("book-right-so", &[("right", right.into())]);
        match kind {
            UnknownTable {
                nearest: Some(nearest),
                ..
            }
            | UnknownKey {
                nearest: Some(nearest),
                ..
            } => meant(nearest),
            UnknownReference {
                nearest: Some(nearest),
                ..
            } => meant(nearest),
            UnknownWord {
                nearest: Some(nearest),
                ..
            }
            | PinNotKnown {
                nearest: Some(nearest),
                ..
            } => format!("{} {next}", meant(nearest)),
            BadId {
                right: Some(right), ..
            }
            | Syntax {
                right: Some(right), ..
            } => format!("{next} {}", so(right)),
            _ => next,
        }
    }

    /// The arguments a kind's sentence may use, by the names of the kind's own fields.
    fn trouble_args<'a>(&self, kind: &'a TroubleKind) -> Vec<(&'static str, Arg<'a>)> {
        use TroubleKind as K;
        match kind {
            K::TooBig { most, .. } => vec![("most", (*most).into())],
            K::AndMore { shown } => vec![("shown", (*shown).into())],
            K::Format { found, known } => {
                vec![
                    ("found", found.unwrap_or_default().into()),
                    ("known", (*known).into()),
                ]
            }
            K::UnknownTable { found, .. }
            | K::BadId { found, .. }
            | K::BadRhythm { found }
            | K::BadUntil { found } => {
                vec![("found", found.into())]
            }
            K::TableForm { table, right } => {
                vec![("table", (*table).into()), ("right", right.into())]
            }
            K::TableTwice { table, first_line } => vec![
                ("table", table.into()),
                ("first-line", (*first_line).into()),
            ],
            K::MissingTable { table } => vec![("table", (*table).into())],
            K::UnknownKey { table, found, .. } => {
                vec![("table", (*table).into()), ("found", found.into())]
            }
            K::KeyTwice { key, first_line } => {
                vec![("key", key.into()), ("first-line", (*first_line).into())]
            }
            K::KeyOfOtherKind {
                key,
                kind,
                belongs_to,
            } => {
                vec![
                    ("key", key.into()),
                    ("kind", kind.into()),
                    ("belongs-to", belongs_to.into()),
                ]
            }
            K::MissingKey { table, key } => vec![("table", (*table).into()), ("key", key.into())],
            K::WrongType { key, wanted, found } => {
                let shape = |code: &str| self.text(&format!("book-shape-{code}"));
                vec![
                    ("key", key.into()),
                    ("wanted", shape(wanted).into()),
                    ("found", shape(found).into()),
                ]
            }
            K::Nothing { key } | K::NotPositive { key } => vec![("key", key.into())],
            K::TooLong { key, most } => vec![("key", key.into()), ("most", (*most).into())],
            K::OutOfBounds { key, least, most } => {
                vec![
                    ("key", key.into()),
                    ("least", (*least).into()),
                    ("most", (*most).into()),
                ]
            }
            K::UnknownWord {
                key,
                found,
                allowed,
                ..
            } => {
                vec![
                    ("key", key.into()),
                    ("found", found.into()),
                    ("allowed", allowed.into()),
                ]
            }
            K::IdTwice { id, first_line } => {
                vec![("id", id.into()), ("first-line", (*first_line).into())]
            }
            K::UnknownReference { to, found, .. } => {
                vec![
                    ("to", self.text(&format!("book-thing-{to}")).into()),
                    ("found", found.into()),
                ]
            }
            K::Quantity { key, trouble } => {
                let told = self.quantity_trouble(trouble);
                vec![
                    ("key", key.into()),
                    ("what", told.what.into()),
                    ("next", told.next.into()),
                ]
            }
            K::LimitsCrossed { min, max } | K::LimitsDiffer { min, max } => {
                vec![("min", min.into()), ("max", max.into())]
            }
            K::MirrorOneSided { twin } | K::MirrorOtherKind { twin } => vec![("twin", twin.into())],
            K::LapMisses { station } | K::LapTwice { station } => vec![("station", station.into())],
            K::RenameStillThere { old } => vec![("old", old.into())],
            K::WeakerThanRule { key, rule } => {
                vec![("key", (*key).into()), ("rule", (*rule).into())]
            }
            K::RodInAndOut { ram } => vec![("ram", ram.into())],
            K::LimitWithPlusMinus { key, limit } => {
                vec![("key", (*key).into()), ("found", limit.into())]
            }
            K::TorqueUnlikely {
                torque,
                thread,
                grade,
                low,
                high,
            } => vec![
                ("torque", torque.into()),
                ("thread", thread.into()),
                ("grade", grade.into()),
                ("low", (*low).into()),
                ("high", (*high).into()),
            ],
            K::BadDate { found } | K::MarkOfOtherAttachment { found } => {
                vec![("found", found.into())]
            }
            K::PinOnOtherPart { pin, right } => {
                vec![("pin", pin.into()), ("right", (*right).into())]
            }
            K::PinOffAxis { pin } => vec![("pin", pin.into())],
            K::PinNotKnown { found, known, .. } => {
                vec![("found", found.into()), ("known", known.into())]
            }
            K::MassPlace { of, wanted } => vec![("of", of.into()), ("wanted", (*wanted).into())],
            K::LengthsCount { least, most } => {
                vec![("least", (*least).into()), ("most", (*most).into())]
            }
            K::Twice { word, first_line } => {
                vec![("word", word.into()), ("first-line", (*first_line).into())]
            }
            K::ReadingTwice { name } => vec![("found", name.into())],
            _ => vec![],
        }
    }
}

/// The line a trouble is on and the carets under its span, both cut to the part that matters. Tabs count as one space.
fn pointed(trouble: &Trouble, text: &str) -> (String, String) {
    let start = trouble.span.start.min(text.len());
    let from = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let to = text[start..].find('\n').map_or(text.len(), |at| start + at);
    let line: Vec<char> = text[from..to]
        .trim_end()
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let first = text[from..start].chars().count().min(line.len());
    let inside = &text[start..trouble.span.end.clamp(start, to)];
    let carets = inside.trim_end().chars().count().max(1);
    let cut = first.saturating_sub(WIDTH / 2);
    let shown: String = line.iter().skip(cut).take(WIDTH).collect();
    let carets = carets.min(WIDTH - (first - cut));
    (shown, " ".repeat(first - cut) + &"^".repeat(carets))
}

#[cfg(test)]
mod tests;
