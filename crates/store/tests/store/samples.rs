//! One fixed entry of every kind, all invented: what a release leaves behind to be read for ever.

use crate::made::{id, time, written, written_comma};
use yard::{
    book::{LeakClass, OilHeat, Severity},
    code::Coded,
    entry::*,
    id::*,
    people::Role,
};

/// Bodies of version 1, one of every kind at least.
pub(crate) fn version_1() -> Vec<Body> {
    let mut bodies = book_and_meter();
    bodies.extend(rounds_and_runs());
    bodies.extend(upkeep());
    bodies.extend(stopping());
    bodies.extend(people_and_notes());
    bodies
}

/// Bodies of version 2: those of version 1, and what the program notes about signing in.
pub(crate) fn version_2() -> Vec<Body> {
    let mut bodies = version_1();
    bodies.extend(AccessWhat::ALL.iter().enumerate().map(|(n, what)| {
        Body::Access(Access {
            what: *what,
            of: (n != 0).then(|| PersonId(id(9))),
            note: (n % 2 == 1).then(|| "phone …1a2b".into()),
        })
    }));
    bodies
}

/// Bodies of version 3: those of version 2; what several meters of a machine show, a broken one, hours told; parts
/// counted, attachments, documents, leaving.
pub(crate) fn version_3() -> Vec<Body> {
    let mut bodies = version_2();
    bodies.extend(meters());
    bodies.extend(kept());
    bodies
}

/// Bodies of version 4: those of version 3, and a machine taken in, step by step.
pub(crate) fn version_4() -> Vec<Body> {
    let mut bodies = version_3();
    bodies.extend(ArrivalStep::ALL.iter().enumerate().map(|(n, step)| {
        Body::Arrival(Arrival {
            step: *step,
            about: ItemId::new("engine-oil").filter(|_| *step == ArrivalStep::Fluids),
            fluid: (*step == ArrivalStep::Fluids).then_some(FluidNow::Analysed),
            count: (*step == ArrivalStep::FittingsSecond).then_some(23),
            says: (n % 2 == 0).then(|| "Stamped on the left rail".into()),
        })
    }));
    bodies
}

fn meters() -> Vec<Body> {
    vec![
        Body::MeterReading(MeterReading {
            meter: ItemId::new("dash-clock"),
            shows: written("812.3 h"),
        }),
        Body::MeterChange(MeterChange {
            meter: ItemId::new("dash-clock"),
            old_last: None,
            new_first: written("3.1 h"),
            unmetered: Some(written("12 h ± 4 h")),
            why: "New one".into(),
        }),
        Body::MeterBroken(MeterBroken {
            meter: None,
            since: None,
            why: "Sticks on a 9".into(),
        }),
        Body::MeterBroken(MeterBroken {
            meter: ItemId::new("dash-clock"),
            since: Some(time(5_000_000)),
            why: "Dark".into(),
        }),
        Body::HoursTold(HoursTold {
            ran: written("3 h ± 1 h"),
        }),
        Body::Ruling(Ruling {
            about: EntryId(id(3)),
            says: RulingSays::MeterBroken,
            why: "It stood".into(),
        }),
    ]
}

fn kept() -> Vec<Body> {
    let mut bodies = vec![
        Body::PartFitted(PartFitted {
            part: ItemId::new("oil-filter"),
            what: "Filter".into(),
            point: None,
            event: None,
            cost: None,
            count: Some(2),
        }),
        Body::Purchase(Purchase {
            what: "Filters".into(),
            cost: None,
            part: ItemId::new("oil-filter"),
            point: None,
            count: Some(4),
        }),
        Body::ShelfCount(ShelfCount {
            part: ItemId::new("oil-filter").unwrap(),
            count: 0,
        }),
        Body::DocumentEnded(DocumentEnded {
            of: EntryId(id(40)),
            why: "Hub replaced".into(),
        }),
        Body::CameBack(CameBack {
            why: "Not paid for".into(),
        }),
    ];
    bodies.extend([true, false].map(|fitted| {
        Body::Attachment(AttachmentChange {
            attachment: MachineId::new("narrow-bucket").unwrap(),
            fitted,
            note: fitted.then(|| "Both pins seen".into()),
        })
    }));
    bodies.extend(LeftHow::ALL.iter().map(|how| {
        Body::LeftYard(LeftYard {
            how: *how,
            on: Some("2026-02-28".parse().unwrap()),
            to: Some("a farmer up the valley".into()),
            hours: Some(written("3130.2 h")),
            note: None,
        })
    }));
    bodies.extend(DocumentKind::ALL.iter().map(|what| {
        Body::Document(Document {
            what: *what,
            title: "Paper".into(),
            number: Some("0042917".into()),
            from: Some("2025-01-01".parse().unwrap()),
            until: Some("2025-12-31".parse().unwrap()),
            kept: Some("red folder".into()),
            note: Some("Copy in the cab".into()),
            of_book: ItemId::new("lifting-eye"),
            renews: Some(EntryId(id(39))),
            photos: vec![PhotoId(id(200))],
        })
    }));
    bodies
}

fn book_and_meter() -> Vec<Body> {
    let ruling = |says| {
        Body::Ruling(Ruling {
            about: EntryId(id(3)),
            says,
            why: "Looked at it".into(),
        })
    };
    vec![
        Body::BookAdopted(BookAdopted {
            text: "name = \"Invented digger\"\n".into(),
            why: Some("Begun".into()),
        }),
        Body::GapAccepted(GapAccepted {
            gap: "no-grade:gear-oil".into(),
            why: "Nobody knows".into(),
        }),
        Body::MeterReading(MeterReading {
            meter: None,
            shows: written("3124.5 h"),
        }),
        Body::MeterChange(MeterChange {
            meter: None,
            old_last: Some(written("3124.5 h")),
            new_first: written("0 h"),
            unmetered: Some(written("12 h ± 4 h")),
            why: "Stood still".into(),
        }),
        ruling(RulingSays::MeterReplaced {
            unmetered: Some(written("2 h")),
        }),
        ruling(RulingSays::MeterRolledOver),
        ruling(RulingSays::ReadingWrong),
        ruling(RulingSays::ReadingRight),
        ruling(RulingSays::Answered),
    ]
}

fn rounds_and_runs() -> Vec<Body> {
    let steps = [
        ("bucket-down", RestState::Proven),
        ("key-out", RestState::Done),
        ("swept", RestState::NotDone),
        ("boom-lock", RestState::OnLock),
    ];
    vec![
        Body::WalkRound(WalkRound {
            round: RoundId(id(100)),
            book: EntryId(id(1)),
            purpose: RoundPurpose::Start,
            from_paper: true,
            answers: answers(),
            hours: Some(written("3125 h")),
            closes: Some(Evidence {
                verdict: "stand-down".into(),
                reasons: vec!["pin-clip".into()],
                book: EntryId(id(1)),
                program: "0.1.0".into(),
            }),
            no_photo: None,
        }),
        Body::Run(Run {
            part: RunPart::Start,
            hours: Some(written("3125 h")),
            work: Some("Ditch".into()),
            amiss: vec!["gauges 2: low".into()],
            in_sight_of: Some(PersonId(id(8))),
        }),
        Body::Handover(Handover {
            book: EntryId(id(1)),
            hours: Some(written_comma("3126,5 h")),
            engine: EngineLeft::Off,
            steps: steps
                .map(|(step, state)| RestAnswer {
                    step: ItemId::new(step).unwrap(),
                    state,
                    note: (state == RestState::NotDone).then(|| "Dark".into()),
                })
                .to_vec(),
            next: Some("Left track is tight".into()),
        }),
    ]
}

fn answers() -> Vec<Answered> {
    let answers = vec![
        Answer::Level {
            reads: LevelReads::AtMark,
            pose: ItemId::new("all-down"),
            oil: Some(OilHeat::Warm),
            looks: FluidLooks::Milky,
        },
        Answer::Fitting {
            took: GreaseTook::Refused,
            strokes: Some(6),
        },
        Answer::PinClip(ClipState::Missing),
        Answer::Bolts {
            state: BoltState::StripeTurned,
            how_many: 2,
        },
        Answer::Measure {
            readings: vec![
                Reading::Value(written("2 in ± 1/16 in")),
                Reading::Value(written_comma("51,5 mm")),
                Reading::Between {
                    over: Some(written("0.4 mm")),
                    under: Some(written("0.5 mm")),
                },
            ],
            by_method: Some(true),
            condition_held: None,
        },
        Answer::Leak(None),
        Answer::Leak(Some(LeakClass::III)),
        Answer::Hose(HoseState::WornThrough),
        Answer::Structure(StructureState::RustInCrack),
        Answer::Function(FunctionState::Weak),
        Answer::Look(LookState::Damaged),
        Answer::Crank {
            cranked: vec![Some(true), Some(false), None],
            bypassed: false,
        },
        Answer::NotChecked(NotChecked {
            because: Hindrance::DoesNotKnowHow,
        }),
    ];
    let numbered = answers.into_iter().enumerate();
    let answered = numbered.map(|(n, answer)| Answered {
        point: PointId::new(&format!("point-{n}")).unwrap(),
        answer,
        note: (n == 2).then(|| "½ turn, é".into()),
        photos: if n == 2 {
            vec![PhotoId(id(200))]
        } else {
            vec![]
        },
    });
    answered.collect()
}

fn upkeep() -> Vec<Body> {
    let mends = || {
        vec![
            FaultRef {
                entry: EntryId(id(10)),
                point: PointId::new("point-1"),
            },
            FaultRef {
                entry: EntryId(id(15)),
                point: None,
            },
        ]
    };
    vec![
        Body::Greasing(Greasing {
            fittings: answers()[1..2].to_vec(),
            mends: mends(),
        }),
        Body::TopUp(TopUp {
            fluid: ItemId::new("engine-oil"),
            added: written("1.5 L"),
            grade: Some("15W-40".into()),
            mends: mends(),
        }),
        Body::Adjustment(Adjustment {
            point: PointId::new("track-left"),
            what: "Tightened".into(),
            event: ItemId::new("track-set"),
            mends: mends(),
        }),
        Body::Fault(Fault {
            point: PointId::new("horn"),
            what: "Silent".into(),
            severity: Severity::Care,
            told: None,
        }),
        Body::Repair(Repair {
            mends: mends(),
            what: "New clip".into(),
            cost: Some("3.20 EUR".into()),
            event: ItemId::new("clip-new"),
            cause: None,
        }),
        Body::PartFitted(PartFitted {
            part: ItemId::new("oil-filter"),
            what: "Filter".into(),
            point: PointId::new("filter"),
            event: ItemId::new("oil-changed"),
            cost: None,
            count: None,
        }),
        Body::Purchase(Purchase {
            what: "Grease, 10 cartridges".into(),
            cost: Some("38 EUR".into()),
            part: None,
            point: None,
            count: None,
        }),
    ]
}

fn stopping() -> Vec<Body> {
    vec![
        Body::StandDown(StandDown {
            why: "Smoke".into(),
        }),
        Body::Release(Release {
            lifts: vec![FaultRef {
                entry: EntryId(id(20)),
                point: None,
            }],
            mended: "Hose replaced, run ten minutes".into(),
        }),
        Body::MovePermit(MovePermit {
            who: PersonId(id(8)),
            how_far: written("40 m"),
            until: time(86_400_000),
            how: "To the shed, in first".into(),
        }),
    ]
}

fn people_and_notes() -> Vec<Body> {
    let instead = Body::Note(Note {
        point: None,
        text: "Gate key is with Kim".into(),
    });
    let correction = |instead| {
        Body::Correction(Correction {
            of: EntryId(id(26)),
            instead,
            why: "Wrong name".into(),
        })
    };
    let roles = [
        Some(Role::Visitor),
        Some(Role::Learner),
        Some(Role::Operator),
        Some(Role::Deputy),
        Some(Role::Steward),
        None,
    ];
    let mut bodies = vec![
        Body::Lesson(Lesson {
            person: PersonId(id(9)),
            what: "Trench, first metres".into(),
        }),
        Body::SignOff(SignOff {
            person: PersonId(id(9)),
            given: true,
            until: Some("2025-04-01".parse().unwrap()),
            limits: Some("Not on slopes".into()),
            in_sight: true,
        }),
        Body::Note(Note {
            point: PointId::new("gate"),
            text: "Gate key is with Jo\nor Kim".into(),
        }),
        Body::Photo(PhotoNote {
            photo: PhotoId(id(200)),
            of: Some(FaultRef {
                entry: EntryId(id(10)),
                point: PointId::new("point-2"),
            }),
            point: None,
            text: Some("Pin, left".into()),
        }),
        correction(Some(Box::new(instead))),
        correction(None),
    ];
    bodies.extend(roles.map(|role| {
        Body::RoleGiven(RoleGiven {
            person: PersonId(id(9)),
            role,
            machines: vec![MachineId::new("digger").unwrap()],
        })
    }));
    bodies
}
