//! One line for each kind of entry, and what it says in detail.

use crate::{Arg, BookList, Names, Words};
use yard::{
    code::Coded,
    entry::{
        Access, Answered, Body, Correction, Entry, Handover, Ruling, RulingSays, Run, RunPart,
        SignOff, Told, TopUp, WalkRound,
    },
    id::FaultRef,
};

type Args<'a> = Vec<(&'static str, Arg<'a>)>;

impl Words {
    /// What an entry says, in a line, with how many findings it closes.
    pub fn entry_line(&self, entry: &Entry, names: &dyn Names) -> String {
        let line = self.entry(&entry.body, names);
        match self.closes(&entry.body) {
            closes if closes.is_empty() => line,
            closes => self.say(
                "entry-closing",
                &[("line", line.into()), ("what", closes.into())],
            ),
        }
    }

    /// What stands behind the line, a line each: answers, rest steps, findings closed, what the next person must know.
    pub fn entry_details(&self, entry: &Entry, names: &dyn Names) -> Vec<String> {
        let closed = |closed: &[FaultRef]| {
            let closes = |of: &FaultRef| {
                self.say(
                    "detail-closes",
                    &[("what", self.finding_name(of, names).into())],
                )
            };
            closed.iter().map(closes).collect::<Vec<_>>()
        };
        match &entry.body {
            Body::WalkRound(round) => self.answer_lines(&round.answers, names),
            Body::Greasing(greasing) => [
                self.answer_lines(&greasing.fittings, names),
                closed(&greasing.mends),
            ]
            .concat(),
            Body::Handover(handover) => self.rest_lines(handover, names),
            Body::TopUp(top_up) => closed(&top_up.mends),
            Body::Adjustment(adjustment) => closed(&adjustment.mends),
            Body::Repair(repair) => closed(&repair.mends),
            Body::Release(release) => closed(&release.lifts),
            _ => Vec::new(),
        }
    }

    /// What an entry's body says, in a line.
    pub fn entry(&self, body: &Body, names: &dyn Names) -> String {
        match body {
            Body::BookAdopted(adopted) => {
                self.with_part("entry-book-adopted", "why", adopted.why.as_deref(), vec![])
            }
            Body::GapAccepted(gap) => {
                self.say("entry-gap-accepted", &[("why", gap.why.as_str().into())])
            }
            Body::MeterReading(read) => self.meter_reading(read, names),
            Body::MeterChange(change) => self.meter_change(change, names),
            Body::MeterBroken(broken) => self.meter_broken(broken, names),
            Body::HoursTold(told) => {
                self.say("entry-hours-told", &[("hours", told.ran.text().into())])
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
            Body::Access(access) => self.access(access, names),
            other => self.plain_entry(other, names),
        }
    }

    fn answer_lines(&self, answers: &[Answered], names: &dyn Names) -> Vec<String> {
        let line = |answered: &Answered| {
            let (point, answer) = (
                self.point(&answered.point, names),
                self.answered(answered, names),
            );
            self.say(
                "found-at-point",
                &[("point", point.into()), ("answer", answer.into())],
            )
        };
        answers.iter().map(line).collect()
    }

    fn rest_lines(&self, handover: &Handover, names: &dyn Names) -> Vec<String> {
        let line = |step: &yard::entry::RestAnswer| {
            let state = self.name(step.state);
            let answer = match &step.note {
                Some(note) => self.say(
                    "answer-with-note",
                    &[("state", state.into()), ("note", note.into())],
                ),
                None => state,
            };
            self.say(
                "found-at-point",
                &[
                    (
                        "point",
                        self.listed(BookList::Rest, &step.step, names).into(),
                    ),
                    ("answer", answer.into()),
                ],
            )
        };
        handover.steps.iter().map(line).collect()
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
                let line =
                    self.with_part("entry-fault", "point", at_point(&f.point).as_deref(), args);
                match f.told {
                    None => line,
                    Some(Told::Named) => format!("{line} ({})", self.text("fault-told-named")),
                    Some(Told::Unnamed) => format!("{line} ({})", self.text("fault-told-unnamed")),
                }
            }
            Body::Repair(r) => {
                let what = match &r.cause {
                    None => r.what.clone(),
                    Some(cause) => format!("{} · {}", r.what, self.cause(cause)),
                };
                let args = vec![("what", what.into())];
                self.with_part("entry-repair", "cost", r.cost.as_deref(), args)
            }
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
            Body::Photo(p) => {
                let (key, args) = match at_point(&p.point) {
                    Some(point) => ("entry-photo-at", vec![("what", point.into())]),
                    None => ("entry-photo", vec![]),
                };
                self.with_part(key, "text", p.text.as_deref(), args)
            }
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
            other => self.kept_entry(other, names),
        }
    }

    /// The message, or its part with one argument more, of the part's own name, where that is given.
    pub(super) fn with_part(
        &self,
        key: &str,
        part: &'static str,
        given: Option<&str>,
        args: Args<'_>,
    ) -> String {
        let Some(given) = given.filter(|given| !given.trim().is_empty()) else {
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
            RulingSays::MeterBroken => "meter-broken",
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
            |fluid| self.listed(BookList::Fluids, fluid, names),
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

    /// One sentence for each thing that can happen about signing in; with its note in brackets.
    fn access(&self, access: &Access, names: &dyn Names) -> String {
        let key = format!("access-{}", access.what.code());
        let line = match access.of {
            Some(of) => self.say(&key, &[("person", self.person(of, names).into())]),
            None => self.text(&format!("{key}.nobody")),
        };
        match &access.note {
            Some(note) => self.say(
                "access-with-note",
                &[("line", line.into()), ("note", note.into())],
            ),
            None => line,
        }
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
