//! Every blank, filled in and walked round: fit when all is well, and no point that bears on safety is dead weight.
#![allow(clippy::unwrap_used)]

mod blank;
mod small_yard;

use blank::{
    answers::{bad, well},
    blanks,
    filled::{filled, undrawn, without},
};
use quantity::Habits;
use small_yard::*;
use std::collections::BTreeMap;
use yard::{
    book::{Book, GapCode, Point, gaps, read},
    code::Coded,
    entry::*,
    handover::{Judgement, Situation, Verdict, What, bears_on_safety, judge},
    id::PointId,
    state::{fold_machine_reading, fold_yard},
};

/// How the machine answers, point by point.
type Answers = BTreeMap<PointId, Answer>;

fn book(text: &str, of: &str) -> Book {
    let reading = read(text, &Habits::default());
    assert_eq!(reading.troubles, [], "{of}");
    reading.book.unwrap()
}

/// What the operator is told at seven in the morning: signed off, the machine left at rest the day before, walked round with
/// these answers. What this book has no point for is not answered, because nobody is asked.
fn told(book: &Book, answers: &Answers) -> Judgement {
    let mut yard = SmallYard::with_book("the text is not read again: the book is at hand");
    sign_off(&mut yard);
    left_at_rest(&mut yard, book);
    let known = |id: &PointId| book.points.iter().any(|point| point.id == *id);
    let given = answers
        .iter()
        .filter(|(id, _)| known(id))
        .map(|(id, answer)| (id.as_str(), answer.clone()))
        .collect();
    yard.closes(OPERATOR, "2026-03-02T07:00", 1, given);
    let people = fold_yard(&yard.entries);
    let state = fold_machine_reading(&machine(), &yard.entries, &people, &|_: &str| {
        Ok(book.clone())
    });
    judge(&Situation {
        machine: &state,
        yard: &people,
        person: OPERATOR,
        now: at("2026-03-02T07:10"),
        zone: &yard.zone,
        habits: &yard.habits,
        others: &yard::handover::NoOthers,
    })
}

fn sign_off(yard: &mut SmallYard) {
    let given = SignOff {
        person: OPERATOR,
        given: true,
        until: None,
        limits: None,
        in_sight: false,
    };
    yard.says(STEWARD, "2026-03-01T12:00", Body::SignOff(given));
}

fn left_at_rest(yard: &mut SmallYard, book: &Book) {
    let proven = |step: &yard::book::RestStep| RestAnswer {
        step: step.id.clone(),
        state: RestState::Proven,
        note: None,
    };
    let left = Handover {
        book: yard.book,
        hours: None,
        engine: EngineLeft::Off,
        steps: book.rest.iter().map(proven).collect(),
        next: None,
    };
    yard.says(STEWARD, "2026-03-01T16:00", Body::Handover(left));
}

fn all_well(book: &Book) -> Answers {
    let answer = |point: &Point| (point.id.clone(), well(point));
    book.points.iter().map(answer).collect()
}

fn reasons(said: &Judgement) -> Vec<String> {
    let name = |reason: &yard::handover::Reason| match (&reason.point, &reason.what) {
        (Some(point), _) => format!("{} at {point}", reason.rule),
        (None, What::Gap { gap }) => format!("gap {gap}"),
        (None, _) => reason.rule.to_owned(),
    };
    said.reasons.iter().map(name).collect()
}

/// For each blank its text, filled in, and the book it reads as.
fn each(look: impl Fn(&str, &str, &Book) + Sync) {
    std::thread::scope(|scope| {
        for (name, text) in blanks() {
            let look = &look;
            scope.spawn(move || {
                let text = undrawn(&filled(&name, &text));
                look(&name, &text, &book(&text, &name));
            });
        }
    });
}

/// What only the machine itself can tell is invented here; nothing that bears on safety is then left open.
#[test]
fn a_filled_blank_has_no_gap_that_bears_on_safety() {
    each(|name, _, book| {
        let open: Vec<String> = gaps(book)
            .into_iter()
            .filter(|gap| gap.bears_on_safety)
            .map(|gap| gap.id)
            .collect();
        assert!(open.is_empty(), "{name}: {open:?}");
    });
}

#[test]
fn a_machine_that_is_well_is_fit() {
    each(|name, _, book| {
        let said = told(book, &all_well(book));
        assert_eq!(said.verdict, Verdict::Fit, "{name}: {:?}", reasons(&said));
    });
}

/// A machine bad at one point only: with the point in the book it is not fit to run, and says where. With the point deleted
/// from the book's text nobody is asked: either the machine passes as fit, so the point is what keeps it standing; or the book
/// itself says what it has lost.
#[test]
fn no_point_that_bears_on_safety_is_dead_weight() {
    each(|name, text, book| {
        let watching = book
            .points
            .iter()
            .filter(|point| bears_on_safety(Some(point)));
        for point in watching {
            let mut answers = all_well(book);
            answers.insert(point.id.clone(), bad(point));
            let with = told(book, &answers);
            let at_it = |reason: &yard::handover::Reason| {
                reason.point.as_ref() == Some(&point.id) && reason.weighs > Verdict::Fit
            };
            assert!(
                with.verdict > Verdict::Fit && with.reasons.iter().any(at_it),
                "{name}, bad at {}: {:?}",
                point.id,
                reasons(&with)
            );
            let of = format!("{name} without {}", point.id);
            let lost = self::book(&without(text, &point.id), &of);
            assert_eq!(lost.points.len() + 1, book.points.len(), "{of}");
            let said = told(&lost, &answers);
            let gap = format!("gap {}", lost_gap(point));
            assert!(
                said.verdict == Verdict::Fit || reasons(&said) == [gap],
                "{of}: {:?}",
                reasons(&said)
            );
        }
    });
}

/// The gap a book has when the last point of this sort is deleted.
fn lost_gap(point: &Point) -> String {
    match point.kind {
        yard::book::PointKind::Crank(_) => GapCode::NoCrank.code().to_owned(),
        yard::book::PointKind::PinClip => GapCode::NoPinClips.code().to_owned(),
        _ => format!("{}:{}", GapCode::NoPointFor.code(), point.about.code()),
    }
}

/// Two points that ask the same would each be dead weight beside the other.
#[test]
fn no_two_points_ask_the_same() {
    each(|name, _, book| {
        let asked = |point: &Point| {
            let at = point
                .at
                .map(|at| format!("{:.3} {:.3} {:.3}", at.x, at.y, at.z));
            (
                point.what.clone(),
                point.kind.code(),
                point.about,
                point.engine,
                at,
            )
        };
        for (index, point) in book.points.iter().enumerate() {
            let twice = book.points[..index].iter().find(|other| {
                let (one, two) = (asked(point), asked(other));
                one.0 == two.0
                    || (one.4.is_some()
                        && (one.1, one.2, one.3, &one.4) == (two.1, two.2, two.3, &two.4))
            });
            assert_eq!(twice.map(|other| &other.id), None, "{name}: {}", point.id);
        }
    });
}
