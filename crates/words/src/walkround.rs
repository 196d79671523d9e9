//! The walk-round in words: answers, why a point is due, limits, rhythms.

use crate::{Names, Words};
use quantity::Quantity;
use yard::{
    book::{GreaseUntil, GreasingRule, MeasureLimit, Rhythm},
    entry::{Answer, Answered, Reading},
    id::ItemId,
    walkround::Because,
};

impl Words {
    /// An answer with its note, in a line.
    pub fn answered(&self, answered: &Answered, names: &dyn Names) -> String {
        let state = self.answer(&answered.answer, names);
        match &answered.note {
            Some(note) => self.say(
                "answer-with-note",
                &[("state", state.into()), ("note", note.into())],
            ),
            None => state,
        }
    }

    /// An answer in a line.
    pub fn answer(&self, answer: &Answer, names: &dyn Names) -> String {
        match answer {
            Answer::Level {
                reads,
                pose,
                oil,
                looks,
            } => {
                let circumstances: Vec<String> = pose
                    .iter()
                    .map(|pose| self.item(pose, names))
                    .chain(oil.iter().map(|oil| self.name(*oil)))
                    .collect();
                self.level(self.name(*reads), self.name(*looks), &circumstances)
            }
            Answer::Fitting { took, strokes } => match strokes {
                Some(strokes) => self.say(
                    "answer-strokes",
                    &[("state", self.name(*took).into()), ("n", (*strokes).into())],
                ),
                None => self.name(*took),
            },
            Answer::PinClip(state) => self.name(*state),
            Answer::Bolts {
                state: yard::entry::BoltState::Tight,
                ..
            } => self.text("bolts-tight"),
            Answer::Bolts { state, how_many } => self.say(
                "answer-bolts",
                &[
                    ("state", self.name(*state).into()),
                    ("n", (*how_many).into()),
                ],
            ),
            Answer::Measure {
                readings,
                by_method,
                condition_held,
            } => self.measured(readings, *by_method, *condition_held),
            Answer::Leak(None) => self.text("leak-none"),
            Answer::Leak(Some(class)) => self.name(*class),
            Answer::Hose(state) => self.name(*state),
            Answer::Structure(state) => self.name(*state),
            Answer::Function(state) => self.name(*state),
            Answer::Look(state) => self.name(*state),
            Answer::Crank { cranked, bypassed } => self.cranked(cranked, *bypassed),
            Answer::NotChecked(not) => self.say(
                "answer-not-checked",
                &[("because", self.name(not.because).into())],
            ),
        }
    }

    /// One reading of a measure, as written.
    pub fn reading(&self, reading: &Reading) -> String {
        match reading {
            Reading::Value(value) => value.text().to_owned(),
            Reading::Between {
                over: Some(over),
                under: Some(under),
            } => self.say(
                "between-gauges",
                &[("low", over.text().into()), ("high", under.text().into())],
            ),
            Reading::Between {
                over: Some(over),
                under: None,
            } => self.say("over-gauge", &[("low", over.text().into())]),
            Reading::Between {
                over: None,
                under: Some(under),
            } => self.say("under-gauge", &[("high", under.text().into())]),
            Reading::Between {
                over: None,
                under: None,
            } => self.text("reading-not-given"),
        }
    }

    /// A limit with its method, both units: "3/4 in (19.1 mm) to 2 in (50.8 mm), by board along the top".
    pub fn limit(&self, limit: &MeasureLimit) -> String {
        let both = |quantity: &Quantity| self.quantity(quantity);
        let state = match (&limit.min, &limit.max) {
            (Some(min), Some(max)) => self.say(
                "limit-between",
                &[("low", both(min).into()), ("high", both(max).into())],
            ),
            (Some(min), None) => self.say("limit-at-least", &[("low", both(min).into())]),
            (None, Some(max)) => self.say("limit-at-most", &[("high", both(max).into())]),
            (None, None) => self.text("unknown"),
        };
        self.say(
            "limit-by",
            &[
                ("state", state.into()),
                ("name", limit.method.as_str().into()),
            ],
        )
    }

    /// How a fitting is greased; where it is fed through a line, that too.
    pub fn greasing(&self, rule: &GreasingRule) -> String {
        let until = match rule.until {
            GreaseUntil::Shows => self.text("grease-until-shows"),
            GreaseUntil::Strokes(n) => self.say("grease-until-strokes", &[("n", n.into())]),
        };
        if rule.remote {
            format!("{until} {}", self.text("grease-remote"))
        } else {
            until
        }
    }

    /// Why a point is in the round.
    pub fn because(&self, because: &Because, names: &dyn Names) -> String {
        let plain = |key: &str| self.text(&format!("because-{key}"));
        match because {
            Because::EveryStart => plain("every-start"),
            Because::AfterUse => plain("after-use"),
            Because::NeverDone => plain("never-done"),
            Because::Hours { since, every } => self.say(
                "because-hours",
                &[
                    ("since", self.hours_number(since).into()),
                    ("every", self.hours_number(every).into()),
                ],
            ),
            Because::Days { since, every } => self.say(
                "because-days",
                &[("n", (*since).into()), ("every", (*every).into())],
            ),
            Because::ItsDay => plain("its-day"),
            Because::Season => plain("season"),
            Because::Standing { days } => self.say("because-standing", &[("n", (*days).into())]),
            Because::FirstTime => plain("first-time"),
            Because::After { event } => {
                self.say("because-after", &[("name", self.item(event, names).into())])
            }
            Because::OtherOperator => plain("other-operator"),
            Because::StillUnknown => plain("still-unknown"),
            Because::OpenFinding => plain("open-finding"),
            Because::FindIt => plain("find-it"),
            Because::HoursInQuestion => plain("hours-in-question"),
            Because::Whole => plain("whole"),
        }
    }

    /// How often a point comes round: every rhythm it has, whichever comes first.
    pub fn rhythms(&self, rhythms: &[Rhythm], names: &dyn Names) -> String {
        let said: Vec<String> = rhythms
            .iter()
            .map(|rhythm| self.rhythm(rhythm, names))
            .collect();
        self.list_or(&said)
    }

    /// One rhythm.
    pub fn rhythm(&self, rhythm: &Rhythm, names: &dyn Names) -> String {
        match rhythm {
            Rhythm::EveryStart => self.text("rhythm-every-start"),
            Rhythm::AfterUse => self.text("rhythm-after-use"),
            Rhythm::Hours(every) => self.say("rhythm-hours", &[("every", every.text().into())]),
            Rhythm::Days(days) => self.say("rhythm-days", &[("n", (*days).into())]),
            Rhythm::Season => self.text("rhythm-season"),
            Rhythm::Standing(days) => self.say("rhythm-standing", &[("n", (*days).into())]),
            Rhythm::FirstTime => self.text("rhythm-first-time"),
            Rhythm::After {
                event,
                every,
                during,
                then,
            } => {
                let name = self.item(event, names);
                let mut args = vec![
                    ("name", name.into()),
                    ("every", every.text().into()),
                    ("since", during.text().into()),
                ];
                args.extend(then.iter().map(|then| ("days", then.text().into())));
                self.say(
                    if then.is_some() {
                        "rhythm-after-then"
                    } else {
                        "rhythm-after"
                    },
                    &args,
                )
            }
        }
    }

    /// The pose a level or leg asks for, in the book's words; "as found" where it asks for none.
    pub fn pose(&self, pose: Option<&ItemId>, names: &dyn Names) -> String {
        pose.map_or_else(|| self.text("pose-as-found"), |pose| self.item(pose, names))
    }

    fn level(&self, reads: String, looks: String, circumstances: &[String]) -> String {
        let parts = self.list(circumstances);
        let key = if circumstances.is_empty() {
            "answer-level"
        } else {
            "answer-level-in"
        };
        self.say(
            key,
            &[
                ("reads", reads.into()),
                ("looks", looks.into()),
                ("parts", parts.into()),
            ],
        )
    }

    fn measured(
        &self,
        readings: &[Reading],
        by_method: Option<bool>,
        condition_held: Option<bool>,
    ) -> String {
        let said: Vec<String> = readings
            .iter()
            .map(|reading| self.reading(reading))
            .collect();
        let said = self.list(&said);
        match (by_method, condition_held) {
            (Some(false), _) => self.say("answer-other-method", &[("readings", said.into())]),
            (_, Some(false)) => self.say("answer-condition-not-held", &[("readings", said.into())]),
            _ => said,
        }
    }

    fn cranked(&self, cranked: &[Option<bool>], bypassed: bool) -> String {
        let each = cranked.iter().map(|turned| match turned {
            Some(true) => self.text("crank-turned"),
            Some(false) => self.text("crank-did-not"),
            None => self.text("crank-not-tried"),
        });
        let bypassed = bypassed.then(|| self.text("crank-bypassed"));
        self.list(&bypassed.into_iter().chain(each).collect::<Vec<_>>())
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use quantity::{Exact, Habits, Take, parse};
    use yard::{
        book::{LeakClass, OilHeat},
        entry::{
            BoltState, ClipState, FluidLooks, FunctionState, GreaseTook, Hindrance, HoseState,
            LevelReads, LookState, NotChecked, StructureState,
        },
        id::PointId,
    };

    fn names() -> NoNames {
        NoNames {
            now: "2026-11-14T06:00:00Z".parse().unwrap(),
        }
    }

    fn read(text: &str) -> Quantity {
        parse(text, &Habits::default(), None).unwrap()
    }

    fn item(id: &str) -> ItemId {
        ItemId::new(id).unwrap()
    }

    fn measured(
        readings: Vec<Reading>,
        by_method: Option<bool>,
        condition_held: Option<bool>,
    ) -> Answer {
        Answer::Measure {
            readings,
            by_method,
            condition_held,
        }
    }

    #[test]
    fn answers_in_a_line() {
        let value = |text| Reading::Value(read(text));
        let between = |over: Option<&str>, under: Option<&str>| Reading::Between {
            over: over.map(read),
            under: under.map(read),
        };
        let answers = [
            Answer::Level {
                reads: LevelReads::Below,
                pose: Some(item("all-down")),
                oil: Some(OilHeat::Cold),
                looks: FluidLooks::Clean,
            },
            Answer::Level {
                reads: LevelReads::TooFull,
                pose: None,
                oil: None,
                looks: FluidLooks::Milky,
            },
            Answer::Fitting {
                took: GreaseTook::Seen,
                strokes: Some(4),
            },
            Answer::Fitting {
                took: GreaseTook::Refused,
                strokes: None,
            },
            Answer::PinClip(ClipState::Missing),
            Answer::Bolts {
                state: BoltState::Tight,
                how_many: 0,
            },
            Answer::Bolts {
                state: BoltState::Loose,
                how_many: 2,
            },
            measured(
                vec![value("2 1/8 in"), value("2 in ± 1/16 in")],
                Some(true),
                None,
            ),
            measured(vec![value("54 mm")], Some(false), None),
            measured(
                vec![
                    between(Some("1 in"), Some("2 in")),
                    between(Some("1 in"), None),
                ],
                None,
                Some(false),
            ),
            Answer::Leak(None),
            Answer::Leak(Some(LeakClass::III)),
            Answer::Hose(HoseState::Bulged),
            Answer::Structure(StructureState::RustInCrack),
            Answer::Function(FunctionState::Weak),
            Answer::Look(LookState::Worn),
            Answer::Crank {
                cranked: vec![Some(true), Some(false), None],
                bypassed: true,
            },
            Answer::NotChecked(NotChecked {
                because: Hindrance::NoTool,
            }),
        ];
        let words = Words::english();
        let mut said: Vec<String> = answers
            .iter()
            .map(|answer| words.answer(answer, &names()))
            .collect();
        let point = PointId::new("horn").unwrap();
        let noted = Answered {
            point,
            answer: Answer::Function(FunctionState::Fails),
            note: Some("clicks only".into()),
            photos: vec![],
        };
        said.push(words.answered(&noted, &names()));
        insta::assert_snapshot!(said.join("\n"));
    }

    #[test]
    fn why_a_point_is_due() {
        let hours = |n: i64| Exact::from(n);
        let whys = [
            Because::EveryStart,
            Because::AfterUse,
            Because::NeverDone,
            Because::Hours {
                since: hours(52),
                every: hours(50),
            },
            Because::Days { since: 8, every: 7 },
            Because::ItsDay,
            Because::Season,
            Because::Standing { days: 31 },
            Because::FirstTime,
            Because::After {
                event: item("track-tensioned"),
            },
            Because::OtherOperator,
            Because::StillUnknown,
            Because::OpenFinding,
            Because::FindIt,
            Because::HoursInQuestion,
            Because::Whole,
        ];
        let words = Words::english();
        let said: Vec<String> = whys
            .iter()
            .map(|why| words.because(why, &names()))
            .collect();
        insta::assert_snapshot!(said.join("\n"));
    }

    #[test]
    fn rhythms_and_limits() {
        let words = Words::english();
        let after = |then: Option<&str>| Rhythm::After {
            event: item("bolts-tightened"),
            every: read("5 h"),
            during: read("20 h"),
            then: then.map(read),
        };
        let limit = |min: Option<&str>, max: Option<&str>| MeasureLimit {
            min: min.map(read),
            max: max.map(read),
            method: "board along the top".into(),
            readings: vec!["middle".into()],
            take: Take::Worst,
            usual_plus_minus: None,
            condition: None,
        };
        let said = [
            words.rhythms(&[Rhythm::Hours(read("10 h")), Rhythm::Days(7)], &names()),
            words.rhythms(&[Rhythm::EveryStart], &names()),
            words.rhythms(
                &[after(Some("50 h")), after(None), Rhythm::Standing(30)],
                &names(),
            ),
            words.limit(&limit(Some("3/4 in"), Some("2 in"))),
            words.limit(&limit(None, Some("180 bar"))),
            words.limit(&limit(Some("3/4 in"), None)),
            words.greasing(&GreasingRule {
                joint: None,
                remote: true,
                until: GreaseUntil::Shows,
                refused_runs: None,
            }),
            words.greasing(&GreasingRule {
                joint: None,
                remote: false,
                until: GreaseUntil::Strokes(3),
                refused_runs: None,
            }),
        ];
        insta::assert_snapshot!(said.join("\n"));
    }
}
