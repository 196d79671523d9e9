//! One of every kind of reason, and what verdicts hold for.
#![allow(clippy::unwrap_used)]

use super::*;
use crate::NoNames;
use jiff::Timestamp;
use yard::{
    book::Severity,
    entry::{
        BoltState, ClipState, FluidLooks, FunctionState, Hindrance, HoseState, LeftHow, LevelReads,
        LookState, StructureState,
    },
    id::{EntryId, ItemId, MachineId, PersonId, PointId},
    upkeep::NotReaching,
};

fn names() -> NoNames {
    NoNames {
        now: "2026-11-14T06:00:00Z".parse().unwrap(),
    }
}

fn someone() -> PersonId {
    "01890000-0000-7000-8000-000000000001".parse().unwrap()
}

fn point(id: &str) -> PointId {
    PointId::new(id).unwrap()
}

fn item(id: &str) -> ItemId {
    ItemId::new(id).unwrap()
}

/// One of every kind of reason, and of every state within a kind.
fn every_what() -> Vec<What> {
    let hours = |n: i64| Some(Exact::from(n));
    let read = || vec!["2 1/8 in".to_owned(), "2 in".to_owned()];
    let limit = || "2 in".to_owned();
    let at = names().now;
    let mut all = vec![
        What::NoBook,
        What::NoStop,
        What::NotWalked,
        What::RoundExpired { at },
        What::HandedOverSince,
        What::ReleasedSinceRound,
    ];
    all.extend([
        What::OtherPersonsRound { by: someone(), at },
        What::BookChanged,
        What::NotAnswered,
        What::InQuestion,
        What::LevelHeat,
    ]);
    all.extend(Hindrance::ALL.iter().map(|h| What::CouldNotCheck(*h)));
    all.extend(ClipState::ALL.iter().map(|s| What::PinClip(*s)));
    all.extend(
        BoltState::ALL
            .iter()
            .flat_map(|s| [What::Bolts(*s, 1), What::Bolts(*s, 3)]),
    );
    all.extend(
        FunctionState::ALL
            .iter()
            .map(|s| What::Function(About::Brakes, *s)),
    );
    all.extend(LookState::ALL.iter().map(|s| What::Look(About::Guards, *s)));
    all.extend(StructureState::ALL.iter().map(|s| What::Structure(*s)));
    all.extend(HoseState::ALL.iter().map(|s| What::Hose(*s)));
    all.extend(
        LeakClass::ALL
            .iter()
            .map(|c| What::Leak(About::HydraulicOil, *c)),
    );
    all.push(What::Leak(About::Fuel, LeakClass::I));
    all.extend(FluidLooks::ALL.iter().map(|l| What::Fluid(*l)));
    all.extend(LevelReads::ALL.iter().map(|r| What::Level(*r)));
    for higher_by in [None, Some(-39), Some(12)] {
        all.push(What::LevelPose {
            read_in: Some(item("arm-out")),
            mark_is_for: Some(item("all-down")),
            higher_by,
        });
    }
    all.push(What::LevelPose {
        read_in: None,
        mark_is_for: Some(item("all-down")),
        higher_by: None,
    });
    all.push(What::LevelPose {
        read_in: Some(item("arm-out")),
        mark_is_for: None,
        higher_by: None,
    });
    all.extend(
        [Side::Over, Side::Under, Side::Either].map(|side| What::Outside {
            read: read(),
            side,
            limit: limit(),
        }),
    );
    all.push(What::TooClose {
        read: read(),
        side: Side::Over,
        limit: limit(),
    });
    all.extend([
        What::OtherMethod,
        What::ConditionNotHeld,
        What::NotComparable,
        What::CrankNotTried,
        What::SwitchBypassed,
    ]);
    all.extend([
        What::CrankedIn {
            with: "in gear".into(),
        },
        What::DidNotCrankIn {
            with: "neutral".into(),
        },
    ]);
    all.extend(
        [
            (hours(3), hours(8)),
            (hours(-1), hours(8)),
            (None, hours(8)),
            (None, None),
        ]
        .map(|(left, allowed)| What::Refused { left, allowed }),
    );
    all.extend([
        What::NotReaching(NotReaching::NeverSeen {
            times: 12,
            days: 40,
        }),
        What::NotReaching(NotReaching::PlayGrows {
            at: point("play-boom"),
            from: "1.0 mm".into(),
            to: "1.5 mm".into(),
        }),
        What::OneSided {
            twin: point("sag-right"),
            times: 4,
        },
    ]);
    all.extend([
        What::NotSeenAtJoint,
        What::NotReleased,
        What::HoursInQuestion,
        What::NotHandedOver,
        What::UsedSinceHandover,
        What::LeftRunning,
    ]);
    all.extend(Severity::ALL.iter().map(|s| What::Fault {
        what: "smell of fuel".into(),
        severity: *s,
    }));
    all.extend([
        What::StoodDown {
            why: "too tired to look".into(),
        },
        What::JointWithoutFitting {
            joint: item("dipper-pivot"),
        },
    ]);
    all.extend([
        What::Gap {
            gap: "no-stop".into(),
        },
        What::LeftNotAtRest {
            step: item("bucket-down"),
        },
        What::EngineNotSaid,
    ]);
    all.extend([
        What::StepNotInBook {
            step: item("old-step"),
        },
        What::StillOpen,
        What::Unread {
            kind: "weather".into(),
        },
    ]);
    all.extend([Some("pin in"), None].map(|right| What::LockWrong {
        step: item("swing-pin"),
        right_is: right.map(str::to_owned),
    }));
    all.extend([What::MayNotRun, What::NotSignedOff, What::InSightOnly]);
    all.extend(LeftHow::ALL.iter().map(|how| What::LeftYard { how: *how }));
    let attachment = MachineId::new("narrow-bucket").unwrap();
    all.extend([
        What::AttachmentStandsDown {
            attachment: attachment.clone(),
            name: "Narrow bucket".into(),
        },
        What::AttachmentWithCare {
            attachment: attachment.clone(),
            name: "Narrow bucket".into(),
        },
        What::AttachmentNotKnown { attachment },
        What::OpenRecall {
            title: "Crack at the hub".into(),
        },
        What::LevelAttachment,
        What::UnknownFluid {
            fluids: vec![item("engine-oil"), item("coolant")],
        },
    ]);
    all.extend(
        [None, Some(jiff::civil::date(2026, 10, 1))].map(|ended| What::NoDocument {
            title: "Test report of the lifting eye".into(),
            ended,
        }),
    );
    all.push(What::DocumentUndated {
        title: "Test report of the lifting eye".into(),
    });
    all
}

fn reason(what: What) -> Reason {
    let point = PointId::new("boom-foot-left");
    Reason {
        rule: "a-rule",
        weighs: Verdict::StandDown,
        rank: 0,
        unknown: false,
        point,
        finding: None,
        what,
        figure: None,
    }
}

#[test]
fn every_reason_says_what_and_what_next() {
    let words = Words::english();
    let told: Vec<String> = every_what()
        .into_iter()
        .map(|what| words.reason(&reason(what), &names()))
        .map(|told| format!("{}\n    {}", told.what, told.next))
        .collect();
    insta::assert_snapshot!(told.join("\n"));
}

fn judged(
    verdict: Verdict,
    unknown: bool,
    until: Option<Timestamp>,
    until_hours: Option<i64>,
) -> Judgement {
    let reasons = if verdict == Verdict::Fit {
        vec![]
    } else {
        vec![Reason {
            unknown,
            weighs: verdict,
            ..reason(What::NotWalked)
        }]
    };
    let holds = Holds {
        person: someone(),
        round: None,
        until,
        until_hours: until_hours.map(Exact::from),
        permit: None,
    };
    Judgement {
        verdict,
        reasons,
        holds,
        at: names().now,
        book: None,
    }
}

#[test]
fn a_verdict_that_only_lacks_knowledge_says_walk_round_first() {
    let words = Words::english();
    assert_eq!(
        words.verdict(&judged(Verdict::StandDown, true, None, None)),
        "Walk round first"
    );
    assert_eq!(
        words.verdict(&judged(Verdict::StandDown, false, None, None)),
        "Stand down"
    );
    let mut of_book = judged(Verdict::StandDown, true, None, None);
    of_book.reasons[0].what = What::Gap {
        gap: "no-stop:".into(),
    };
    assert_eq!(
        words.verdict(&of_book),
        "Find out first",
        "no walk tells what the book lacks"
    );
    assert_eq!(
        words.verdict(&judged(Verdict::Fit, false, None, None)),
        "Fit to run"
    );
    assert_eq!(words.verdict_code("care"), "Run with care");
    assert_eq!(words.verdict_code("bent"), "bent");
}

#[test]
fn what_a_verdict_holds_for() {
    let (words, until) = (Words::english(), "2026-11-14T15:00:00Z".parse().ok());
    let holds = |judgement| words.holds(&judgement, None, &names());
    let name = "…0001";
    assert_eq!(
        holds(judged(Verdict::Fit, false, until, None)),
        format!("For this start, by {name}, until 15:00.")
    );
    assert_eq!(
        holds(judged(Verdict::Care, false, until, Some(6))),
        format!(
            "For this start, by {name}, until 15:00 or 6 hours run in all, whichever comes first."
        )
    );
    assert_eq!(
        holds(judged(Verdict::StandDown, false, until, None)),
        "It holds for nobody: the machine does not run."
    );
}

#[test]
fn a_permit_to_move_is_said_in_full() {
    let far = quantity::parse("40 m", &quantity::Habits::default(), None).unwrap();
    let permit = MovePermit {
        who: someone(),
        how_far: far,
        until: "2026-11-14T09:30:00Z".parse().unwrap(),
        how: "To the shed, bucket up a hand.".into(),
    };
    let mut judgement = judged(Verdict::StandDown, false, None, None);
    judgement.holds.permit = Some(EntryId(someone().0));
    let said = Words::english().holds(&judgement, Some(&permit), &names());
    insta::assert_snapshot!(said, @"It may only be moved: 40 m, by …0001, until 9:30. To the shed, bucket up a hand.");
}

/// In the made-up language nothing of a reason is plain English but the book's and the person's own words.
#[test]
fn no_reason_bypasses_the_messages() {
    let words = Words::pseudo();
    let mut plain = Vec::new();
    for what in every_what() {
        let told = words.reason(&reason(what), &names());
        plain.extend(crate::plain_runs(&told.what, &[]));
        plain.extend(crate::plain_runs(&told.next, &[]));
    }
    assert_eq!(plain, Vec::<String>::new());
}
