//! A yard of one machine for the papers' tests and benchmarks: a book adopted by an invented steward, the meter read, a round due.
#![allow(dead_code, clippy::unwrap_used, unreachable_pub)]

use jiff::{Timestamp, tz::TimeZone};
use papers::{PaperSize, Sheet};
use quantity::Habits;
use std::path::Path;
use uuid::Uuid;
use words::Words;
use yard::{
    book::Book,
    entry::*,
    handover::{Situation, YardHabits},
    id::*,
    people::Role,
    state::*,
    walkround::{RoundPlan, plan, whole},
};

/// A steward, invented.
pub const STEWARD: PersonId = PersonId(Uuid::from_u128(1));
/// The machine's page.
pub const ADDRESS: &str = "http://192.168.178.100:8426/y/0123456789ab/m/marigold";

/// One machine and its yard.
pub struct YardOfOne {
    pub text: String,
    pub book: Book,
    pub machine: MachineState,
    pub yard: YardState,
    pub entries: Vec<Entry>,
    pub habits: YardHabits,
    pub now: Timestamp,
    pub zone: TimeZone,
}

fn entry(n: u64, machine: Option<MachineId>, at: &str, body: Body) -> Entry {
    let at: Timestamp = at.parse().unwrap();
    let id = EntryId(Uuid::from_u128(0x1000 + u128::from(n)));
    let device = DeviceId("test".to_owned());
    Entry {
        id,
        seq: n,
        machine,
        at,
        ordered_at: at,
        written: at,
        clock_corrected: false,
        by: STEWARD,
        device,
        counter: n,
        body,
    }
}

/// The text of a file of the project.
pub fn project_file(path: &str) -> String {
    std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../..")
            .join(path),
    )
    .unwrap()
}

impl YardOfOne {
    /// With the book of a project's file, nothing done yet.
    pub fn of(path: &str) -> Self {
        Self::with(&project_file(path), Vec::new())
    }

    /// With a book's text and further entries on its machine.
    pub fn with(text: &str, further: Vec<(&str, Body)>) -> Self {
        let book = yard::book::read(text, &Habits::default()).book.unwrap();
        let id = book.machine.id.clone();
        let steward = RoleGiven {
            person: STEWARD,
            role: Some(Role::Steward),
            machines: vec![],
        };
        let adopted = BookAdopted {
            text: text.to_owned(),
            why: None,
        };
        let shows = quantity::parse("454.6 h", &Habits::default(), None).unwrap();
        let mut entries = vec![
            entry(1, None, "2026-11-14T06:00:00Z", Body::RoleGiven(steward)),
            entry(
                2,
                Some(id.clone()),
                "2026-11-14T06:30:00Z",
                Body::BookAdopted(adopted),
            ),
            entry(
                3,
                Some(id.clone()),
                "2026-11-14T06:40:00Z",
                Body::MeterReading(MeterReading { meter: None, shows }),
            ),
        ];
        entries.extend(
            (4..)
                .zip(further)
                .map(|(n, (at, body))| entry(n, Some(id.clone()), at, body)),
        );
        let yard = fold_yard(&entries);
        let machine = fold_machine(&id, &entries, &yard, &Habits::default());
        let now = "2026-11-20T07:12:00Z".parse().unwrap();
        Self {
            text: text.to_owned(),
            book,
            machine,
            yard,
            entries,
            habits: YardHabits::default(),
            now,
            zone: TimeZone::UTC,
        }
    }

    pub fn situation(&self) -> Situation<'_> {
        Situation {
            machine: &self.machine,
            yard: &self.yard,
            person: STEWARD,
            now: self.now,
            zone: &self.zone,
            habits: &self.habits,
            others: &yard::handover::NoOthers,
        }
    }

    /// The round due before a start.
    pub fn due(&self) -> RoundPlan {
        plan(&self.situation(), RoundPurpose::Start).unwrap()
    }

    /// Every point of the book.
    pub fn whole(&self) -> RoundPlan {
        whole(&self.situation(), RoundPurpose::Start).unwrap()
    }

    pub fn sheet<'a>(&'a self, words: &'a Words, size: PaperSize) -> Sheet<'a> {
        let since = self.machine.book().map(|book| book.since);
        Sheet {
            words,
            book: &self.book,
            size,
            now: self.now,
            zone: &self.zone,
            since,
            address: ADDRESS,
        }
    }
}
