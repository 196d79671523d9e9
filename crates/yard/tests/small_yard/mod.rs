//! A small yard for tests: five invented people, one machine with a short book, entries written one after the other.
#![allow(
    dead_code,
    unused_imports,
    clippy::unwrap_used,
    clippy::expect_used,
    unreachable_pub
)]

mod answers;
mod done;

pub use answers::*;
pub use done::*;

use jiff::{Timestamp, civil::DateTime, tz::TimeZone};
use quantity::{Exact, Habits, Quantity};
use uuid::Uuid;
use yard::{
    entry::*,
    handover::{Situation, YardHabits},
    id::*,
    people::Role,
    state::*,
};

/// The machine's book. Invented.
pub const BOOK: &str = include_str!("loader.toml");

pub const STEWARD: PersonId = PersonId(Uuid::from_u128(1));
pub const DEPUTY: PersonId = PersonId(Uuid::from_u128(2));
pub const OPERATOR: PersonId = PersonId(Uuid::from_u128(3));
pub const LEARNER: PersonId = PersonId(Uuid::from_u128(4));
pub const VISITOR: PersonId = PersonId(Uuid::from_u128(5));
pub const OTHER: PersonId = PersonId(Uuid::from_u128(6));

pub fn machine() -> MachineId {
    MachineId::new("loader").unwrap()
}

pub fn point(id: &str) -> PointId {
    PointId::new(id).unwrap()
}

pub fn item(id: &str) -> ItemId {
    ItemId::new(id).unwrap()
}

pub fn q(text: &str) -> Quantity {
    quantity::parse(text, &Habits::default(), None).unwrap()
}

pub fn exact(text: &str) -> Exact {
    Exact::parse(text).unwrap()
}

/// A time written `2026-03-02T07:00`, UTC.
pub fn at(text: &str) -> Timestamp {
    at_in(text, &TimeZone::UTC)
}

/// The same in a zone.
pub fn at_in(text: &str, zone: &TimeZone) -> Timestamp {
    text.parse::<DateTime>()
        .unwrap()
        .to_zoned_datetime(zone.clone())
        .unwrap()
        .timestamp()
}

pub fn zone(name: &str) -> TimeZone {
    TimeZone::get(name).unwrap()
}

pub fn entry_id(n: u64) -> EntryId {
    EntryId(Uuid::from_u128(0x1000 + u128::from(n)))
}

pub fn round_id(n: u64) -> RoundId {
    RoundId(Uuid::from_u128(0x2000_0000 + u128::from(n)))
}

/// An entry as the store hands it out.
pub fn entry(
    n: u64,
    machine: Option<MachineId>,
    by: PersonId,
    when: Timestamp,
    body: Body,
) -> Entry {
    Entry {
        id: entry_id(n),
        seq: n,
        machine,
        at: when,
        ordered_at: when,
        written: when,
        clock_corrected: false,
        by,
        device: DeviceId("test".to_owned()),
        counter: n,
        body,
    }
}

/// A yard in the making.
#[derive(Clone, Debug)]
pub struct SmallYard {
    pub entries: Vec<Entry>,
    pub book: EntryId,
    pub zone: TimeZone,
    pub habits: YardHabits,
}

impl SmallYard {
    /// Founded on 1 January 2026 with its people, the loader's book adopted.
    pub fn new() -> Self {
        Self::with_book(BOOK)
    }

    pub fn with_book(text: &str) -> Self {
        let mut yard = Self {
            entries: Vec::new(),
            book: entry_id(0),
            zone: TimeZone::UTC,
            habits: YardHabits::default(),
        };
        let roles = [
            (STEWARD, Role::Steward),
            (DEPUTY, Role::Deputy),
            (OPERATOR, Role::Operator),
            (LEARNER, Role::Learner),
            (OTHER, Role::Operator),
        ];
        for (person, role) in roles {
            yard.give(STEWARD, "2026-01-01T06:00", person, Some(role));
        }
        yard.book = yard.adopt("2026-01-01T07:00", text);
        yard
    }

    pub fn give(
        &mut self,
        by: PersonId,
        when: &str,
        person: PersonId,
        role: Option<Role>,
    ) -> EntryId {
        self.yard_says(
            by,
            when,
            Body::RoleGiven(RoleGiven {
                person,
                role,
                machines: vec![],
            }),
        )
    }

    pub fn adopt(&mut self, when: &str, text: &str) -> EntryId {
        self.says(
            STEWARD,
            when,
            Body::BookAdopted(BookAdopted {
                text: text.to_owned(),
                why: None,
            }),
        )
    }

    pub fn yard_says(&mut self, by: PersonId, when: &str, body: Body) -> EntryId {
        self.push(None, by, at(when), body)
    }

    pub fn says(&mut self, by: PersonId, when: &str, body: Body) -> EntryId {
        self.push(Some(machine()), by, at_in(when, &self.zone.clone()), body)
    }

    fn push(
        &mut self,
        machine: Option<MachineId>,
        by: PersonId,
        when: Timestamp,
        body: Body,
    ) -> EntryId {
        let n = self.entries.len() as u64 + 1;
        self.entries.push(entry(n, machine, by, when, body));
        entry_id(n)
    }

    pub fn reads(&mut self, by: PersonId, when: &str, hours: &str) -> EntryId {
        self.says(
            by,
            when,
            Body::MeterReading(MeterReading {
                meter: None,
                shows: q(hours),
            }),
        )
    }

    pub fn rules(&mut self, by: PersonId, when: &str, about: EntryId, says: RulingSays) -> EntryId {
        self.says(
            by,
            when,
            Body::Ruling(Ruling {
                about,
                says,
                why: "looked".to_owned(),
            }),
        )
    }

    pub fn corrects(
        &mut self,
        by: PersonId,
        when: &str,
        of: EntryId,
        instead: Option<Body>,
    ) -> EntryId {
        let why = "slip".to_owned();
        self.says(
            by,
            when,
            Body::Correction(Correction {
                of,
                instead: instead.map(Box::new),
                why,
            }),
        )
    }

    /// A part of round `n`.
    pub fn walks(
        &mut self,
        by: PersonId,
        when: &str,
        n: u64,
        answers: Vec<(&str, Answer)>,
    ) -> EntryId {
        let body = self.walk_body(n, answers, None);
        self.says(by, when, body)
    }

    /// A whole round `n`, closed.
    pub fn closes(
        &mut self,
        by: PersonId,
        when: &str,
        n: u64,
        answers: Vec<(&str, Answer)>,
    ) -> EntryId {
        let evidence = Evidence {
            verdict: "fit".into(),
            reasons: vec![],
            book: self.book,
            program: "test".into(),
        };
        let body = self.walk_body(n, answers, Some(evidence));
        self.says(by, when, body)
    }

    pub fn walk_body(
        &self,
        n: u64,
        answers: Vec<(&str, Answer)>,
        closes: Option<Evidence>,
    ) -> Body {
        let answers = answers
            .into_iter()
            .map(|(id, answer)| answered(id, answer))
            .collect();
        let purpose = RoundPurpose::Start;
        Body::WalkRound(WalkRound {
            round: round_id(n),
            book: self.book,
            purpose,
            from_paper: false,
            answers,
            hours: None,
            closes,
            no_photo: None,
        })
    }

    pub fn repairs(&mut self, by: PersonId, when: &str, mends: Vec<FaultRef>) -> EntryId {
        self.says(
            by,
            when,
            Body::Repair(Repair {
                mends,
                what: "mended".into(),
                cost: None,
                event: None,
                cause: None,
            }),
        )
    }

    pub fn event(&mut self, by: PersonId, when: &str, event: &str) -> EntryId {
        let adjustment = Adjustment {
            point: None,
            what: "done".into(),
            event: Some(item(event)),
            mends: vec![],
        };
        self.says(by, when, Body::Adjustment(adjustment))
    }

    pub fn runs(&mut self, by: PersonId, when: &str) -> EntryId {
        let run = Run {
            part: RunPart::End,
            hours: None,
            work: None,
            amiss: vec![],
            in_sight_of: None,
        };
        self.says(by, when, Body::Run(run))
    }

    pub fn yard(&self) -> YardState {
        fold_yard(&self.entries)
    }

    pub fn fold(&self) -> MachineState {
        fold_machine(&machine(), &self.entries, &self.yard(), &Habits::default())
    }

    /// What `look` sees in this yard, for a person at a time in the yard's zone.
    pub fn sees<T>(
        &self,
        person: PersonId,
        now: &str,
        look: impl FnOnce(&Situation<'_>) -> T,
    ) -> T {
        let (yard, machine) = (self.yard(), self.fold());
        let now = at_in(now, &self.zone);
        look(&Situation {
            machine: &machine,
            yard: &yard,
            person,
            now,
            zone: &self.zone,
            habits: &self.habits,
            others: &yard::handover::NoOthers,
        })
    }
}
