//! A machine unlike the demo's (wheels, other stations, other units) goes through the whole loop: adopted, walked round, run, handed over.
#![allow(clippy::unwrap_used)]

use jiff::{SignedDuration, Timestamp, tz::TimeZone};
use quantity::{Exact, Quantity};
use std::{collections::BTreeMap, path::PathBuf, sync::Arc};
use store::{Delivery, NewEntry, Store, fresh_id, write_entry};
use tempfile::TempDir;
use uuid::Uuid;
use yard::{
    book::{Book, MeasureLimit, OilHeat, Point, PointKind},
    entry::*,
    handover::Situation,
    id::{DeviceId, EntryId, MachineId, PersonId, RoundId},
    state::{MachineState, YardState, fold_machine, fold_yard},
    walkround::plan,
    world::{StillWorld, World},
};

/// The yard of Tarn, and the clock that is set by hand.
struct Loop {
    _dir: TempDir,
    data: PathBuf,
    now: Timestamp,
    drawn: u64,
}

impl Loop {
    fn begun() -> Self {
        let dir = TempDir::new().unwrap();
        let data = dir.path().join("yard");
        let it = Self {
            _dir: dir,
            data,
            now: "2026-05-15T06:00:00Z".parse().unwrap(),
            drawn: 0,
        };
        let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");
        assert_eq!(
            it.says(&["yard", "new", "Invented yard", "--steward", "Jo"])
                .0,
            0
        );
        assert_eq!(
            it.says(&[
                "book",
                "adopt",
                &format!("{root}/cases/book/foreign.toml"),
                "--by",
                "Jo"
            ])
            .0,
            0
        );
        it
    }

    /// What the program prints as JSON now, with its code.
    fn says(&self, arguments: &[&str]) -> (u8, serde_json::Value) {
        let all = ["kingpost", "--json", "--data", self.data.to_str().unwrap()];
        let world = Arc::new(StillWorld::at(self.now));
        let printed = kingpost::answer(all.iter().chain(arguments).map(Into::into), world);
        let text = if printed.out.is_empty() {
            printed.err
        } else {
            printed.out
        };
        (printed.code, serde_json::from_str(&text).unwrap())
    }

    fn verdict(&self) -> (u8, Vec<String>) {
        let (code, told) = self.says(&["handover", "verdict", "tarn", "--by", "Jo"]);
        let reasons = told["reasons"].as_array().unwrap().iter();
        (
            code,
            reasons
                .map(|reason| {
                    format!(
                        "{} {}",
                        reason["code"].as_str().unwrap(),
                        reason["point"].as_str().unwrap_or("-")
                    )
                })
                .collect(),
        )
    }

    /// Opens the store, and closes it again: the program must find it free.
    fn with<T>(&mut self, with: impl FnOnce(&mut Self, &store::Yard, PersonId) -> T) -> T {
        let yard = Store::open(&self.data).unwrap().yard().unwrap();
        let jo = yard.people().unwrap()[0].id;
        with(self, &yard, jo)
    }

    fn write(&mut self, body: Body) -> EntryId {
        self.now += SignedDuration::from_mins(4);
        self.drawn += 1;
        let world = StillWorld::at(self.now);
        (0..self.drawn).for_each(|_| {
            world.chance();
        });
        self.with(|it, yard, jo| {
            let id = EntryId(fresh_id(&world));
            let entry = NewEntry {
                id,
                yard: yard.id(),
                machine: MachineId::new("tarn"),
                at: it.now,
                by: jo,
                device: DeviceId("test phone".into()),
                counter: it.drawn,
                body,
            };
            yard.accept(&write_entry(&entry), Delivery::here(it.now))
                .unwrap();
            id
        })
    }

    fn folded(&mut self) -> (PersonId, YardState, MachineState) {
        self.with(|_, yard, jo| {
            let entries = yard.entries().unwrap();
            let state = fold_yard(&entries);
            let machine = fold_machine(
                &MachineId::new("tarn").unwrap(),
                &entries,
                &state,
                &quantity::Habits::default(),
            );
            (jo, state, machine)
        })
    }

    /// Walks what is due, every answer good but those in `but`.
    fn walk(&mut self, purpose: RoundPurpose, but: &BTreeMap<&str, Answer>) {
        let (jo, state, machine) = self.folded();
        let habits = yard::handover::YardHabits::default();
        let situation = Situation {
            machine: &machine,
            yard: &state,
            person: jo,
            now: self.now,
            zone: &TimeZone::UTC,
            habits: &habits,
            others: &yard::handover::NoOthers,
        };
        let Some(planned) = plan(&situation, purpose) else {
            panic!("no plan")
        };
        let adopted = machine.book().unwrap().clone();
        let round = RoundId(Uuid::from_u128(u128::from(self.drawn) + 1));
        let part = |answers, hours, closes| {
            Body::WalkRound(WalkRound {
                round,
                book: adopted.revision,
                purpose,
                from_paper: false,
                answers,
                hours,
                closes,
                no_photo: None,
            })
        };
        for stop in planned.legs.iter().flat_map(|leg| &leg.stops) {
            let answers = stop
                .points
                .iter()
                .map(|due| answered(&adopted.book, &due.point, but))
                .collect();
            self.write(part(answers, None, None));
        }
        let evidence = Evidence {
            verdict: "care".into(),
            reasons: Vec::new(),
            book: adopted.revision,
            program: "test".into(),
        };
        self.write(part(Vec::new(), Some(written("3120 h")), Some(evidence)));
    }
}

fn written(text: &str) -> Quantity {
    quantity::parse(text, &quantity::Habits::default(), None).unwrap()
}

fn answered(book: &Book, id: &yard::id::PointId, but: &BTreeMap<&str, Answer>) -> Answered {
    let point = book.points.iter().find(|point| point.id == *id).unwrap();
    let answer = but.get(id.as_str()).cloned().unwrap_or_else(|| good(point));
    Answered {
        point: id.clone(),
        answer,
        note: None,
        photos: Vec::new(),
    }
}

fn good(point: &Point) -> Answer {
    match &point.kind {
        PointKind::Level(mark) => {
            let oil = Some(if mark.oil == OilHeat::Any {
                OilHeat::Warm
            } else {
                mark.oil
            });
            Answer::Level {
                reads: LevelReads::AtMark,
                pose: mark.pose.clone(),
                oil,
                looks: FluidLooks::Clean,
            }
        }
        PointKind::Fitting(_) => Answer::Fitting {
            took: GreaseTook::Seen,
            strokes: None,
        },
        PointKind::PinClip => Answer::PinClip(ClipState::Present),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        PointKind::Measure(limit) => measured(limit),
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look => Answer::Look(LookState::Well),
        PointKind::Crank(cases) => Answer::Crank {
            cranked: cases.iter().map(|case| Some(case.may_crank)).collect(),
            bypassed: false,
        },
    }
}

/// Half way between the limits, or a tenth inside the only one.
fn measured(limit: &MeasureLimit) -> Answer {
    let share = |n, d| Exact::from_ratio(n, d).unwrap();
    let value = match (&limit.min, &limit.max) {
        (Some(min), Some(max)) => (min.in_unit(max.unit()).unwrap() + max.value()) * share(1, 2),
        (None, Some(max)) => max.value() * &share(1, 2),
        (Some(min), None) => min.value() * &share(3, 2),
        (None, None) => panic!("a measure without a limit"),
    };
    let unit = limit.max.as_ref().or(limit.min.as_ref()).unwrap().unit();
    let reading = Reading::Value(Quantity::from_exact(value, unit, None));
    Answer::Measure {
        readings: vec![reading; limit.readings.len()],
        by_method: Some(true),
        condition_held: Some(true),
    }
}

#[test]
fn the_whole_loop_without_a_change_of_code() {
    let mut it = Loop::begun();
    let (code, reasons) = it.verdict();
    assert_eq!(code, 20, "{reasons:?}");
    assert!(reasons.contains(&"not-walked -".to_owned()), "{reasons:?}");

    // A clip is missing: it stands down until the steward has mended and released it, and named it.
    it.walk(
        RoundPurpose::Start,
        &BTreeMap::from([("rings", Answer::PinClip(ClipState::Missing))]),
    );
    let (code, reasons) = it.verdict();
    assert_eq!((code, reasons[0].as_str()), (20, "pin-clip rings"));
    let (_, _, machine) = it.folded();
    let missing = machine
        .findings
        .values()
        .find(|finding| finding.open())
        .unwrap()
        .id
        .clone();
    it.write(Body::Repair(Repair {
        mends: vec![missing.clone()],
        what: "New ring".into(),
        cost: None,
        event: None,
        cause: None,
    }));
    let (code, reasons) = it.verdict();
    assert_eq!((code, reasons[0].as_str()), (20, "not-released rings"));
    it.write(Body::Release(Release {
        lifts: vec![missing],
        mended: "Pulled at".into(),
    }));
    // What was released after the round has to be looked at again before it starts.
    let (code, reasons) = it.verdict();
    assert_eq!((code, reasons[0].as_str()), (20, "released-since-round -"));
    it.walk(RoundPurpose::Start, &BTreeMap::new());
    let (code, reasons) = it.verdict();
    assert!(code < 20, "{reasons:?}");

    // It runs, is left at rest, and must be walked round again.
    let run = |part, hours: &str| {
        Body::Run(Run {
            part,
            hours: Some(written(hours)),
            work: None,
            amiss: Vec::new(),
            in_sight_of: None,
        })
    };
    it.write(run(RunPart::Start, "3120 h"));
    it.now += SignedDuration::from_hours(3);
    it.write(run(RunPart::End, "3122.5 h"));
    let adopted = it.folded().2.book().unwrap().clone();
    let steps = adopted
        .book
        .rest
        .iter()
        .map(|step| RestAnswer {
            step: step.id.clone(),
            state: RestState::Proven,
            note: None,
        })
        .collect();
    it.write(Body::Handover(Handover {
        book: adopted.revision,
        hours: Some(written("3122.5 h")),
        engine: EngineLeft::Off,
        steps,
        next: None,
    }));
    let (code, reasons) = it.verdict();
    assert_eq!(code, 20);
    assert!(
        reasons.contains(&"handed-over-since -".to_owned())
            && !reasons
                .iter()
                .any(|reason| reason.starts_with("left-not-at-rest")),
        "{reasons:?}"
    );
    assert_eq!(it.says(&["journal", "verify"]).0, 0);
    assert_eq!(
        it.says(&["journal", "questions"]).1["questions"]
            .as_array()
            .unwrap()
            .len(),
        0
    );
}
