//! Whether a correction leaves standing what an entry told of harm.
//!
//! Plain harm is what is bad by its own words, at whatever point and by whatever book: a fault, a stand-down, a clip that is
//! not there, bolts that are not tight. Measures are left out: there a slip in typing is more common than a wish to hide.

use crate::entry::{
    Answer, Answered, Body, BoltState, ClipState, Fault, FluidLooks, FunctionState, GreaseTook,
    HoseState, LevelReads, LookState, StructureState,
};

/// Whether everything plainly bad that `before` tells is still told by `after` (none = voided), as bad or worse.
pub fn keeps_harm(before: &Body, after: Option<&Body>) -> bool {
    match (before, after) {
        (Body::StandDown(_), Some(Body::StandDown(_))) => true,
        (Body::Fault(before), Some(Body::Fault(after))) => keeps_fault(before, after),
        (Body::Run(before), Some(Body::Run(after))) => {
            before.amiss.is_empty() || !after.amiss.is_empty()
        }
        (Body::WalkRound(before), Some(Body::WalkRound(after))) if before.book == after.book => {
            keeps_answers(&before.answers, &after.answers)
        }
        (Body::Greasing(before), Some(Body::Greasing(after))) => {
            keeps_answers(&before.fittings, &after.fittings)
        }
        (Body::Correction(before), Some(Body::Correction(after))) if before.of == after.of => {
            match &before.instead {
                Some(before) => keeps_harm(before, after.instead.as_deref()),
                None => true,
            }
        }
        _ => !tells_harm(before),
    }
}

/// Whether an entry tells of plain harm.
pub fn tells_harm(body: &Body) -> bool {
    match body {
        Body::StandDown(_) | Body::Fault(_) => true,
        Body::Run(run) => !run.amiss.is_empty(),
        Body::WalkRound(walk) => walk.answers.iter().any(is_bad),
        Body::Greasing(greasing) => greasing.fittings.iter().any(is_bad),
        Body::Correction(correction) => correction.instead.as_deref().is_some_and(tells_harm),
        _ => false,
    }
}

/// The words may change, the point may be added; the severity may only rise.
fn keeps_fault(before: &Fault, after: &Fault) -> bool {
    after.severity >= before.severity && (before.point.is_none() || before.point == after.point)
}

/// Of a point answered twice in one entry the first answer holds.
fn keeps_answers(before: &[Answered], after: &[Answered]) -> bool {
    let at = |answered: &Answered| after.iter().find(|later| later.point == answered.point);
    before
        .iter()
        .filter(|answered| is_bad(answered))
        .all(|answered| at(answered).is_some_and(|later| as_bad(&answered.answer, &later.answer)))
}

/// Whether an answer is plainly bad by its kind.
fn is_bad(answered: &Answered) -> bool {
    match &answered.answer {
        Answer::Level { reads, looks, .. } => *reads != LevelReads::AtMark || bad_fluid(*looks),
        Answer::Fitting { took, .. } => *took == GreaseTook::Refused,
        Answer::PinClip(state) => *state != ClipState::Present,
        Answer::Bolts { state, .. } => *state != BoltState::Tight,
        Answer::Leak(class) => class.is_some(),
        Answer::Hose(state) => *state != HoseState::Sound,
        Answer::Structure(state) => *state != StructureState::Sound,
        Answer::Function(state) => *state != FunctionState::Works,
        Answer::Look(state) => *state >= LookState::Damaged,
        // Which combinations may crank is the book's to say: any that did is kept.
        Answer::Crank { cranked, bypassed } => *bypassed || cranked.contains(&Some(true)),
        Answer::Measure { .. } | Answer::NotChecked(_) => false,
    }
}

/// Whether a bad answer is followed by one that is at least as bad, in the same way.
fn as_bad(before: &Answer, after: &Answer) -> bool {
    match (before, after) {
        (Answer::Level { .. }, Answer::Level { .. }) => level_as_bad(before, after),
        (Answer::Fitting { .. }, Answer::Fitting { took, .. }) => *took == GreaseTook::Refused,
        (Answer::PinClip(before), Answer::PinClip(after)) => after >= before,
        (
            Answer::Bolts { state, how_many },
            Answer::Bolts {
                state: later,
                how_many: many,
            },
        ) => later >= state && many >= how_many,
        (Answer::Leak(before), Answer::Leak(after)) => after >= before,
        (Answer::Hose(before), Answer::Hose(after)) => after >= before,
        (Answer::Structure(before), Answer::Structure(after)) => after >= before,
        (Answer::Function(before), Answer::Function(after)) => after >= before,
        (Answer::Look(before), Answer::Look(after)) => after >= before,
        (Answer::Crank { .. }, Answer::Crank { .. }) => crank_as_bad(before, after),
        _ => false,
    }
}

/// A level counts only in its mark's pose and oil temperature, so that these must stay too.
fn level_as_bad(before: &Answer, after: &Answer) -> bool {
    let (
        Answer::Level {
            reads: r1,
            pose: p1,
            oil: o1,
            looks: l1,
        },
        Answer::Level {
            reads: r2,
            pose: p2,
            oil: o2,
            looks: l2,
        },
    ) = (before, after)
    else {
        return false;
    };
    let reads = *r1 == LevelReads::AtMark
        || r1 == r2
        || (*r1, *r2) == (LevelReads::Below, LevelReads::Nothing);
    reads && (p1, o1) == (p2, o2) && (!bad_fluid(*l1) || l1 == l2)
}

fn crank_as_bad(before: &Answer, after: &Answer) -> bool {
    let (
        Answer::Crank {
            cranked: c1,
            bypassed: b1,
        },
        Answer::Crank {
            cranked: c2,
            bypassed: b2,
        },
    ) = (before, after)
    else {
        return false;
    };
    let stays = |(was, is): (&Option<bool>, &Option<bool>)| *was != Some(true) || *is == Some(true);
    b2 >= b1 && c1.len() == c2.len() && c1.iter().zip(c2).all(stays)
}

fn bad_fluid(looks: FluidLooks) -> bool {
    matches!(looks, FluidLooks::Milky | FluidLooks::Wrong)
}
