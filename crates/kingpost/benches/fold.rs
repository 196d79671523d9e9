//! Folding one machine over ten years, beside reading the same entries as plain JSON and as entries.
//!
//! The ratio carries over to other computers. The journal is plain on purpose: each working day one round in one part, a run, a handover,
//! about ten thousand entries.

use jiff::{SignedDuration, Timestamp};
use std::sync::OnceLock;
use store::{Delivery, NewEntry, Row, Store, write_entry};
use uuid::Uuid;
use yard::{
    book::{Book, OilHeat, PointKind},
    entry::*,
    id::{DeviceId, EntryId, MachineId, PersonId, RoundId, YardId},
    people::Role,
    state::{YardState, fold_machine, fold_yard},
};

fn main() {
    divan::main();
}

/// Working days in ten years.
const DAYS: u128 = 2_600;

struct Journal {
    rows: Vec<Row>,
    entries: Vec<Entry>,
    yard: YardState,
}

fn journal() -> &'static Journal {
    static JOURNAL: OnceLock<Journal> = OnceLock::new();
    JOURNAL.get_or_init(|| {
        let yard = Store::open_memory()
            .add_yard(YardId(Uuid::from_u128(1)), "Ten years (invented)")
            .expect("a fresh store");
        let book = yard::book::read(kingpost::demo::BOOK, &quantity::Habits::default())
            .book
            .expect("the demo's book reads");
        let mut pen = Pen {
            yard: &yard,
            now: "2014-01-06T06:00:00Z".parse().expect("a time"),
            counter: 0,
        };
        pen.write(
            false,
            Body::RoleGiven(RoleGiven {
                person: somebody(),
                role: Some(Role::Steward),
                machines: vec![],
            }),
        );
        let revision = pen.write(
            true,
            Body::BookAdopted(BookAdopted {
                text: kingpost::demo::BOOK.into(),
                why: None,
            }),
        );
        (0..DAYS).for_each(|day| pen.day(&book, revision, day));
        let rows = yard
            .rows_since(0, usize::MAX)
            .expect("a store in memory reads");
        let entries = yard.entries().expect("a store in memory reads");
        Journal {
            yard: fold_yard(&entries),
            rows,
            entries,
        }
    })
}

fn somebody() -> PersonId {
    PersonId(Uuid::from_u128(2))
}

struct Pen<'y> {
    yard: &'y store::Yard,
    now: Timestamp,
    counter: u64,
}

impl Pen<'_> {
    fn write(&mut self, of_machine: bool, body: Body) -> EntryId {
        self.counter += 1;
        self.now += SignedDuration::from_mins(10);
        let id = EntryId(Uuid::from_u128(u128::from(self.counter) + 1_000));
        let machine = if of_machine {
            MachineId::new("marigold")
        } else {
            None
        };
        let (yard, at, by, device) = (
            self.yard.id(),
            self.now,
            somebody(),
            DeviceId("bench".into()),
        );
        let entry = NewEntry {
            id,
            yard,
            machine,
            at,
            by,
            device,
            counter: self.counter,
            body,
        };
        self.yard
            .accept(&write_entry(&entry), Delivery::here(at))
            .expect("a store in memory takes entries");
        id
    }

    fn day(&mut self, book: &Book, revision: EntryId, day: u128) {
        let hours = |more: u128| {
            quantity::parse(
                &format!("{} h", 100 + 3 * day + more),
                &quantity::Habits::default(),
                None,
            )
            .ok()
        };
        let answers = book
            .points
            .iter()
            .filter(|point| !matches!(point.kind, PointKind::Measure(_)))
            .map(answered)
            .collect();
        let closes = Some(Evidence {
            verdict: "fit".into(),
            reasons: vec![],
            book: revision,
            program: "bench".into(),
        });
        let round = RoundId(Uuid::from_u128(day + 10_000_000));
        self.write(
            true,
            Body::WalkRound(WalkRound {
                round,
                book: revision,
                purpose: RoundPurpose::Start,
                from_paper: false,
                answers,
                hours: hours(0),
                closes,
                no_photo: None,
            }),
        );
        let run = |part, more| {
            Body::Run(Run {
                part,
                hours: hours(more),
                work: None,
                amiss: vec![],
                in_sight_of: None,
            })
        };
        self.write(true, run(RunPart::Start, 0));
        self.now += SignedDuration::from_hours(5);
        self.write(true, run(RunPart::End, 3));
        let steps = book
            .rest
            .iter()
            .map(|step| RestAnswer {
                step: step.id.clone(),
                state: RestState::Proven,
                note: None,
            })
            .collect();
        self.write(
            true,
            Body::Handover(Handover {
                book: revision,
                hours: hours(3),
                engine: EngineLeft::Off,
                steps,
                next: None,
            }),
        );
        self.now += SignedDuration::from_hours(18);
    }
}

fn answered(point: &yard::book::Point) -> Answered {
    let answer = match &point.kind {
        PointKind::Level(mark) => Answer::Level {
            reads: LevelReads::AtMark,
            pose: mark.pose.clone(),
            oil: Some(OilHeat::Cold),
            looks: FluidLooks::Clean,
        },
        PointKind::Fitting(_) => Answer::Fitting {
            took: GreaseTook::Seen,
            strokes: Some(4),
        },
        PointKind::PinClip => Answer::PinClip(ClipState::Present),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look | PointKind::Measure(_) => Answer::Look(LookState::Well),
        PointKind::Crank(cases) => Answer::Crank {
            cranked: cases.iter().map(|case| Some(case.may_crank)).collect(),
            bypassed: false,
        },
    };
    Answered {
        point: point.id.clone(),
        answer,
        note: None,
        photos: vec![],
    }
}

/// The anchor: the same bytes read as JSON and thrown away.
#[divan::bench(sample_count = 10)]
fn ten_years_read_as_plain_json(bencher: divan::Bencher<'_, '_>) {
    let rows = &journal().rows;
    bencher
        .counter(divan::counter::ItemsCount::new(rows.len()))
        .bench(|| {
            rows.iter()
                .filter(|row| serde_json::from_slice::<serde_json::Value>(&row.bytes).is_ok())
                .count()
        });
}

#[divan::bench(sample_count = 10)]
fn ten_years_read_as_entries(bencher: divan::Bencher<'_, '_>) {
    let rows = &journal().rows;
    bencher
        .counter(divan::counter::ItemsCount::new(rows.len()))
        .bench(|| {
            rows.iter()
                .filter(|row| store::form::read_entry(row).is_ok())
                .count()
        });
}

#[divan::bench(sample_count = 10)]
fn ten_years_folded(bencher: divan::Bencher<'_, '_>) {
    let Journal { entries, yard, .. } = journal();
    let machine = MachineId::new("marigold").expect("a well-formed id");
    bencher
        .counter(divan::counter::ItemsCount::new(entries.len()))
        .bench(|| fold_machine(&machine, entries, yard, &quantity::Habits::default()));
}
