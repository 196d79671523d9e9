//! The boxes of the sheet against the reader of a filled sheet and against the yard's rules.

use crate::{BOOKS, yard_of_one::YardOfOne};
use papers::{answer_words, read_answer_word};
use uuid::Uuid;
use words::Words;
use yard::{
    book::{OilHeat, Point, PointKind},
    code::Coded,
    entry::{
        Answer, Answered, Body, BoltState, ClipState, FluidLooks, FunctionState, GreaseTook,
        HoseState, LevelReads, LookState, RoundPurpose, StructureState, WalkRound,
    },
    handover::{Verdict, judge},
    id::{EntryId, RoundId},
};

/// What a box stands for, as an answer; none for a measure and for the combinations of a starting check.
fn answer(point: &Point, code: &str) -> Option<Answer> {
    Some(match &point.kind {
        PointKind::Level(mark) => Answer::Level {
            reads: LevelReads::from_code(code).unwrap_or(LevelReads::AtMark),
            pose: mark.pose.clone(),
            oil: (mark.oil != OilHeat::Any).then_some(mark.oil),
            looks: FluidLooks::from_code(code).unwrap_or(FluidLooks::Clean),
        },
        PointKind::Fitting(_) => Answer::Fitting {
            took: GreaseTook::from_code(code)?,
            strokes: None,
        },
        PointKind::PinClip => Answer::PinClip(ClipState::from_code(code)?),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::from_code(code)?,
            how_many: 1,
        },
        PointKind::Leak { .. } if code == "none" => Answer::Leak(None),
        PointKind::Leak { .. } => Answer::Leak(Some(Coded::from_code(code)?)),
        PointKind::Hose => Answer::Hose(HoseState::from_code(code)?),
        PointKind::Structure => Answer::Structure(StructureState::from_code(code)?),
        PointKind::Function => Answer::Function(FunctionState::from_code(code)?),
        PointKind::Look => Answer::Look(LookState::from_code(code)?),
        PointKind::Crank(cases) if code == "bypassed" => Answer::Crank {
            cranked: vec![None; cases.len()],
            bypassed: true,
        },
        PointKind::Crank(_) | PointKind::Measure(_) => return None,
    })
}

/// Whether the yard's rules stand the machine down for what was found here.
fn rules_stand_down(text: &str, point: &Point, answer: Answer) -> bool {
    let round = WalkRound {
        round: RoundId(Uuid::from_u128(77)),
        book: EntryId(Uuid::from_u128(0x1002)),
        purpose: RoundPurpose::Start,
        answers: vec![Answered {
            point: point.id.clone(),
            answer,
            note: None,
            photos: vec![],
        }],
        from_paper: true,
        hours: Some(quantity::parse("454.6 h", &quantity::Habits::default(), None).unwrap()),
        closes: None,
        no_photo: None,
    };
    let yard = YardOfOne::with(text, vec![("2026-11-20T06:50:00Z", Body::WalkRound(round))]);
    judge(&yard.situation()).reasons.iter().any(|reason| {
        reason.point.as_ref() == Some(&point.id)
            && !reason.unknown
            && reason.weighs == Verdict::StandDown
    })
}

#[test]
fn bold_is_what_the_rules_stand_down() {
    let words = Words::english();
    for book in BOOKS {
        let text = crate::yard_of_one::project_file(book);
        let yard = YardOfOne::of(book);
        for point in &yard.book.points {
            for printed in answer_words(&words, &yard.book, point) {
                let Some(answer) = answer(point, printed.code) else {
                    continue;
                };
                assert_eq!(
                    printed.stands_down,
                    rules_stand_down(&text, point, answer),
                    "{} of {}: {}",
                    printed.code,
                    point.id,
                    point.what
                );
            }
        }
    }
}

#[test]
fn every_word_beside_a_box_reads_back_as_that_box() {
    let words = Words::english();
    for book in BOOKS {
        let yard = YardOfOne::of(book);
        for point in &yard.book.points {
            for printed in answer_words(&words, &yard.book, point) {
                for typed in [
                    printed.word.clone(),
                    printed.word.to_uppercase(),
                    printed.word.replace(' ', "-"),
                    printed.code.to_owned(),
                ] {
                    let read = read_answer_word(&words, &point.kind, &typed);
                    assert_eq!(read, Some(printed.code), "{typed} at {}", point.what);
                }
            }
        }
    }
}
