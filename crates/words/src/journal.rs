//! The journal in words: one line for each kind of entry, and the questions some of them raise.

use crate::{Arg, Names, Told, Words};
use yard::{
    code::Coded,
    entry::{
        Answered, Body, Correction, Handover, Ruling, RulingSays, Run, RunPart, SignOff, TopUp,
        WalkRound,
    },
    id::FaultRef,
    state::{Asks, Question},
};

type Args<'a> = Vec<(&'static str, Arg<'a>)>;

impl Words {
    /// What an entry says, in a line.
    pub fn entry(&self, body: &Body, names: &dyn Names) -> String {
        match body {
            Body::BookAdopted(adopted) => {
                self.with_part("entry-book-adopted", "why", adopted.why.as_deref(), vec![])
            }
            Body::GapAccepted(gap) => {
                self.say("entry-gap-accepted", &[("why", gap.why.as_str().into())])
            }
            Body::MeterReading(read) => self.say(
                "entry-meter-reading",
                &[("hours", read.shows.text().into())],
            ),
            Body::MeterChange(change) => {
                self.say("entry-meter-change", &[("why", change.why.as_str().into())])
            }
            Body::Ruling(ruling) => self.ruling(ruling),
            Body::WalkRound(round) => self.walk_round(round),
            Body::Run(run) => self.run(run, names),
            Body::Greasing(greasing) => {
                self.say("entry-greasing", &[("n", greasing.fittings.len().into())])
            }
            Body::TopUp(top_up) => self.top_up(top_up, names),
            Body::Handover(handover) => self.handover_line(handover),
            Body::SignOff(sign_off) => self.sign_off(sign_off, names),
            Body::Correction(correction) => self.correction(correction, names),
            Body::Unknown { kind, version } => self.say(
                "entry-unknown",
                &[("kind", kind.into()), ("version", (*version).into())],
            ),
            Body::Unreadable { kind, at } => self.say(
                "entry-unreadable",
                &[("kind", kind.into()), ("place", at.into())],
            ),
            other => self.plain_entry(other, names),
        }
    }

    /// The answers of a walk-round or a greasing, one line each: point and answer.
    pub fn answers<'a>(
        &'a self,
        answers: &'a [Answered],
        names: &'a dyn Names,
    ) -> impl Iterator<Item = (String, String)> + 'a {
        answers.iter().map(move |answered| {
            (
                self.point(&answered.point, names),
                self.answered(answered, names),
            )
        })
    }

    /// A question that only steward or deputy can settle, and how.
    pub fn question(&self, question: &Question, names: &dyn Names) -> Told {
        self.asks(&question.asks, names)
    }

    /// What a question asks, and how to settle it.
    pub fn asks(&self, asks: &Asks, names: &dyn Names) -> Told {
        let hours = |name, hours| (name, self.hours_number(hours).into());
        match asks {
            Asks::MeterFell { from, to } => self.told(
                "question-meter-fell",
                &[hours("from", from), hours("to", to)],
            ),
            Asks::MeterJumped {
                from,
                to,
                passed,
                perhaps,
            } => {
                let perhaps: Vec<String> = perhaps
                    .iter()
                    .map(|hours| self.hours_number(hours))
                    .collect();
                let key = if perhaps.is_empty() {
                    "question-meter-jumped"
                } else {
                    "question-meter-jumped-perhaps"
                };
                let maybe = ("perhaps", self.list_or(&perhaps).into());
                self.told(
                    key,
                    &[
                        hours("from", from),
                        hours("to", to),
                        hours("passed", passed),
                        maybe,
                    ],
                )
            }
            Asks::Unreadable { kind, at } => self.told(
                "question-unreadable",
                &[("kind", kind.into()), ("place", at.into())],
            ),
            Asks::Misfit { point } => self.told(
                "question-misfit",
                &[("point", self.point(point, names).into())],
            ),
            Asks::NoSuchPoint { point } => self.told(
                "question-no-such-point",
                &[("point", point.as_str().into())],
            ),
            Asks::NotEntitled { of } => self.told(
                "question-not-entitled",
                &[("what", self.finding_name(of, names).into())],
            ),
            Asks::CorrectionNotEntitled { .. } => {
                self.told("question-correction-not-entitled", &[])
            }
            Asks::Rivals { .. } => self.told("question-rivals", &[]),
            Asks::BookUnread { mistakes } => {
                self.told("question-book-unread", &[("n", (*mistakes).into())])
            }
            Asks::LeftRunning { engine } => {
                self.told("question-left-running", &[("engine", engine.code().into())])
            }
        }
    }

    /// What a finding is called where it is named: its point, or "a finding".
    pub fn finding_name(&self, finding: &FaultRef, names: &dyn Names) -> String {
        finding
            .point
            .as_ref()
            .map_or_else(|| self.text("a-finding"), |point| self.point(point, names))
    }

    /// How many findings an entry closes; empty where it closes none.
    pub fn closes(&self, body: &Body) -> String {
        let closed = match body {
            Body::Greasing(greasing) => &greasing.mends,
            Body::TopUp(top_up) => &top_up.mends,
            Body::Adjustment(adjustment) => &adjustment.mends,
            Body::Repair(repair) => &repair.mends,
            Body::Release(release) => &release.lifts,
            _ => return String::new(),
        };
        if closed.is_empty() {
            String::new()
        } else {
            self.say("entry-mends", &[("n", closed.len().into())])
        }
    }

    /// The kinds whose line is one message with the writer's own words in it.
    fn plain_entry(&self, body: &Body, names: &dyn Names) -> String {
        let at_point = |point: &Option<_>| point.as_ref().map(|point| self.point(point, names));
        match body {
            Body::Adjustment(a) => self.with_part(
                "entry-adjustment",
                "point",
                at_point(&a.point).as_deref(),
                vec![("what", a.what.as_str().into())],
            ),
            Body::Fault(f) => {
                let args = vec![
                    ("what", f.what.as_str().into()),
                    ("verdict", self.name(f.severity).into()),
                ];
                self.with_part("entry-fault", "point", at_point(&f.point).as_deref(), args)
            }
            Body::Repair(r) => self.with_part(
                "entry-repair",
                "cost",
                r.cost.as_deref(),
                vec![("what", r.what.as_str().into())],
            ),
            Body::StandDown(s) => self.say("entry-stand-down", &[("why", s.why.as_str().into())]),
            Body::Release(r) => self.say("entry-release", &[("what", r.mended.as_str().into())]),
            Body::MovePermit(permit) => {
                let until = self.until(permit.until, names.now(), names.zone());
                let (person, how) = (self.person(permit.who, names), permit.how.as_str());
                self.say(
                    "entry-move-permit",
                    &[
                        ("person", person.into()),
                        ("far", permit.how_far.text().into()),
                        ("until", until.into()),
                        ("how", how.into()),
                    ],
                )
            }
            Body::PartFitted(p) => self.with_part(
                "entry-part-fitted",
                "point",
                at_point(&p.point).as_deref(),
                vec![("what", p.what.as_str().into())],
            ),
            Body::Purchase(p) => self.with_part(
                "entry-purchase",
                "cost",
                p.cost.as_deref(),
                vec![("what", p.what.as_str().into())],
            ),
            Body::Lesson(l) => self.say(
                "entry-lesson",
                &[
                    ("person", self.person(l.person, names).into()),
                    ("what", l.what.as_str().into()),
                ],
            ),
            Body::Note(n) => self.with_part(
                "entry-note",
                "point",
                at_point(&n.point).as_deref(),
                vec![("text", n.text.as_str().into())],
            ),
            Body::Photo(p) => self.with_part("entry-photo", "text", p.text.as_deref(), vec![]),
            Body::RoleGiven(given) => {
                let person = ("person", self.person(given.person, names).into());
                match given.role {
                    Some(role) => self.say(
                        "entry-role-given",
                        &[person, ("role", self.name(role).into())],
                    ),
                    None => self.say("entry-role-taken", &[person]),
                }
            }
            _ => String::new(),
        }
    }

    /// The message, or its part with one argument more, of the part's own name, where that is given.
    fn with_part(
        &self,
        key: &str,
        part: &'static str,
        given: Option<&str>,
        args: Args<'_>,
    ) -> String {
        let Some(given) = given else {
            return self.say(key, &args);
        };
        let mut args = args;
        args.push((part, given.into()));
        self.say(&format!("{key}.{part}"), &args)
    }

    fn ruling(&self, ruling: &Ruling) -> String {
        let says = match ruling.says {
            RulingSays::MeterReplaced { .. } => "meter-replaced",
            RulingSays::MeterRolledOver => "meter-rolled-over",
            RulingSays::ReadingWrong => "reading-wrong",
            RulingSays::ReadingRight => "reading-right",
            RulingSays::Answered => "answered",
        };
        let what = self.text(&format!("ruling-{says}"));
        self.say(
            "entry-ruling",
            &[("what", what.into()), ("why", ruling.why.as_str().into())],
        )
    }

    fn walk_round(&self, round: &WalkRound) -> String {
        let mut args: Args<'_> = vec![("n", round.answers.len().into())];
        let key = match &round.closes {
            Some(evidence) => {
                args.push(("verdict", self.verdict_code(&evidence.verdict).into()));
                "entry-walk-round-closed"
            }
            None => "entry-walk-round",
        };
        let line = self.say(key, &args);
        if round.from_paper {
            self.say("entry-from-paper", &[("line", line.into())])
        } else {
            line
        }
    }

    fn run(&self, run: &Run, names: &dyn Names) -> String {
        let key = match run.part {
            RunPart::Start => "entry-run-start",
            RunPart::During => "entry-run-during",
            RunPart::End => "entry-run-end",
        };
        let mut line = self.with_part(key, "work", run.work.as_deref(), vec![]);
        if let Some(hours) = &run.hours {
            line = self.say(
                "entry-run-hours",
                &[("line", line.into()), ("hours", hours.text().into())],
            );
        }
        if let Some(person) = run.in_sight_of {
            line = self.say(
                "entry-run-in-sight",
                &[
                    ("line", line.into()),
                    ("person", self.person(person, names).into()),
                ],
            );
        }
        if !run.amiss.is_empty() {
            line = self.say(
                "entry-run-amiss",
                &[
                    ("line", line.into()),
                    ("things", self.list(&run.amiss).into()),
                ],
            );
        }
        line
    }

    fn top_up(&self, top_up: &TopUp, names: &dyn Names) -> String {
        let fluid = top_up.fluid.as_ref().map_or_else(
            || self.text("entry-top-up-fluid"),
            |fluid| self.item(fluid, names),
        );
        let args = vec![
            ("part", fluid.into()),
            ("value", top_up.added.text().into()),
        ];
        self.with_part("entry-top-up", "grade", top_up.grade.as_deref(), args)
    }

    fn handover_line(&self, handover: &Handover) -> String {
        let steps = handover.steps.len();
        let done = handover
            .steps
            .iter()
            .filter(|step| step.state != yard::entry::RestState::NotDone)
            .count();
        let what = self.say(
            "entry-handover-steps",
            &[("n", done.into()), ("of", steps.into())],
        );
        let line = self.say(
            "entry-handover",
            &[
                ("what", what.into()),
                ("engine", self.name(handover.engine).into()),
            ],
        );
        match &handover.next {
            Some(next) => self.say(
                "entry-handover-next",
                &[("line", line.into()), ("text", next.into())],
            ),
            None => line,
        }
    }

    fn sign_off(&self, sign_off: &SignOff, names: &dyn Names) -> String {
        let key = match (sign_off.given, sign_off.in_sight) {
            (false, _) => "entry-sign-off-withdrawn",
            (true, true) => "entry-sign-off-in-sight",
            (true, false) => "entry-sign-off-given",
        };
        let mut line = self.say(
            key,
            &[("person", self.person(sign_off.person, names).into())],
        );
        if let Some(until) = sign_off.until {
            line = self.say(
                "entry-sign-off-until",
                &[("line", line.into()), ("until", self.date(until).into())],
            );
        }
        if let Some(limits) = &sign_off.limits {
            line = self.say(
                "entry-sign-off-limits",
                &[("line", line.into()), ("text", limits.into())],
            );
        }
        line
    }

    fn correction(&self, correction: &Correction, names: &dyn Names) -> String {
        let why = ("why", correction.why.as_str().into());
        match &correction.instead {
            Some(body) => self.say(
                "entry-correction-instead",
                &[why, ("line", self.entry(body, names).into())],
            ),
            None => self.say("entry-correction-void", &[why]),
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::NoNames;
    use quantity::{Exact, Habits, Quantity, parse};
    use yard::{
        book::Severity,
        entry::{
            Adjustment, BookAdopted, EngineLeft, Evidence, Fault, GapAccepted, Greasing, Lesson,
            MeterChange, MeterReading, MovePermit, Note, PartFitted, PhotoNote, Purchase, Release,
            Repair, RestAnswer, RestState, RoleGiven, RoundPurpose, StandDown,
        },
        id::{EntryId, ItemId, PersonId, PhotoId, PointId, RoundId},
        people::Role,
    };

    const ID: &str = "01890000-0000-7000-8000-000000000001";

    fn names() -> NoNames {
        NoNames {
            now: "2026-11-14T06:00:00Z".parse().unwrap(),
        }
    }

    fn read(text: &str) -> Quantity {
        parse(text, &Habits::default(), None).unwrap()
    }

    fn entry() -> EntryId {
        ID.parse().unwrap()
    }

    fn person() -> PersonId {
        ID.parse().unwrap()
    }

    fn own(text: &str) -> String {
        text.to_owned()
    }

    fn finding(point: &str) -> FaultRef {
        FaultRef {
            entry: entry(),
            point: PointId::new(point),
        }
    }

    fn round(closes: bool, from_paper: bool) -> Body {
        let evidence = Evidence {
            verdict: own("care"),
            reasons: vec![],
            book: entry(),
            program: own("0.1.0"),
        };
        Body::WalkRound(WalkRound {
            round: RoundId(entry().0),
            book: entry(),
            purpose: RoundPurpose::Start,
            from_paper,
            answers: vec![],
            hours: None,
            closes: closes.then_some(evidence),
        })
    }

    fn run(part: RunPart) -> Body {
        let end = part == RunPart::End;
        Body::Run(Run {
            part,
            hours: end.then(|| read("1236.5 h")),
            work: (part == RunPart::Start).then(|| own("ditch behind the shed")),
            amiss: if end {
                vec![own("gauges 2: oil warm")]
            } else {
                vec![]
            },
            in_sight_of: end.then(person),
        })
    }

    fn signed(given: bool, in_sight: bool) -> Body {
        let until = given.then(|| jiff::civil::date(2027, 3, 1));
        let limits = in_sight.then(|| own("not on slopes"));
        Body::SignOff(SignOff {
            person: person(),
            given,
            until,
            limits,
            in_sight,
        })
    }

    fn about_the_machine() -> Vec<Body> {
        let point = PointId::new("sag-left");
        vec![
            Body::BookAdopted(BookAdopted {
                text: own(""),
                why: None,
            }),
            Body::BookAdopted(BookAdopted {
                text: own(""),
                why: Some(own("found a fitting")),
            }),
            Body::GapAccepted(GapAccepted {
                gap: own("fluid-grade:coolant"),
                why: own("no plate left"),
            }),
            Body::MeterReading(MeterReading {
                shows: read("1234.5 h"),
            }),
            Body::MeterChange(MeterChange {
                old_last: None,
                new_first: read("0 h"),
                unmetered: None,
                why: own("glass broken"),
            }),
            Body::Ruling(Ruling {
                about: entry(),
                says: RulingSays::ReadingWrong,
                why: own("two digits swapped"),
            }),
            round(false, false),
            round(true, true),
            run(RunPart::Start),
            run(RunPart::During),
            run(RunPart::End),
            Body::Greasing(Greasing {
                fittings: vec![],
                mends: vec![finding("boom-foot")],
            }),
            Body::TopUp(TopUp {
                fluid: ItemId::new("engine-oil"),
                added: read("0.5 L"),
                grade: Some(own("15W-40")),
                mends: vec![],
            }),
            Body::TopUp(TopUp {
                fluid: None,
                added: read("0.5 L"),
                grade: None,
                mends: vec![],
            }),
            Body::Adjustment(Adjustment {
                point,
                what: own("track tightened"),
                event: None,
                mends: vec![],
            }),
        ]
    }

    fn about_faults() -> Vec<Body> {
        let point = || PointId::new("horn");
        vec![
            Body::Fault(Fault {
                point: point(),
                what: own("silent"),
                severity: Severity::Care,
            }),
            Body::Fault(Fault {
                point: None,
                what: own("smell of fuel"),
                severity: Severity::StandDown,
            }),
            Body::Repair(Repair {
                mends: vec![finding("horn"), finding("clip")],
                what: own("new wire"),
                cost: Some(own("12 EUR")),
                event: None,
            }),
            Body::StandDown(StandDown {
                why: own("brake fades"),
            }),
            Body::Release(Release {
                lifts: vec![finding("horn")],
                mended: own("horn sounds again"),
            }),
            Body::MovePermit(MovePermit {
                who: person(),
                how_far: read("40 m"),
                until: "2026-11-14T09:30:00Z".parse().unwrap(),
                how: own("to the shed"),
            }),
            Body::PartFitted(PartFitted {
                part: None,
                what: own("split pin 4 mm"),
                point: point(),
                event: None,
            }),
            Body::Purchase(Purchase {
                what: own("grease"),
                cost: None,
            }),
            Body::Note(Note {
                point: None,
                text: own("key hangs in the hut"),
            }),
            Body::Photo(PhotoNote {
                photo: PhotoId(entry().0),
                of: None,
                text: None,
            }),
        ]
    }

    fn about_people_and_the_rest() -> Vec<Body> {
        let steps = [RestState::Proven, RestState::NotDone]
            .map(|state| RestAnswer {
                step: ItemId::new("bucket-down").unwrap(),
                state,
                note: None,
            })
            .to_vec();
        let handover = Handover {
            book: entry(),
            hours: None,
            engine: EngineLeft::Off,
            steps,
            next: Some(own("fuel is low")),
        };
        let correction = |instead: Option<Body>| {
            Body::Correction(Correction {
                of: entry(),
                instead: instead.map(Box::new),
                why: own("wrong machine"),
            })
        };
        vec![
            Body::Handover(handover),
            Body::Lesson(Lesson {
                person: person(),
                what: own("backfilling"),
            }),
            signed(true, true),
            signed(true, false),
            signed(false, false),
            correction(None),
            correction(Some(Body::MeterReading(MeterReading {
                shows: read("1243.5 h"),
            }))),
            Body::RoleGiven(RoleGiven {
                person: person(),
                role: Some(Role::Deputy),
                machines: vec![],
            }),
            Body::RoleGiven(RoleGiven {
                person: person(),
                role: None,
                machines: vec![],
            }),
            Body::Unknown {
                kind: own("weather"),
                version: 3,
            },
            Body::Unreadable {
                kind: own("run"),
                at: own("body.hours"),
            },
        ]
    }

    #[test]
    fn every_kind_of_entry_has_its_line() {
        let words = Words::english();
        let line = |body: &Body| {
            [words.entry(body, &names()), words.closes(body)]
                .into_iter()
                .filter(|s| !s.is_empty())
                .collect::<Vec<_>>()
                .join(" · ")
        };
        let all = [
            about_the_machine(),
            about_faults(),
            about_people_and_the_rest(),
        ]
        .concat();
        let said: Vec<String> = all.iter().map(line).collect();
        insta::assert_snapshot!(said.join("\n"));
    }

    #[test]
    fn every_question_says_how_to_settle_it() {
        let words = Words::english();
        let hours = |n: i64| Exact::from(n);
        let point = || PointId::new("horn").unwrap();
        let questions = [
            Asks::MeterFell {
                from: hours(1240),
                to: hours(3),
            },
            Asks::MeterJumped {
                from: hours(1240),
                to: hours(1420),
                passed: hours(20),
                perhaps: vec![],
            },
            Asks::MeterJumped {
                from: hours(1240),
                to: hours(1420),
                passed: hours(20),
                perhaps: vec![hours(1240), hours(1242)],
            },
            Asks::Unreadable {
                kind: own("run"),
                at: own("body.hours"),
            },
            Asks::Misfit { point: point() },
            Asks::NoSuchPoint { point: point() },
            Asks::NotEntitled {
                of: finding("horn"),
            },
            Asks::CorrectionNotEntitled { of: entry() },
            Asks::Rivals { of: entry() },
            Asks::BookUnread { mistakes: 2 },
            Asks::LeftRunning {
                engine: EngineLeft::Running,
            },
            Asks::LeftRunning {
                engine: EngineLeft::NotSaid,
            },
        ];
        let said: Vec<String> = questions
            .iter()
            .map(|asks| words.asks(asks, &names()))
            .map(|told| format!("{}\n    {}", told.what, told.next))
            .collect();
        insta::assert_snapshot!(said.join("\n"));
    }
}
