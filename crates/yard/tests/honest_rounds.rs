//! Honest rounds: signs of a round not walked, which change nothing; and the one point each round is asked to show.
#![allow(clippy::unwrap_used)]

mod small_yard;

use jiff::SignedDuration;
use proptest::prelude::*;
use small_yard::*;
use std::collections::BTreeSet;
use yard::{
    book::Rhythm,
    entry::*,
    handover::judge,
    id::*,
    walkround::{Shown, Sign, show_me, show_me_points, shown, signs},
};

/// A book of 42 plain looks, ten seconds each, and a sag.
fn forty_two() -> String {
    let head = BOOK.split("[[point]]").next().unwrap().to_owned();
    let looks = (1..=42).map(|n| {
        format!(
            "\n[[point]]\nid = \"look-{n}\"\nstation = \"left\"\nkind = \"look\"\nwhat = \"Look {n}\"\nabout = \"tidiness\"\nrhythm = \"every start\"\nseconds = 10\n"
        )
    });
    let sag = BOOK
        .split("[[point]]")
        .find(|point| point.contains("id = \"sag-left\""))
        .unwrap();
    let text = format!("{head}{}\n[[point]]{sag}", looks.collect::<String>());
    let read = yard::book::read(&text, &quantity::Habits::default());
    assert!(read.book.is_some(), "{:?}", read.troubles);
    text
}

fn told(yard: &SmallYard, n: u64) -> Vec<Sign> {
    let machine = yard.fold();
    signs(&machine, &machine.rounds[&round_id(n)], &yard.zone)
}

/// A round begun with an empty part, its 42 looks written so many seconds after.
fn walked_in(seconds: i64, from_paper: bool) -> (SmallYard, Vec<Sign>) {
    let mut yard = SmallYard::with_book(&forty_two());
    yard.walks(OPERATOR, "2026-03-02T07:00", 1, vec![]);
    let names: Vec<String> = (1..=42).map(|n| format!("look-{n}")).collect();
    let all = names
        .iter()
        .map(|id| (id.as_str(), look(yard::entry::LookState::Well)))
        .collect();
    yard.closes(OPERATOR, "2026-03-02T07:00", 1, all);
    let last = yard.entries.last_mut().unwrap();
    last.ordered_at += SignedDuration::from_secs(seconds);
    if let Body::WalkRound(walk) = &mut last.body {
        walk.from_paper = from_paper;
    }
    let signs = told(&yard, 1);
    (yard, signs)
}

#[test]
fn forty_two_points_in_thirty_eight_seconds_are_too_quick() {
    let (yard, signs) = walked_in(38, false);
    assert_eq!(
        signs,
        [Sign::TooQuick {
            points: 42,
            took: 38,
            given: 420
        }]
    );
    // Still kept, and it counts as any round does.
    let round = yard.fold().rounds[&round_id(1)].clone();
    assert!(round.closed.is_some() && round.in_time.len() == 42);
    // A quarter of the time the book gives is not quick, and paper has no times.
    assert_eq!(walked_in(105, false).1, []);
    assert_eq!(walked_in(104, false).1.len(), 1);
    assert_eq!(walked_in(38, true).1, []);
}

#[test]
fn what_was_written_in_one_go_has_no_time_to_be_quick_in() {
    let mut yard = SmallYard::with_book(&forty_two());
    let names: Vec<String> = (1..=42).map(|n| format!("look-{n}")).collect();
    let all = names
        .iter()
        .map(|id| (id.as_str(), look(LookState::Well)))
        .collect();
    yard.closes(OPERATOR, "2026-03-02T07:00", 1, all);
    assert_eq!(told(&yard, 1), []);
}

#[test]
fn thirty_two_millimetres_eleven_days_running_is_told() {
    let mut yard = SmallYard::new();
    for day in 1..=11 {
        let value = if day % 2 == 0 { "32 mm" } else { "3.2 cm" };
        let when = format!("2026-03-{day:02}T07:00");
        yard.closes(OPERATOR, &when, day, vec![("sag-left", sag(value))]);
        let same = told(&yard, day).into_iter().find_map(|sign| match sign {
            Sign::SameValue { days, .. } => Some(days),
            _ => None,
        });
        assert_eq!(same, (day >= 7).then_some(usize::try_from(day).unwrap()));
    }
    // Somebody else who reads another value begins a run of their own; so does a new value.
    yard.closes(
        OTHER,
        "2026-03-12T07:00",
        12,
        vec![("sag-left", sag("35 mm"))],
    );
    assert_eq!(told(&yard, 12), []);
    yard.closes(
        OPERATOR,
        "2026-03-13T07:00",
        13,
        vec![("sag-left", sag("33 mm"))],
    );
    assert_eq!(told(&yard, 13), []);
}

#[test]
fn ten_rounds_alike_to_the_number_are_told_and_words_alone_are_not() {
    let words = [
        "clip-left",
        "clip-right",
        "weekly-a",
        "weekly-b",
        "weekly-c",
        "monthly",
    ];
    let answers = |strokes: Option<u32>| {
        let mut all: Vec<(&str, Answer)> = words
            .iter()
            .map(|id| match *id {
                "clip-left" | "clip-right" => (*id, clip(ClipState::Present)),
                id => (id, look(LookState::Well)),
            })
            .collect();
        all.push((
            "fit-boom",
            Answer::Fitting {
                took: GreaseTook::Seen,
                strokes,
            },
        ));
        all
    };
    let alike = |strokes: Option<u32>, last: Option<u32>| {
        let mut yard = SmallYard::new();
        for n in 1..=10 {
            let when = format!("2026-03-{n:02}T07:00");
            let strokes = if n == 10 { last } else { strokes };
            yard.closes(OPERATOR, &when, n, answers(strokes));
        }
        told(&yard, 10)
    };
    assert_eq!(
        alike(Some(4), Some(4)),
        [Sign::AlwaysTheSame {
            rounds: 10,
            points: 7
        }]
    );
    assert_eq!(alike(Some(4), Some(5)), []);
    assert_eq!(alike(None, None), []);
}

#[test]
fn each_round_is_asked_to_show_one_point_the_same_wherever_it_is_worked_out() {
    let yard = SmallYard::new();
    let machine = yard.fold();
    let book = machine.book().unwrap().book.clone();
    let points: Vec<_> = show_me_points(&book, RoundPurpose::Start)
        .iter()
        .map(|point| point.id.clone())
        .collect();
    assert_eq!(
        points.iter().map(PointId::as_str).collect::<BTreeSet<_>>(),
        BTreeSet::from(["clip-left", "clip-right", "hose-boom", "oil-hydraulic"])
    );
    // The last eight bytes as a number, counted round the points: what a phone does in its own words.
    let picked = |id: &str| {
        let round = RoundId(id.parse().unwrap());
        show_me(&book, round, RoundPurpose::Start).map(|point| point.id.clone())
    };
    let id = "01932f6a-0000-7000-8000-000000000005";
    assert_eq!(
        picked(id),
        Some(points[0x8000_0000_0000_0005_usize % 4].clone())
    );
    let all: BTreeSet<_> = (0..4)
        .map(|n| picked(&format!("01932f6a-0000-7000-8000-00000000000{n}")))
        .collect();
    assert_eq!(all.len(), 4);
    let relief = RoundId(id.parse().unwrap());
    assert_eq!(show_me(&book, relief, RoundPurpose::Relief), None);
}

fn with_photo(yard: &mut SmallYard, when: &str, by: PersonId) {
    let note = PhotoNote {
        photo: PhotoId(uuid::Uuid::from_u128(77)),
        of: None,
        point: Some(point("clip-left")),
        text: None,
    };
    yard.says(by, when, Body::Photo(note));
}

#[test]
fn a_photo_may_be_taken_or_declined() {
    let mut yard = SmallYard::new();
    yard.walks(OPERATOR, "2026-03-02T07:00", 1, vec![]);
    let state = |yard: &SmallYard| {
        let machine = yard.fold();
        shown(&machine, &machine.rounds[&round_id(1)], &point("clip-left"))
    };
    assert_eq!(state(&yard), Shown::NotYet);
    with_photo(&mut yard, "2026-03-02T07:01", OTHER);
    assert_eq!(state(&yard), Shown::NotYet);
    let mut declined = yard.clone();
    let mut part = declined.walk_body(1, vec![], None);
    if let Body::WalkRound(walk) = &mut part {
        walk.no_photo = Some("camera broken".into());
    }
    declined.says(OPERATOR, "2026-03-02T07:02", part);
    assert_eq!(state(&declined), Shown::Declined("camera broken".into()));
    with_photo(&mut yard, "2026-03-02T07:03", OPERATOR);
    assert_eq!(state(&yard), Shown::Photo);
    yard.closes(OPERATOR, "2026-03-02T07:10", 1, vec![]);
    assert_eq!(state(&yard), Shown::Photo);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 30, failure_persistence: None, ..ProptestConfig::default() })]

    /// However quick a round was, and whether or not it shows what it was asked to: the verdict is the same.
    #[test]
    fn no_sign_and_no_photo_changes_a_verdict(seconds in 1i64..2000, why in proptest::option::of("[a-z]{1,8}")) {
        let (mut yard, _) = walked_in(seconds, false);
        let (slow, _) = walked_in(2000, false);
        let first = yard.entries.iter_mut().rev().nth(1).unwrap();
        if let Body::WalkRound(walk) = &mut first.body {
            walk.no_photo = why;
        }
        let look = |yard: &SmallYard| yard.sees(OPERATOR, "2026-03-02T09:00", |seen| {
            let said = judge(seen);
            (said.verdict, said.reasons)
        });
        prop_assert_eq!(look(&yard), look(&slow));
    }

    #[test]
    fn the_point_to_show_is_one_that_comes_up_at_every_start(id in any::<u128>()) {
        let machine = SmallYard::new().fold();
        let book = machine.book().unwrap().book.clone();
        let point = show_me(&book, RoundId(uuid::Uuid::from_u128(id)), RoundPurpose::Start).unwrap();
        prop_assert!(point.rhythms.contains(&Rhythm::EveryStart));
    }
}
