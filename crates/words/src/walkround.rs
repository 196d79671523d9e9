//! The walk-round in words: answers, why a point is due, limits, rhythms.

use crate::{Names, Words};
use quantity::Quantity;
use yard::{
    book::{GreaseUntil, GreasingRule, MeasureLimit, Point, PointKind, Rhythm, Safeguard},
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
            } => self.readings(readings, *by_method, *condition_held),
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

    /// What a point's answer is held against, in a line: the limit, the mark with its pose, the class of leak, how it is greased.
    /// None where the question says it all.
    pub fn point_limit(&self, point: &Point, names: &dyn Names) -> Option<String> {
        match &point.kind {
            PointKind::Measure(limit) if limit.min.is_some() || limit.max.is_some() => {
                Some(self.limit(limit))
            }
            PointKind::Level(mark) => {
                let key = if mark.upper { "mark-upper" } else { "mark" };
                let pose = self.pose(mark.pose.as_ref(), names);
                Some(self.say(
                    key,
                    &[("pose", pose.into()), ("oil", self.name(mark.oil).into())],
                ))
            }
            PointKind::Leak { out_from, .. } => {
                Some(self.say("leak-out-from", &[("state", self.name(*out_from).into())]))
            }
            PointKind::Fitting(rule) => Some(self.greasing(rule)),
            _ => None,
        }
    }

    /// A safeguard, as an instruction.
    pub fn safeguard(&self, safeguard: Safeguard) -> String {
        self.name(safeguard)
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
            Because::OtherSide { of } => self.say(
                "because-other-side",
                &[("point", self.point(of, names).into())],
            ),
            Because::NotReaching => plain("not-reaching"),
            Because::Standing { days } => self.say("because-standing", &[("n", (*days).into())]),
            Because::FirstTime => plain("first-time"),
            Because::After { event } => self.say(
                "because-after",
                &[("name", self.event(event, names).into())],
            ),
            Because::OtherOperator => plain("other-operator"),
            Because::StillUnknown => plain("still-unknown"),
            Because::OpenFinding => plain("open-finding"),
            Because::FindIt => plain("find-it"),
            Because::HoursInQuestion => plain("hours-in-question"),
            Because::Whole => plain("whole"),
            Because::InThisRound => plain("in-this-round"),
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

    /// What happened, after which something is looked at more often. A book names it by its id alone, so that is said as words.
    pub fn event(&self, event: &ItemId, names: &dyn Names) -> String {
        let named = names.item(event);
        named.unwrap_or_else(|| event.as_str().replace('-', " "))
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
                let name = self.event(event, names);
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

    fn readings(
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
mod tests;
