//! Changes to a scene, in words. Each is one line: what it is about, a colon, what is so.
//!
//! - `<point>: <answer>`: answered so in the round; `<point>: no answer`; `<point>: answered by another`.
//! - `earlier <point>: <answer>`, with `, at 812.3 h` after it: found before this round and never closed.
//! - `mended: <point>` and `released: <point>`: what was found there, by whatever name; `mended: all`, `released: all`;
//!   `released since: <point>`: after the round.
//! - `fault: <severity>, <text>`, `stood down: <why>`, `permit: 2 h`, `permit: before the finding`.
//! - `person: <who>`, `sign-off: none | ended | in sight`, `relief check: allowed`.
//! - `round: none | not closed | 13 h ago | by another | with another | another's, joined | relief | under an older book`.
//! - `another walked: 1 h ago`: somebody else's round beside it.
//! - `handover: none | since the round | engine running | engine not said | run since`, `step <step>: <state>[, <note>]`.
//! - `left yard: sold`, `attachment: stands down | not known | fit`, `document: none | ended <date>`, `recall: open`,
//!   `mark: of another attachment`.
//! - `book: ...`, `hours: ...`, `allowed: 8 h`, `entry: ...`: see below.

use super::{
    answers::answer_from,
    machine::{item, point_id, quantity},
    scene::{Person, Scene, hours_ago, id, now},
};
use jiff::SignedDuration;
use quantity::Exact;
use yard::{
    book::{Lubrication, Point, PointKind},
    code::Coded,
    entry::*,
    id::PointId,
    state::{Asks, Found, Question},
};

impl Scene {
    /// Makes one change; panics with what it did not understand.
    pub(crate) fn change(&mut self, line: &str) {
        let (subject, says) = line
            .split_once(": ")
            .unwrap_or_else(|| panic!("no colon in {line:?}"));
        match subject.split_once(' ') {
            None if self.point(subject).is_some() => self.answer(subject, says),
            Some(("earlier", point)) => self.earlier(point, says),
            Some(("step", step)) => self.step(step, says),
            Some(("at", point)) => self.of_point(point, says),
            _ => self.of_whole(subject, says),
        }
    }

    fn of_whole(&mut self, subject: &str, says: &str) {
        match subject {
            "mended" => self.close(says, |scene, found| found.mended.push(scene)),
            "released" => self.close(says, |scene, found| found.released = Some(scene)),
            "released since" => {
                self.close(says, |scene, found| found.released = Some(scene));
                let release = yard::id::EntryId(uuid::Uuid::from_u128(self.next));
                self.machine.closed_at.insert(release, now());
            }
            "fault" => self.fault(says),
            "stood down" => {
                self.find(Found::StoodDown(says.to_owned()), None, hours_ago(5), None);
            }
            "permit" => self.permit(says),
            "person" => self.person(says),
            "sign-off" => self.signing(says),
            "relief check" => self.habits.relief_allowed = says == "allowed",
            "round" => self.walk(says),
            "another walked" => self.another_walked(says),
            "handover" => self.leave(says),
            "book" => self.write(says),
            "hours" => self.meter(says),
            "allowed" => {
                self.habits.refused_runs_hours =
                    says.strip_suffix(" h").map(|hours| hours.parse().unwrap())
            }
            "book allows" => {
                self.book.as_mut().unwrap().greasing.refused_runs = Some(quantity(says))
            }
            "entry" => self.odd_entry(says),
            "arrival" | "left yard" | "attachment" | "document" | "recall" | "mark" => {
                self.kept(subject, says)
            }
            other => panic!("nothing is called {other:?} here"),
        }
    }

    fn point(&mut self, id: &str) -> Option<&mut Point> {
        let points = self.book.iter_mut().flat_map(|book| &mut book.points);
        points.into_iter().find(|point| point.id.as_str() == id)
    }

    fn answer(&mut self, point: &str, says: &str) {
        let id = point_id(point);
        match says {
            "no answer" => drop(self.answers.remove(&id)),
            "answered by another" => drop(self.answered_by.insert(id, Person::Other)),
            says => {
                let answer = answer_from(self.point(point).unwrap(), says);
                self.answers.insert(id, answer);
            }
        }
    }

    fn earlier(&mut self, point: &str, says: &str) {
        let (says, hours) = match says.split_once(", at ") {
            Some((says, hours)) => (says, Some(hours)),
            None => (says, None),
        };
        let answer = answer_from(self.point(point).unwrap(), says);
        let answered = self.as_answered(&point_id(point), &answer);
        self.find(
            Found::Answer(answered),
            Some(point_id(point)),
            hours_ago(20),
            hours,
        );
    }

    /// Mends or releases what was found at a point, in the round too.
    fn close(&mut self, which: &str, with: fn(yard::id::EntryId, &mut yard::state::Finding)) {
        let entry = self.entry();
        let about = |point: &Option<PointId>| {
            which == "all" || point.as_ref().is_some_and(|point| point.as_str() == which)
        };
        self.machine.findings = self.folded().findings;
        let mut closed = self
            .machine
            .findings
            .values_mut()
            .filter(|found| about(&found.id.point))
            .peekable();
        assert!(closed.peek().is_some(), "nothing found at {which}");
        closed.for_each(|found| with(entry, found));
    }

    fn fault(&mut self, says: &str) {
        let (severity, what) = says.split_once(", ").expect("severity, text");
        let severity = Coded::from_code(severity).expect("a severity");
        let fault = Fault {
            point: None,
            what: what.to_owned(),
            severity,
            told: None,
        };
        self.find(Found::Fault(fault), None, hours_ago(5), None);
    }

    fn permit(&mut self, says: &str) {
        let (given, until) = match says {
            "2 h" => (hours_ago(1), now() + SignedDuration::from_hours(2)),
            "run out" => (hours_ago(9), hours_ago(1)),
            "before the finding" => (hours_ago(6), now() + SignedDuration::from_hours(2)),
            other => panic!("no such permit: {other:?}"),
        };
        let permit = MovePermit {
            who: self.person.id(),
            how_far: quantity("40 m"),
            until,
            how: "to the shed".into(),
        };
        self.machine.permits.push((id(600), given, permit));
    }

    fn person(&mut self, says: &str) {
        self.person = match says {
            "steward" => Person::Steward,
            "deputy" => Person::Deputy,
            "another operator" => Person::Other,
            "learner" => Person::Learner,
            "visitor" => Person::Visitor,
            "stranger" => Person::Stranger,
            other => panic!("nobody is {other:?}"),
        };
        self.round = self.round.take().map(|_| super::scene::round(self.person));
    }

    fn signing(&mut self, says: &str) {
        let today = jiff::civil::date(2026, 4, 14);
        match says {
            "none" => self.machine.sign_offs.clear(),
            "ended" => self.sign_off(self.person, Some(today.yesterday().unwrap()), false),
            "ends today" => self.sign_off(self.person, Some(today), false),
            "in sight" => self.sign_off(self.person, None, true),
            other => panic!("no such sign-off: {other:?}"),
        }
    }

    /// `another walked: 1 h ago`: a round of somebody else beside that of the one who asks.
    fn another_walked(&mut self, says: &str) {
        let hours = says.strip_suffix(" h ago").expect("hours ago");
        let closed = hours_ago(hours.parse().unwrap());
        let mut other = super::scene::round(Person::Other);
        other.id = yard::id::RoundId(uuid::Uuid::from_u128(501));
        other.closed = Some((closed, Person::Other.id(), id(201)));
        (other.begun, other.last) = (closed, closed);
        self.machine.rounds.insert(other.id, other);
    }

    fn walk(&mut self, says: &str) {
        let mut round = self.round.take().expect("a round");
        match says {
            "none" => return,
            "not closed" => round.closed = None,
            "by another" => {
                round.by = vec![Person::Other.id()];
                round.closed = round
                    .closed
                    .map(|(at, _, entry)| (at, Person::Other.id(), entry));
            }
            "with another" => round.by.push(Person::Other.id()),
            // Every answer is of who began it.
            "another's, joined" => round.by.insert(0, Person::Other.id()),
            "relief" => round.purpose = RoundPurpose::Relief,
            "after use" => round.purpose = RoundPurpose::After,
            "under an older book" => round.book = id(99),
            "then another operator ran it" => {
                self.machine.ran_by.insert(Person::Other.id(), now());
                self.machine.last_run = Some((Person::Other.id(), now()));
                let (entry, _, by, left) = self.machine.handover.take().unwrap();
                self.machine.handover = Some((entry, now(), by, left));
            }
            ago => {
                let hours: i64 = ago
                    .strip_suffix(" h ago")
                    .expect("a round")
                    .parse()
                    .unwrap();
                let closed = hours_ago(hours);
                round.closed = round.closed.map(|(_, by, entry)| (closed, by, entry));
                (round.begun, round.last) = (closed, closed);
            }
        }
        self.round = Some(round);
    }

    fn leave(&mut self, says: &str) {
        let (entry, mut at, by, mut left) = self.machine.handover.take().expect("a handover");
        match says {
            "none" => return,
            "since the round" => at = now(),
            "engine running" => left.engine = EngineLeft::Running,
            "engine not said" => left.engine = EngineLeft::NotSaid,
            "run since" => {
                let used = hours_ago(2);
                self.machine.last_run = Some((self.person.id(), used));
                self.machine.ran_by.insert(self.person.id(), used);
            }
            other => panic!("no such handover: {other:?}"),
        }
        self.machine.handover = Some((entry, at, by, left));
    }

    fn step(&mut self, step: &str, says: &str) {
        let (_, _, _, left) = self.machine.handover.as_mut().expect("a handover");
        let (state, note) = says
            .split_once(", ")
            .map_or((says, None), |(state, note)| (state, Some(note.to_owned())));
        left.steps.retain(|answer| answer.step != item(step));
        if state != "no answer" {
            let state = Coded::from_code(state).expect("a state of a rest step");
            left.steps.push(RestAnswer {
                step: item(step),
                state,
                note,
            });
        }
    }

    /// `at <point>: bad is care`, `at <point>: refused runs 8 h`, `at <point>: not seen for 8 days`,
    /// `at <point>: seen within 30 days is enough`, and what is said of [what comes back](super::again).
    fn of_point(&mut self, point: &str, says: &str) {
        if self.comes_back(point, says) {
            return;
        }
        if let Some(severity) = says.strip_prefix("bad is ") {
            self.point(point).unwrap().bad_is = Coded::from_code(severity);
        } else if let Some(hours) = says.strip_prefix("refused runs ") {
            let PointKind::Fitting(rule) = &mut self.point(point).unwrap().kind else {
                panic!("no fitting: {point}")
            };
            rule.refused_runs = Some(quantity(hours));
        } else if let Some(days) = says
            .strip_prefix("not seen for ")
            .and_then(|days| days.strip_suffix(" days"))
        {
            let days: i64 = days.parse().unwrap();
            self.machine
                .seen_at_joint
                .get_mut(&point_id(point))
                .unwrap()
                .at = hours_ago(24 * days);
        } else {
            panic!("nothing at a point is {says:?}");
        }
    }

    fn write(&mut self, says: &str) {
        let book = self.book.as_mut().unwrap();
        match says {
            "none" => self.book = None,
            "no stop instruction" => book.stop = None,
            "a joint without fitting" => {
                let mut joint = book.joints[0].clone();
                (joint.id, joint.lubrication) = (item("boom-pivot"), Lubrication::Fittings);
                book.joints.push(joint);
            }
            "no danger zone" => book.danger_zone = None,
            "newer one does not read" => self.question(Asks::BookUnread { mistakes: 2 }),
            other => panic!("no such book: {other:?}"),
        }
    }

    fn meter(&mut self, says: &str) {
        match says {
            "in question" => self.question(Asks::MeterFell {
                from: Exact::from(812),
                to: Exact::from(81),
            }),
            "not known" => self.machine.hours = Default::default(),
            hours => self.set_hours(hours),
        }
    }

    fn odd_entry(&mut self, says: &str) {
        match says {
            "does not read" => self.question(Asks::Unreadable {
                kind: "fault".into(),
                at: "severity".into(),
            }),
            "of an unknown kind" => self.machine.unknown.push((id(700), "survey".into())),
            "corrected twice" => self.question(Asks::Rivals { of: id(701) }),
            misfit => {
                let point = misfit.strip_prefix("misfit at ").expect("an odd entry");
                self.question(Asks::Misfit {
                    point: point_id(point),
                });
            }
        }
    }

    fn question(&mut self, asks: Asks) {
        let entry = self.entry();
        self.machine.questions.insert(
            entry,
            Question {
                entry,
                asks,
                at: hours_ago(3),
            },
        );
    }
}
