//! The hour meter folded: changes, blips, jumps, rollovers, and what a ruling does to them.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use quantity::Exact;
use small_yard::*;
use yard::{entry::*, state::*, upkeep};

fn life(yard: &SmallYard) -> Option<(Exact, Exact)> {
    upkeep::life_hours(&yard.fold()).map(|life| (life.hours, life.plus_minus))
}

fn hours(text: &str) -> Option<(Exact, Exact)> {
    Some((exact(text), Exact::zero()))
}

fn changed(old_last: Option<&str>, new_first: &str, unmetered: Option<&str>) -> Body {
    let why = "dead".to_owned();
    Body::MeterChange(MeterChange {
        meter: None,
        old_last: old_last.map(q),
        new_first: q(new_first),
        unmetered: unmetered.map(q),
        why,
    })
}

/// An invented figure of the trade's notes: 700.4 h on a dead meter, 12 ± 6 h unmetered, then 88.2 h: 800.6 ± 6 h.
#[test]
fn a_replaced_meter_goes_on_counting() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "690.0 h");
    yard.says(
        DEPUTY,
        "2026-05-03T07:00",
        changed(Some("700.4 h"), "0 h", Some("12 h ± 6 h")),
    );
    yard.reads(OPERATOR, "2026-06-20T07:00", "88.2 h");
    assert_eq!(life(&yard), Some((exact("800.6"), exact("6"))));
    let figure = upkeep::hours_figure(&yard.fold()).unwrap();
    assert!((figure.number("life").unwrap() - 800.6).abs() < 1e-9);
    assert!((figure.output("life").unwrap().half_width.unwrap() - 6.0).abs() < 1e-9);
    assert_eq!(
        upkeep::meter_at(&yard.fold(), &exact("810.6")),
        Some(exact("98.2"))
    );
}

#[test]
fn life_hours_are_what_the_first_meter_shows() {
    let mut yard = SmallYard::new();
    assert_eq!(life(&yard), None);
    yard.reads(OPERATOR, "2026-05-01T07:00", "412.6 h");
    assert_eq!(life(&yard), hours("412.6"));
    yard.reads(OPERATOR, "2026-05-01T19:00", "420.1 h");
    assert_eq!(life(&yard), hours("420.1"));
}

#[test]
fn hours_come_from_rounds_runs_and_handovers_alike() {
    let mut yard = SmallYard::new();
    let Body::WalkRound(walk) = yard.walk_body(1, vec![], None) else {
        unreachable!()
    };
    yard.says(
        OPERATOR,
        "2026-05-01T07:00",
        Body::WalkRound(WalkRound {
            hours: Some(q("100 h")),
            ..walk
        }),
    );
    yard.says(
        OPERATOR,
        "2026-05-01T10:00",
        Body::Run(Run {
            part: RunPart::End,
            hours: Some(q("102 h")),
            work: None,
            amiss: vec![],
            in_sight_of: None,
        }),
    );
    let book = yard.book;
    let handover = Handover {
        book,
        hours: Some(q("103.5 h")),
        engine: EngineLeft::Off,
        steps: vec![],
        next: None,
    };
    yard.says(OPERATOR, "2026-05-01T12:00", Body::Handover(handover));
    let shown: Vec<_> = yard
        .fold()
        .hours
        .readings
        .iter()
        .map(|read| read.shows.clone())
        .collect();
    assert_eq!(shown, [exact("100"), exact("102"), exact("103.5")]);
}

/// Read in public issue threads: a meter that shows 0 once must not book its whole life again.
#[test]
fn one_blip_is_asked_about_and_counting_goes_on() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "700 h");
    let blip = yard.reads(OPERATOR, "2026-05-01T12:00", "0 h");
    let state = yard.fold();
    assert_eq!(
        state.questions[&blip].asks,
        Asks::MeterFell {
            from: exact("700"),
            to: exact("0")
        }
    );
    assert!(state.hours.in_question());
    assert_eq!(upkeep::life_hours(&state), None);
    yard.reads(OPERATOR, "2026-05-01T17:00", "705.5 h");
    let state = yard.fold();
    assert!(
        state.questions.contains_key(&blip),
        "the blip is still asked about"
    );
    assert_eq!(life(&yard), hours("705.5"));
}

#[test]
fn a_meter_replaced_in_silence_stays_in_question_until_it_is_ruled() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "700 h");
    let fell = yard.reads(OPERATOR, "2026-05-02T07:00", "3 h");
    yard.reads(OPERATOR, "2026-05-03T07:00", "9 h");
    let state = yard.fold();
    assert_eq!(state.hours.doubted, [fell]);
    assert_eq!(
        state.asked().count(),
        1,
        "the reading that fits the new line is not asked about again"
    );
    yard.rules(
        DEPUTY,
        "2026-05-04T07:00",
        fell,
        RulingSays::MeterReplaced {
            unmetered: Some(q("2 h ± 1 h")),
        },
    );
    assert_eq!(life(&yard), Some((exact("708"), exact("1"))));
    assert!(yard.fold().questions.is_empty());
}

#[test]
fn a_wrong_reading_is_passed_over_and_only_a_deputy_says_so() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "700 h");
    let wrong = yard.reads(OPERATOR, "2026-05-02T07:00", "3 h");
    let ruling = yard.rules(
        OPERATOR,
        "2026-05-02T08:00",
        wrong,
        RulingSays::ReadingWrong,
    );
    let state = yard.fold();
    assert!(state.questions.contains_key(&wrong));
    assert_eq!(
        state.questions[&ruling].asks,
        Asks::NotEntitled { of: fault(wrong) }
    );
    yard.rules(STEWARD, "2026-05-02T09:00", wrong, RulingSays::Answered);
    assert!(
        yard.fold().questions.contains_key(&wrong),
        "an answer in words does not say what the meter did"
    );
    yard.rules(STEWARD, "2026-05-02T10:00", wrong, RulingSays::ReadingWrong);
    assert!(!yard.fold().questions.contains_key(&wrong));
    assert_eq!(life(&yard), hours("700"));
}

/// A counter of 23 bits in tenths of an hour: 838 857.6 to 12.4 with modulus 838 860.8 is an advance of 15.6 h.
#[test]
fn a_meter_that_rolled_over_is_counted_on_by_ruling() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "838857.6 h");
    let over = yard.reads(OPERATOR, "2026-05-02T07:00", "12.4 h");
    assert!(yard.fold().hours.in_question());
    yard.rules(
        STEWARD,
        "2026-05-02T08:00",
        over,
        RulingSays::MeterRolledOver,
    );
    assert_eq!(life(&yard), hours("838873.2"));
    let figure = upkeep::hours_figure(&yard.fold()).unwrap();
    assert!((figure.number("life").unwrap() - 838_873.2).abs() < 1e-6);
    yard.reads(OPERATOR, "2026-05-03T07:00", "13.4 h");
    assert_eq!(life(&yard), hours("838874.2"));
}

/// 26 h between two readings 20 h apart cannot be: 1214.6 typed 1241.6.
#[test]
fn an_impossible_jump_is_asked_about_with_its_digits_swapped() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "1214.0 h");
    let jumped = yard.reads(OPERATOR, "2026-05-02T03:00", "1241.6 h");
    let state = yard.fold();
    let Asks::MeterJumped {
        from,
        to,
        passed,
        perhaps,
    } = &state.questions[&jumped].asks
    else {
        panic!("not asked")
    };
    assert_eq!(
        (from, to, passed),
        (&exact("1214"), &exact("1241.6"), &exact("20"))
    );
    assert_eq!(perhaps, &[exact("1214.6")]);
    assert_eq!(life(&yard), None);
    yard.reads(OPERATOR, "2026-05-02T09:00", "1216.0 h");
    assert_eq!(life(&yard), hours("1216"));
}

#[test]
fn a_reading_that_fits_both_lines_leaves_the_hours_in_question() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "1214.0 h");
    let jumped = yard.reads(OPERATOR, "2026-05-02T03:00", "1241.6 h");
    yard.reads(OPERATOR, "2026-05-03T07:00", "1242.0 h");
    assert_eq!(life(&yard), None);
    yard.rules(DEPUTY, "2026-05-03T08:00", jumped, RulingSays::ReadingRight);
    assert_eq!(life(&yard), hours("1242"));
}

#[test]
fn what_was_possible_counts_from_the_last_change() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T07:00", "100 h");
    // The hand stuck for a day and caught up: 26 h in 30 h is possible.
    yard.reads(OPERATOR, "2026-05-02T12:00", "100 h");
    yard.reads(OPERATOR, "2026-05-02T13:00", "126 h");
    assert_eq!(life(&yard), hours("126"));
}

#[test]
fn a_reading_in_no_unit_of_time_is_asked_about() {
    let mut yard = SmallYard::new();
    let odd = yard.reads(OPERATOR, "2026-05-01T07:00", "120 km");
    assert!(matches!(
        yard.fold().questions[&odd].asks,
        Asks::Unreadable { .. }
    ));
    let visitor = yard.reads(VISITOR, "2026-05-01T07:00", "120 h");
    assert_eq!(
        yard.fold().questions[&visitor].asks,
        Asks::NotEntitled { of: fault(visitor) }
    );
    assert_eq!(life(&yard), None);
}

proptest! {
    /// Whatever was read, accepted readings never lose hours, and each reading is accepted, asked about or left in doubt.
    #[test]
    fn life_hours_never_fall(readings in prop::collection::vec((0u32..400, 0u32..3000), 1..40)) {
        let mut yard = SmallYard::new();
        let mut day = at("2026-02-01T00:00");
        for (gap, tenths) in readings {
            day += jiff::SignedDuration::from_mins(i64::from(gap));
            let shows = quantity::Quantity::from_exact(Exact::from_ratio(i64::from(tenths), 10).unwrap(), quantity::Unit::Hour, None);
            let n = yard.entries.len() as u64 + 1;
            yard.entries.push(entry(n, Some(machine()), OPERATOR, day, Body::MeterReading(MeterReading { meter: None, shows })));
        }
        let state = yard.fold();
        let lives: Vec<_> = state.hours.readings.iter().map(|read| read.life.hours.clone()).collect();
        prop_assert!(lives.is_sorted());
        for segments in state.hours.segments.windows(2) {
            prop_assert!(segments[0].last >= segments[0].first);
        }
        if let Some(life) = upkeep::life_hours(&state) {
            prop_assert_eq!(Some(&life.hours), lives.last());
        }
    }
}
