//! A scene: the machine, the yard, who asks, and when. It begins fit to run.

use super::{
    answers::well_answer,
    machine::{book, item, quantity},
};
use jiff::{SignedDuration, Timestamp, tz::TimeZone};
use quantity::Exact;
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};
use uuid::Uuid;
use yard::{
    book::Book,
    entry::*,
    handover::{Judgement, Rule, Situation, YardHabits, judge, judge_by},
    id::*,
    people::Role,
    state::*,
    walkround::{Weighed, weigh},
};

/// The people of the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Person {
    Steward = 1,
    Deputy = 2,
    Operator = 3,
    Other = 4,
    Learner = 5,
    Visitor = 6,
    Stranger = 7,
}

impl Person {
    pub(crate) fn id(self) -> PersonId {
        PersonId(Uuid::from_u128(self as u128))
    }
}

/// An entry's id made of a number.
pub(crate) fn id(number: u128) -> EntryId {
    EntryId(Uuid::from_u128(number))
}

/// Now, in every scene: a morning.
pub(crate) fn now() -> Timestamp {
    "2026-04-14T07:30:00Z".parse().unwrap()
}

pub(crate) fn hours_ago(hours: i64) -> Timestamp {
    now() - SignedDuration::from_hours(hours)
}

/// Book revision of every scene.
pub(crate) const REVISION: u128 = 100;
/// Entry of the round's only part.
pub(crate) const PART: u128 = 200;
/// Entry of the last handover.
pub(crate) const LEFT: u128 = 300;

/// Everything a verdict looks at, open to change.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    pub(crate) book: Option<Book>,
    pub(crate) machine: MachineState,
    pub(crate) yard: YardState,
    pub(crate) habits: YardHabits,
    pub(crate) person: Person,
    /// Answers of the round; what is not here was not answered.
    pub(crate) answers: BTreeMap<PointId, Answer>,
    /// Who wrote single answers, where it is not the one who asks.
    pub(crate) answered_by: BTreeMap<PointId, Person>,
    /// The round; none where nobody walked.
    pub(crate) round: Option<Round>,
    /// Other machines of the yard.
    pub(crate) others: BTreeMap<MachineId, MachineState>,
    /// Number of the next entry.
    pub(crate) next: u128,
}

impl Scene {
    /// Fit to run: walked round half an hour ago, left at rest yesterday, nothing open.
    pub(crate) fn fit() -> Self {
        let book = book();
        let person = Person::Operator;
        let mut scene = Self {
            answers: book
                .points
                .iter()
                .map(|point| (point.id.clone(), well_answer(point)))
                .collect(),
            answered_by: BTreeMap::new(),
            round: Some(round(person)),
            machine: MachineState {
                id: Some(book.machine.id.clone()),
                ..MachineState::default()
            },
            yard: yard(),
            habits: YardHabits::default(),
            book: Some(book),
            person,
            others: BTreeMap::new(),
            next: 1000,
        };
        scene.set_hours("812.3 h");
        scene.sign_off(person, None, false);
        scene.machine.handover = Some((id(LEFT), hours_ago(14), Person::Other.id(), handover()));
        scene.machine.last_run = Some((Person::Other.id(), hours_ago(15)));
        scene.machine.ran_by = BTreeMap::from([
            (Person::Other.id(), hours_ago(15)),
            (person.id(), hours_ago(40)),
        ]);
        let seen = Done {
            entry: id(150),
            at: hours_ago(14),
            life_hours: None,
        };
        scene
            .machine
            .seen_at_joint
            .insert(PointId::new("swing-fitting").unwrap(), seen);
        scene
    }

    /// A fresh entry id.
    pub(crate) fn entry(&mut self) -> EntryId {
        self.next += 1;
        id(self.next)
    }

    pub(crate) fn set_hours(&mut self, text: &str) {
        let hours = quantity(text).value().clone();
        let life = LifeHours {
            hours: hours.clone(),
            plus_minus: Exact::zero(),
        };
        let reading = yard::state::HoursRead {
            entry: id(120),
            at: hours_ago(14),
            shows: hours.clone(),
            life,
        };
        let segment = Segment {
            first: Exact::zero(),
            last: hours,
            rolled: Exact::zero(),
            unmetered_before: None,
            begun_by: id(110),
            last_by: id(120),
        };
        self.machine.hours = HourHistory {
            segments: vec![segment],
            last_at: Some(hours_ago(14)),
            last_entry: Some(id(120)),
            doubted: Vec::new(),
            readings: vec![reading],
            ..HourHistory::default()
        };
    }

    pub(crate) fn sign_off(
        &mut self,
        person: Person,
        until: Option<jiff::civil::Date>,
        in_sight: bool,
    ) {
        let given = SignedOff {
            entry: id(130),
            until,
            in_sight,
            limits: None,
        };
        self.machine.sign_offs.insert(person.id(), given);
    }

    /// Adds something found, mended or not.
    pub(crate) fn find(
        &mut self,
        what: Found,
        point: Option<PointId>,
        at: Timestamp,
        hours: Option<&str>,
    ) -> FaultRef {
        let finding = FaultRef {
            entry: self.entry(),
            point,
        };
        let life = |text| LifeHours {
            hours: quantity(text).value().clone(),
            plus_minus: Exact::zero(),
        };
        let found = Finding {
            id: finding.clone(),
            what,
            at,
            by: Person::Other.id(),
            life_hours: Some(life(hours.unwrap_or("812.3 h"))),
            book: Some(id(REVISION)),
            mended: Vec::new(),
            released: None,
            photos: Vec::new(),
        };
        self.machine.findings.insert(finding.clone(), found);
        finding
    }

    /// The machine as the folds would leave it.
    pub(crate) fn folded(&self) -> MachineState {
        let mut machine = self.machine.clone();
        if let Some(book) = &self.book {
            let adopted = Adopted {
                revision: id(REVISION),
                since: hours_ago(900),
                by: Person::Steward.id(),
                book: Arc::new(book.clone()),
            };
            machine.books.push(adopted);
        }
        for (point, answer) in &self.answers {
            self.fold_answer(&mut machine, point, answer);
        }
        if let Some(round) = &self.round {
            machine.rounds.insert(round.id, self.walked(round));
        }
        machine
    }

    fn fold_answer(&self, machine: &mut MachineState, point: &PointId, answer: &Answer) {
        let of_book = self
            .book
            .iter()
            .flat_map(|book| &book.points)
            .find(|known| known.id == *point);
        let Some(of_book) = of_book.filter(|_| self.round.is_some()) else {
            return;
        };
        let name = FaultRef {
            entry: id(PART),
            point: Some(point.clone()),
        };
        if weigh(of_book, answer) == Weighed::Amiss && !machine.findings.contains_key(&name) {
            let finding = Finding {
                id: name.clone(),
                what: Found::Answer(self.as_answered(point, answer)),
                at: now(),
                by: self.person.id(),
                life_hours: machine
                    .hours
                    .readings
                    .last()
                    .map(|reading| reading.life.clone()),
                book: Some(id(REVISION)),
                mended: Vec::new(),
                released: None,
                photos: Vec::new(),
            };
            machine.findings.insert(name, finding);
        }
    }

    /// The round with its answers. Those of people who are not of the round came after it was closed.
    fn walked(&self, round: &Round) -> Round {
        let answers = self.given(round);
        let in_time = answers
            .iter()
            .filter(|(_, given)| round.by.contains(&given.by));
        let looked = in_time
            .clone()
            .filter(|(_, given)| !matches!(given.answered.answer, Answer::NotChecked(_)));
        Round {
            looked: looked.map(|(_, given)| given.by).collect(),
            in_time: in_time.map(|(point, _)| point.clone()).collect(),
            answers: answers.clone(),
            ..round.clone()
        }
    }

    fn given(&self, round: &Round) -> BTreeMap<PointId, Given> {
        let by = |point| {
            self.answered_by
                .get(point)
                .map_or(round.by[0], |person| person.id())
        };
        let given = self.answers.iter().map(|(point, answer)| {
            let given = Given {
                entry: id(PART),
                round: Some(round.id),
                book: round.book,
                at: round.last,
                by: by(point),
                answered: self.as_answered(point, answer),
            };
            (point.clone(), given)
        });
        given.collect()
    }

    pub(crate) fn as_answered(&self, point: &PointId, answer: &Answer) -> Answered {
        Answered {
            point: point.clone(),
            answer: answer.clone(),
            note: None,
            photos: Vec::new(),
        }
    }

    pub(crate) fn judge(&self) -> Judgement {
        self.ask(judge)
    }

    pub(crate) fn judge_by(&self, rules: &[Rule]) -> Judgement {
        self.ask(|situation| judge_by(situation, rules))
    }

    fn ask(&self, judge: impl Fn(&Situation) -> Judgement) -> Judgement {
        let machine = self.folded();
        judge(&Situation {
            machine: &machine,
            yard: &self.yard,
            person: self.person.id(),
            now: now(),
            zone: &TimeZone::UTC,
            habits: &self.habits,
            others: &self.others,
        })
    }
}

/// A round before this start, closed half an hour ago.
pub(crate) fn round(by: Person) -> Round {
    let closed = now() - SignedDuration::from_mins(30);
    Round {
        id: RoundId(Uuid::from_u128(500)),
        book: id(REVISION),
        purpose: RoundPurpose::Start,
        by: vec![by.id()],
        begun: closed - SignedDuration::from_mins(8),
        last: closed,
        closed: Some((closed, by.id(), id(PART))),
        answers: BTreeMap::new(),
        looked: BTreeSet::new(),
        in_time: BTreeSet::new(),
        from_paper: false,
        no_photo: None,
    }
}

/// A handover at rest, every step proven.
pub(crate) fn handover() -> Handover {
    let steps = [
        "lowered",
        "swing-lock",
        "neutral",
        "brake",
        "engine-off",
        "battery-off",
        "clean",
    ];
    let answer = |step: &str| RestAnswer {
        step: item(step),
        state: RestState::Proven,
        note: None,
    };
    Handover {
        book: id(REVISION),
        hours: None,
        engine: EngineLeft::Off,
        steps: steps.map(answer).to_vec(),
        next: None,
    }
}

fn yard() -> YardState {
    let role = |role| PersonState {
        roles: vec![(hours_ago(1000), Some(role), id(90))],
        ..PersonState::default()
    };
    let people = [
        (Person::Steward, Role::Steward),
        (Person::Deputy, Role::Deputy),
        (Person::Operator, Role::Operator),
        (Person::Other, Role::Operator),
        (Person::Learner, Role::Learner),
        (Person::Visitor, Role::Visitor),
    ];
    YardState {
        people: people
            .into_iter()
            .map(|(person, held)| (person.id(), role(held)))
            .collect(),
        ..YardState::default()
    }
}
