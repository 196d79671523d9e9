//! Taking in a machine that came, in words: steps, what keeps them open, the things of each, the first month.

use crate::{Arg, BookList, Named, Names, Words};
use yard::{
    arrival::{ArrivalItem, MonthLine, MonthWhat, Open, QUIET_ROUNDS},
    book::{Book, Without},
    entry::{Arrival, ArrivalStep, FluidNow},
    state::Given,
};

impl Words {
    /// Why a step is taken.
    pub fn arrival_why(&self, step: ArrivalStep) -> String {
        self.text(&format!("{}.why", step.key()))
    }

    /// How it is taken with the machine of this book.
    pub fn arrival_how(&self, step: ArrivalStep, book: &Book) -> String {
        let held = step == ArrivalStep::Stop && book.lacks(Without::Engine);
        self.text(&format!(
            "{}.{}",
            step.key(),
            if held { "held" } else { "how" }
        ))
    }

    /// What keeps a step open, in a sentence.
    pub fn arrival_open(&self, open: &Open) -> String {
        let (key, n, of) = match open {
            Open::NotSaid => ("not-said", 0, 0),
            Open::NoBook => ("no-book", 0, 0),
            Open::StopNotInBook => ("stop-not-in-book", 0, 0),
            Open::NothingNamed => ("nothing-named", 0, 0),
            Open::Left { left, of } => ("left", *left, *of),
            Open::FirstLapFirst => ("first-lap-first", 0, 0),
            Open::CountsDiffer { in_book, counted } => ("counts-differ", *counted, *in_book),
        };
        self.say(
            &format!("arrival-open-{key}"),
            &[("n", n.into()), ("of", of.into())],
        )
    }

    /// What a thing of a step is called.
    pub fn arrival_item(&self, item: &ArrivalItem, names: &dyn Names) -> String {
        match item {
            ArrivalItem::Fluid { fluid, .. } => {
                let name = names.listed(BookList::Fluids, fluid);
                name.unwrap_or_else(|| fluid.to_string())
            }
            ArrivalItem::Pair(pair) => self.point(&pair.left, names),
            ArrivalItem::Measure { point, .. } => self.point(point, names),
            ArrivalItem::Fittings { in_book, .. } => {
                self.say("arrival-fittings-in-book", &[("n", (*in_book).into())])
            }
            ArrivalItem::Weakness { weakness, .. } => {
                let name = names.listed(BookList::Weaknesses, weakness);
                name.unwrap_or_else(|| weakness.to_string())
            }
        }
    }

    /// How it stands with a thing of a step, piece by piece.
    pub fn arrival_item_says(&self, item: &ArrivalItem, names: &dyn Names) -> Vec<String> {
        let t = |key: &str| self.text(key);
        match item {
            ArrivalItem::Fluid { now, .. } => vec![self.fluid_now(*now)],
            ArrivalItem::Pair(pair) => pair
                .differs
                .then(|| t("arrival-pair-differs"))
                .into_iter()
                .collect(),
            ArrivalItem::Measure {
                has_limit, read, ..
            } => {
                let lacks = [
                    (!has_limit, "arrival-measure-no-limit"),
                    (!read, "arrival-measure-unread"),
                    (*has_limit && *read, "arrival-measure-read"),
                ];
                let so = lacks.into_iter().filter(|(so, _)| *so);
                so.map(|(_, key)| t(key)).collect()
            }
            ArrivalItem::Fittings {
                counted, without, ..
            } => {
                let mut all = vec![match counted {
                    Some(n) => self.say("arrival-fittings-counted", &[("n", (*n).into())]),
                    None => t("arrival-fittings-uncounted"),
                }];
                if !without.is_empty() {
                    let joint = |id| {
                        let name = names.listed(BookList::Joints, id);
                        name.unwrap_or_else(|| id.to_string())
                    };
                    let joints: Vec<String> = without.iter().map(joint).collect();
                    let joints = self.list(&joints);
                    all.push(self.say("arrival-fittings-without", &[("joints", joints.into())]));
                }
                all
            }
            ArrivalItem::Weakness { looked, .. } => vec![t(if *looked {
                "arrival-weakness-looked"
            } else {
                "arrival-weakness-open"
            })],
        }
    }

    /// Why a fluid is known, or that it is not.
    pub fn fluid_now(&self, now: Option<FluidNow>) -> String {
        match now {
            Some(now) => self.name(now),
            None => self.text("arrival-fluid-unknown"),
        }
    }

    /// What was last said of one side of a pair.
    pub fn arrival_side(&self, given: Option<&Given>, names: &dyn Names) -> String {
        match given {
            Some(given) => self.answered(&given.answered, names),
            None => self.text("arrival-pair-unsaid"),
        }
    }

    /// A line of the first month.
    pub fn month_line(&self, line: &MonthLine, names: &dyn Names) -> String {
        let done = |key: &str| {
            if line.done {
                format!("{key}.done")
            } else {
                key.to_owned()
            }
        };
        let count = |all: usize| u32::try_from(all).unwrap_or(u32::MAX);
        match &line.what {
            MonthWhat::AdoptBook => self.text("arrival-month-adopt-book"),
            MonthWhat::BlocksStart(gaps) => self.say(
                "arrival-month-blocks-start",
                &[("n", count(gaps.len()).into())],
            ),
            MonthWhat::Fluid(fluid) => {
                let name = names.listed(BookList::Fluids, fluid);
                let name = name.unwrap_or_else(|| fluid.to_string());
                self.say("arrival-month-fluid", &[("name", name.into())])
            }
            MonthWhat::FirstReading(point) => {
                let point = self.point(point, names);
                self.say("arrival-month-first-reading", &[("point", point.into())])
            }
            MonthWhat::Again { of, left } => self.say(
                &done("arrival-month-again"),
                &[("n", count(left.len()).into()), ("of", (*of).into())],
            ),
            MonthWhat::QuietRounds { quiet } => self.say(
                &done("arrival-month-quiet"),
                &[("n", (*quiet).into()), ("of", QUIET_ROUNDS.into())],
            ),
        }
    }

    /// What such an entry says, in a line.
    pub(crate) fn arrival_entry(&self, said: &Arrival, names: &dyn Names) -> String {
        let list = match said.step {
            ArrivalStep::Fluids => BookList::Fluids,
            _ => BookList::Weaknesses,
        };
        let named = |id| names.listed(list, id).unwrap_or_else(|| id.to_string());
        let name = said.about.as_ref().map(named);
        let key = match (said.step, said.fluid, &name, said.count) {
            (ArrivalStep::Fluids, Some(FluidNow::Changed), Some(_), _) => "changed",
            (ArrivalStep::Fluids, Some(FluidNow::Analysed), Some(_), _) => "analysed",
            (_, _, Some(_), _) => "looked",
            (ArrivalStep::FittingsFirst, .., Some(_)) => "first-lap",
            (ArrivalStep::FittingsSecond, .., Some(_)) => "second-lap",
            (step, ..) => yard::code::Coded::code(step),
        };
        let key = format!("entry-arrival-{key}");
        let mut args: Vec<(&'static str, Arg<'_>)> = Vec::new();
        args.extend(name.map(|name| ("name", name.into())));
        args.extend(said.count.map(|n| ("n", n.into())));
        match said.says.as_deref() {
            None => self.say(&key, &args),
            Some(says) => {
                args.push(("says", says.into()));
                self.say(&format!("{key}.says"), &args)
            }
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use yard::id::{ItemId, PointId};

    /// Steps, what keeps them open, the things of each and the month: every sentence there is.
    #[test]
    fn everything_about_an_arrival_is_said() {
        let words = Words::english();
        let names = NoNames {
            now: jiff::Timestamp::UNIX_EPOCH,
        };
        let item = |id| ItemId::new(id).unwrap();
        let point = |id| PointId::new(id).unwrap();
        let mut said: Vec<String> = Vec::new();
        let blank = include_str!("../../../blanks/chainsaw.toml");
        let book = yard::book::read(blank, &quantity::Habits::default())
            .book
            .unwrap();
        let mut drawn = book.clone();
        drawn.machine.without = vec![Without::Engine];
        said.push(words.arrival_how(ArrivalStep::Stop, &drawn));
        let steps: Vec<String> = <ArrivalStep as yard::code::Coded>::ALL
            .iter()
            .map(|step| {
                let (why, how) = (words.arrival_why(*step), words.arrival_how(*step, &book));
                format!("{}: {why} {how}", words.name(*step))
            })
            .collect();
        said.extend(steps);
        let (left, of, in_book, counted) = (2, 7, 22, 23);
        said.extend(
            [
                Open::NotSaid,
                Open::NoBook,
                Open::StopNotInBook,
                Open::NothingNamed,
                Open::Left { left, of },
                Open::FirstLapFirst,
                Open::CountsDiffer { in_book, counted },
            ]
            .map(|open| words.arrival_open(&open)),
        );
        let (fluid, now) = (item("engine-oil"), Some(FluidNow::Changed));
        let (has_limit, read) = (false, false);
        let items = [
            ArrivalItem::Fluid { fluid, now },
            ArrivalItem::Fluid {
                fluid: item("coolant"),
                now: None,
            },
            ArrivalItem::Measure {
                point: point("sag-left"),
                has_limit,
                read,
            },
            ArrivalItem::Fittings {
                in_book: 1,
                counted: Some(2),
                without: vec![item("boom-foot"), item("dipper")],
            },
            ArrivalItem::Weakness {
                weakness: item("cracked-ear"),
                points: vec![],
                looked: false,
            },
        ];
        said.extend(items.iter().map(|item| {
            let says = words.arrival_item_says(item, &names).join(" · ");
            format!("{}: {says}", words.arrival_item(item, &names))
        }));
        let lines = [
            (MonthWhat::AdoptBook, false),
            (MonthWhat::BlocksStart(vec![]), true),
            (MonthWhat::BlocksStart(vec!["no-stop".into()]), false),
            (MonthWhat::Fluid(item("engine-oil")), false),
            (MonthWhat::FirstReading(point("sag-left")), false),
            (
                MonthWhat::Again {
                    of,
                    left: vec![point("nuts")],
                },
                false,
            ),
            (MonthWhat::Again { of, left: vec![] }, true),
            (MonthWhat::QuietRounds { quiet: 3 }, false),
            (MonthWhat::QuietRounds { quiet: 10 }, true),
        ];
        said.extend(lines.map(|(what, done)| {
            let by = jiff::civil::date(2026, 3, 1);
            words.month_line(
                &MonthLine {
                    by,
                    day: 0,
                    what,
                    done,
                },
                &names,
            )
        }));
        insta::assert_snapshot!(said.join("\n"));
    }
}
