//! One of every kind of entry, and of every question.
#![allow(clippy::unwrap_used)]

use crate::{NoNames, Words};
use quantity::{Exact, Habits, Quantity, parse};
use yard::{
    book::Severity,
    code::Coded,
    entry::{
        Access, AccessWhat, Adjustment, Arrival, ArrivalStep, AttachmentChange, Body, BookAdopted,
        CameBack, Correction, Document, DocumentEnded, DocumentKind, EngineLeft, Evidence, Fault,
        FluidNow, GapAccepted, Greasing, Handover, HoursTold, LeftHow, LeftYard, Lesson,
        MeterBroken, MeterChange, MeterReading, MovePermit, Note, PartFitted, PhotoNote, Purchase,
        Release, Repair, RestAnswer, RestState, RoleGiven, RoundPurpose, Ruling, RulingSays, Run,
        RunPart, ShelfCount, SignOff, StandDown, TopUp, WalkRound,
    },
    id::{EntryId, FaultRef, ItemId, MachineId, PersonId, PhotoId, PointId, RoundId},
    people::Role,
    state::Asks,
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
        no_photo: None,
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
            meter: None,
            shows: read("1234.5 h"),
        }),
        Body::MeterChange(MeterChange {
            meter: None,
            old_last: None,
            new_first: read("0 h"),
            unmetered: None,
            why: own("glass broken"),
        }),
        Body::MeterReading(MeterReading {
            meter: yard::id::ItemId::new("dash-clock"),
            shows: read("88.2 h"),
        }),
        Body::MeterChange(MeterChange {
            meter: yard::id::ItemId::new("dash-clock"),
            old_last: None,
            new_first: read("0 h"),
            unmetered: None,
            why: own("dark"),
        }),
        Body::MeterBroken(MeterBroken {
            meter: None,
            since: None,
            why: own("sticks on a 9"),
        }),
        Body::MeterBroken(MeterBroken {
            meter: yard::id::ItemId::new("dash-clock"),
            since: Some("2026-05-03T07:00:00Z".parse().unwrap()),
            why: own("dark"),
        }),
        Body::HoursTold(HoursTold {
            ran: read("3 h ± 1 h"),
        }),
        Body::Ruling(Ruling {
            about: entry(),
            says: RulingSays::MeterBroken,
            why: own("it stood"),
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
            told: None,
        }),
        Body::Fault(Fault {
            point: None,
            what: own("smell of fuel"),
            severity: Severity::StandDown,
            told: None,
        }),
        Body::Repair(Repair {
            mends: vec![finding("horn"), finding("clip")],
            what: own("new wire"),
            cost: Some(own("12 EUR")),
            event: None,
            cause: None,
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
            cost: None,
            count: None,
        }),
        Body::Purchase(Purchase {
            what: own("grease"),
            cost: None,
            part: None,
            point: None,
            count: None,
        }),
        Body::Note(Note {
            point: None,
            text: own("key hangs in the hut"),
        }),
        Body::Photo(PhotoNote {
            photo: PhotoId(entry().0),
            of: None,
            point: None,
            text: None,
        }),
        Body::Photo(PhotoNote {
            photo: PhotoId(entry().0),
            of: None,
            point: point(),
            text: Some(own("from below")),
        }),
    ]
}

fn about_what_is_kept() -> Vec<Body> {
    let attachment = |fitted, note: Option<&str>| {
        Body::Attachment(AttachmentChange {
            attachment: MachineId::new("narrow-bucket").unwrap(),
            fitted,
            note: note.map(own),
        })
    };
    let document = |what: &DocumentKind| {
        let until = (*what == DocumentKind::TestReport).then(|| jiff::civil::date(2027, 3, 1));
        Body::Document(Document {
            what: *what,
            title: own("lifting eye"),
            number: None,
            from: None,
            until,
            kept: None,
            note: None,
            of_book: None,
            renews: None,
            photos: vec![],
        })
    };
    let left = |how: &LeftHow| {
        Body::LeftYard(LeftYard {
            how: *how,
            on: None,
            to: (*how == LeftHow::Sold).then(|| own("a farmer up the valley")),
            hours: None,
            note: None,
        })
    };
    let mut all = vec![
        Body::ShelfCount(ShelfCount {
            part: ItemId::new("oil-filter").unwrap(),
            count: 3,
        }),
        attachment(true, None),
        attachment(true, Some("both pins seen")),
        attachment(false, None),
        attachment(false, Some("leaks")),
    ];
    all.extend(DocumentKind::ALL.iter().map(document));
    all.push(Body::DocumentEnded(DocumentEnded {
        of: entry(),
        why: own("hub replaced"),
    }));
    all.extend(LeftHow::ALL.iter().map(left));
    all.extend(arriving());
    all.push(Body::CameBack(CameBack {
        why: own("not paid for"),
    }));
    all
}

fn arriving() -> Vec<Body> {
    let mut all: Vec<Arrival> = ArrivalStep::ALL
        .iter()
        .flat_map(|step| {
            let says = (*step != ArrivalStep::Over).then(|| own("as it stood"));
            [None, says].map(|says| Arrival {
                step: *step,
                about: None,
                fluid: None,
                count: matches!(step, ArrivalStep::FittingsFirst).then_some(21),
                says,
            })
        })
        .collect();
    let about = |step, id, fluid| Arrival {
        step,
        about: ItemId::new(id),
        fluid,
        count: None,
        says: None,
    };
    all.push(about(ArrivalStep::Fluids, "engine-oil", None));
    all.push(about(ArrivalStep::Weaknesses, "cracked-ear", None));
    all.extend(
        FluidNow::ALL
            .iter()
            .map(|now| about(ArrivalStep::Fluids, "engine-oil", Some(*now))),
    );
    all.into_iter().map(Body::Arrival).collect()
}

fn about_signing_in() -> Vec<Body> {
    let access = |what: &AccessWhat, of: Option<PersonId>, note: Option<String>| {
        Body::Access(Access {
            what: *what,
            of,
            note,
        })
    };
    let each = AccessWhat::ALL.iter().flat_map(|what| {
        [
            access(what, Some(person()), None),
            access(what, None, Some(own("phone 1a2b"))),
        ]
    });
    each.collect()
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
            meter: None,
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
        about_signing_in(),
        about_what_is_kept(),
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
    let bucket = || MachineId::new("narrow-bucket").unwrap();
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
        Asks::MeterStuck {
            shows: hours(1240),
            ran: hours(3),
        },
        Asks::MeterSaidBroken {
            since: "2026-05-03T07:00:00Z".parse().unwrap(),
        },
        Asks::BrokenMeterMoved {
            from: hours(1240),
            to: hours(1242),
        },
        Asks::ToldTooMuch {
            told: hours(30),
            passed: hours(20),
        },
        Asks::NoMeterToRead { shows: hours(1240) },
        Asks::Unreadable {
            kind: own("run"),
            at: own("body.hours"),
        },
        Asks::TextTooLong { letters: 30_000 },
        Asks::Misfit { point: point() },
        Asks::NoSuchPoint { point: point() },
        Asks::NotEntitled {
            of: finding("horn"),
        },
        Asks::CorrectionNotEntitled { of: entry() },
        Asks::Rivals { of: entry() },
        Asks::BookUnread { mistakes: 2 },
        Asks::AttachmentMoved {
            attachment: bucket(),
            from: MachineId::new("loader").unwrap(),
        },
        Asks::AttachmentNotTaken {
            attachment: bucket(),
        },
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
