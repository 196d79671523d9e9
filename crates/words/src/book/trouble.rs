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
        use TroubleKind::{BadId, Syntax, UnknownKey, UnknownReference, UnknownTable, UnknownWord};
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
mod tests {
    use super::*;
    use quantity::Habits;
    use yard::book::{Slip, read};

    #[test]
    fn every_code_has_its_sentence() {
        let words = Words::english();
        let slips = Slip::ALL
            .iter()
            .map(|slip| format!("syntax-{}", slip.code()));
        let codes = TroubleKind::CODES
            .iter()
            .filter(|code| **code != "syntax")
            .map(|code| (*code).to_owned());
        let lacking: Vec<_> = slips
            .chain(codes)
            .filter(|code| !words.has(&format!("book-trouble-{code}.next")))
            .collect();
        assert_eq!(lacking, Vec::<String>::new());
    }

    /// Every kind of trouble can be said without a missing argument: a debug build stops where one is.
    #[test]
    fn every_kind_can_be_said() {
        let text = |s: &str| s.to_owned();
        let words = Words::english();
        let kinds = [
            TroubleKind::TooBig { bytes: 9, most: 8 },
            TroubleKind::AndMore { shown: 50 },
            TroubleKind::Format {
                found: None,
                known: 1,
            },
            TroubleKind::Format {
                found: Some(2),
                known: 1,
            },
            TroubleKind::TableForm {
                table: "point",
                right: text("[[point]]"),
            },
            TroubleKind::TableTwice {
                table: text("stop"),
                first_line: 4,
            },
            TroubleKind::MissingTable { table: "machine" },
            TroubleKind::KeyOfOtherKind {
                key: text("min"),
                kind: text("look"),
                belongs_to: text("measure"),
            },
            TroubleKind::TooLong {
                key: text("how"),
                most: 2000,
            },
            TroubleKind::OutOfBounds {
                key: text("count"),
                least: 1,
                most: 200,
            },
            TroubleKind::NotPositive { key: text("bore") },
            TroubleKind::UnknownReference {
                to: "station",
                found: text("rare"),
                nearest: Some(text("rear")),
            },
            TroubleKind::LimitsCrossed {
                min: text("2 in"),
                max: text("1 in"),
            },
            TroubleKind::LimitsDiffer {
                min: text("2 in"),
                max: text("1 L"),
            },
            TroubleKind::NoMethod,
            TroubleKind::MirrorOneSided {
                twin: text("sag-right"),
            },
            TroubleKind::MirrorOtherKind {
                twin: text("sag-right"),
            },
            TroubleKind::MirrorItself,
            TroubleKind::AdjusterGreased,
            TroubleKind::BadUntil {
                found: text("enough"),
            },
            TroubleKind::LapMisses {
                station: text("rear"),
            },
            TroubleKind::LapTwice {
                station: text("rear"),
            },
            TroubleKind::BadPlace,
            TroubleKind::BadStroke,
            TroubleKind::RenameStillThere { old: text("clip") },
            TroubleKind::WeakerThanRule {
                key: "bad-is",
                rule: "pin-clip",
            },
            TroubleKind::LeversNotSaidSafe,
            TroubleKind::RodFillsBore,
            TroubleKind::RamDoesNotOpen,
            TroubleKind::RodInAndOut { ram: text("boom") },
        ];
        let told: Vec<String> = kinds
            .iter()
            .map(|kind| words.trouble_kind(kind))
            .map(|told| format!("{} {}", told.what, told.next))
            .collect();
        insta::assert_snapshot!(told.join("\n"));
    }

    const FAULTY: &str = r#"kingpost = 1
[machine]
id = "Old Digger"
name = "Old digger
kind = "tracked loader-backhoe"
colour = "red"
[[station]]
id = "rear"
name = "Behind"
[[point]]
id = "sag"
station = "raer"
kind = "mesure"
what = "Track sag"
rhythm = "every often"
[danger]
reach = "4.5 metrs"
"#;

    #[test]
    fn a_faulty_book_is_told_line_by_line() {
        let read = read(FAULTY, &Habits::default());
        insta::assert_snapshot!(Words::english().diagnostics(
            &read.troubles,
            "machine.toml",
            FAULTY
        ));
    }

    #[test]
    fn a_long_line_is_cut_round_its_mistake() {
        let text = format!("{}x = wrong{}", " ".repeat(200), "y".repeat(200));
        let trouble = Trouble {
            line: 1,
            column: 205,
            span: 204..209,
            level: Level::Mistake,
            what: TroubleKind::NoMethod,
        };
        let (line, carets) = pointed(&trouble, &text);
        assert_eq!(line.chars().count(), WIDTH);
        let under: String = line
            .chars()
            .zip(carets.chars())
            .filter(|(_, caret)| *caret == '^')
            .map(|(c, _)| c)
            .collect();
        assert_eq!(under, "wrong");
    }

    #[test]
    fn a_span_outside_the_text_does_no_harm() {
        let trouble = Trouble {
            line: 3,
            column: 1,
            span: 40..50,
            level: Level::Warning,
            what: TroubleKind::NoMethod,
        };
        assert_eq!(
            pointed(&trouble, "short\n"),
            (String::new(), "^".to_owned())
        );
    }
}
