//! Several meters on one machine: broken, stuck, estimated from one another, told where there is none.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use quantity::Exact;
use small_yard::*;
use yard::{book, entry::*, handover, id::EntryId, state::*, upkeep, walkround};

const METER: &str = "[meter]\nkind = \"running\"\n";

/// The loader's book with its meter said otherwise.
fn book_with(meters: &str) -> String {
    assert!(BOOK.contains("[meter]"), "the loader has a meter");
    let (before, rest) = BOOK.split_once("[meter]").unwrap();
    let after = rest.split_once("\n[").map_or("", |(_, after)| after);
    format!("{before}{meters}\n[{after}")
}

fn yard_with(meters: &str) -> SmallYard {
    let text = book_with(meters);
    let read = book::read(&text, &quantity::Habits::default());
    assert!(read.book.is_some(), "{:?}", read.troubles);
    SmallYard::with_book(&text)
}

fn two_meters() -> SmallYard {
    yard_with(&format!(
        "{METER}\n[[further-meter]]\nid = \"dash-clock\"\nname = \"dash clock\"\nkind = \"key-on\"\n"
    ))
}

fn reads(yard: &mut SmallYard, when: &str, meter: Option<&str>, shows: &str) -> EntryId {
    let reading = MeterReading {
        meter: meter.map(item),
        shows: q(shows),
    };
    yard.says(OPERATOR, when, Body::MeterReading(reading))
}

fn broken(yard: &mut SmallYard, when: &str, since: Option<&str>) -> EntryId {
    let broken = MeterBroken {
        meter: None,
        since: since.map(at),
        why: "dark".to_owned(),
    };
    yard.says(OPERATOR, when, Body::MeterBroken(broken))
}

fn tells(yard: &mut SmallYard, when: &str, ran: &str) -> EntryId {
    yard.says(OPERATOR, when, Body::HoursTold(HoursTold { ran: q(ran) }))
}

fn runs(yard: &mut SmallYard, from: &str, to: &str) {
    for (part, when) in [(RunPart::Start, from), (RunPart::End, to)] {
        let run = Run {
            part,
            hours: None,
            work: None,
            amiss: vec![],
            in_sight_of: None,
        };
        yard.says(OPERATOR, when, Body::Run(run));
    }
}

fn life(yard: &SmallYard) -> Option<(Exact, Exact)> {
    upkeep::life_hours(&yard.fold()).map(|life| (life.hours, life.plus_minus))
}

fn is(hours: &str, plus_minus: &str) -> Option<(Exact, Exact)> {
    Some((exact(hours), exact(plus_minus)))
}

/// Finding 5 of the gathered practitioners' problems: each of the instruments has its own line.
#[test]
fn each_meter_has_its_own_line_and_service_goes_by_the_first() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "812.3 h");
    reads(
        &mut yard,
        "2026-05-01T07:00",
        Some("dash-clock"),
        "1020.0 h",
    );
    reads(
        &mut yard,
        "2026-05-01T12:00",
        Some("dash-clock"),
        "1024.6 h",
    );
    assert_eq!(life(&yard), is("812.3", "0"));
    let shown = upkeep::hours_shown(&yard.fold());
    assert_eq!(shown.len(), 2);
    assert!(shown[0].service && !shown[1].service);
    assert_eq!(shown[1].life.as_ref().unwrap().hours, exact("1024.6"));
}

#[test]
fn service_hours_go_by_the_kind_that_the_book_declares() {
    let mut yard = yard_with(
        "[meter]\nkind = \"key-on\"\n[[further-meter]]\nid = \"engine-clock\"\nname = \"engine clock\"\nkind = \"running\"\n[service-hours]\nkind = \"running\"\n",
    );
    reads(&mut yard, "2026-05-01T07:00", None, "812.3 h");
    assert_eq!(life(&yard), None);
    reads(
        &mut yard,
        "2026-05-01T07:00",
        Some("engine-clock"),
        "640.1 h",
    );
    assert_eq!(life(&yard), is("640.1", "0"));
}

#[test]
fn service_hours_of_a_kind_that_nothing_tells_are_a_mistake() {
    let text = book_with(&format!("{METER}[service-hours]\nkind = \"key-on\"\n"));
    let read = book::read(&text, &quantity::Habits::default());
    let words = |trouble: &book::Trouble| matches!(&trouble.what, book::TroubleKind::UnknownWord { allowed, .. } if allowed == "running");
    assert!(read.troubles.iter().any(words), "{:?}", read.troubles);
}

/// The case of the leaf: 30 ± 10 % of the time at 900 rpm, else 1800, base speed 1500: 100 h counted are 98.04 h run.
#[test]
fn running_hours_come_from_a_counter_of_revolutions_with_their_doubt() {
    let mut yard = yard_with(
        "[meter]\nkind = \"revolutions\"\nbase-speed = \"1500 rpm\"\nidle-speed = \"900 rpm\"\nworking-speed = \"1800 rpm\"\nidle-share = \"30 % ± 10 %\"\n[service-hours]\nkind = \"running\"\n",
    );
    reads(&mut yard, "2026-05-01T07:00", None, "100 h");
    let (hours, plus_minus) = life(&yard).unwrap();
    assert!((hours.to_f64() - 98.04).abs() < 0.005);
    // At 40 % the mean is 1440 rpm and 104.17 h, at 20 % it is 1620 rpm and 92.59 h: the wider side is 6.13 h.
    assert!((plus_minus.to_f64() - 6.13).abs() < 0.01, "{plus_minus:?}");
    let figure = upkeep::hours_figure(&yard.fold()).unwrap();
    assert!((figure.number("life").unwrap() - 98.04).abs() < 0.005);
    assert!(figure.output("life").unwrap().half_width.unwrap() > 5.0);
}

/// P21 of the gathered practitioners' problems: dead on 3 May at 700.4 h, about 12 h told, a new one from 0, 88.2 h.
#[test]
fn a_dead_meter_is_told_then_changed_and_shows_one_line() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700.0 h");
    reads(&mut yard, "2026-05-03T07:00", None, "700.4 h");
    let said = broken(&mut yard, "2026-05-03T08:00", Some("2026-05-03T07:00"));
    assert_eq!(
        yard.fold().questions[&said].asks,
        Asks::MeterSaidBroken {
            since: at("2026-05-03T07:00")
        }
    );
    yard.rules(STEWARD, "2026-05-03T09:00", said, RulingSays::ReadingRight);
    assert!(yard.fold().questions.is_empty());
    tells(&mut yard, "2026-05-05T17:00", "5 h ± 2 h");
    tells(&mut yard, "2026-05-09T17:00", "7 h ± 4 h");
    assert_eq!(life(&yard), is("712.4", "6"));
    let figure = upkeep::hours_figure(&yard.fold()).unwrap();
    assert!((figure.number("life").unwrap() - 712.4).abs() < 1e-9);
    let change = MeterChange {
        meter: None,
        old_last: Some(q("700.4 h")),
        new_first: q("0 h"),
        unmetered: None,
        why: "new one".to_owned(),
    };
    yard.says(OPERATOR, "2026-05-10T07:00", Body::MeterChange(change));
    assert_eq!(life(&yard), is("712.4", "6"));
    reads(&mut yard, "2026-06-20T07:00", None, "88.2 h");
    assert_eq!(life(&yard), is("800.6", "6"));
    let state = yard.fold();
    assert!(state.questions.is_empty());
    let line: Vec<_> = state
        .hours
        .readings
        .iter()
        .map(|read| &read.life.hours)
        .collect();
    assert!(line.is_sorted(), "one line, not a drop: {line:?}");
}

#[test]
fn the_gap_of_a_broken_meter_is_estimated_from_the_one_beside_it() {
    let mut yard = two_meters();
    // 10, 8 and 12 h of key are 8, 7 and 9 h of running: the case of the leaf, 0.8 ± 0.149.
    for (when, running, key) in [
        ("2026-05-01T07:00", "100 h", "200 h"),
        ("2026-05-02T07:00", "108 h", "210 h"),
        ("2026-05-03T07:00", "115 h", "218 h"),
        ("2026-05-04T07:00", "124 h", "230 h"),
    ] {
        reads(&mut yard, when, None, running);
        reads(&mut yard, when, Some("dash-clock"), key);
    }
    let estimate = upkeep::meters_figure(&yard.fold(), Some(&item("dash-clock"))).unwrap();
    assert!((estimate.number("hours").unwrap() - 124.0 * 30.0 / 24.0).abs() < 1e-6);
    broken(&mut yard, "2026-05-04T08:00", None);
    reads(&mut yard, "2026-05-06T07:00", Some("dash-clock"), "245 h");
    let (hours, plus_minus) = life(&yard).unwrap();
    assert!((hours.to_f64() - 136.0).abs() < 1e-4, "{hours:?}");
    assert!(
        (plus_minus.to_f64() - 15.0 * 0.15).abs() < 0.05,
        "{plus_minus:?}"
    );
    let state = yard.fold();
    assert_eq!(
        state.hours.uncounted.unwrap().by_meter,
        Some(Some(item("dash-clock")))
    );
}

/// P21: a meter that sticks on a 9 until rapped. The same reading although a run was written is asked about, once.
#[test]
fn a_meter_that_stands_while_the_machine_runs_is_asked_about() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "812.9 h");
    runs(&mut yard, "2026-05-01T08:00", "2026-05-01T11:00");
    let stuck = reads(&mut yard, "2026-05-01T11:30", None, "812.9 h");
    let asked = Asks::MeterStuck {
        shows: exact("812.9"),
        ran: exact("3"),
    };
    assert_eq!(yard.fold().questions[&stuck].asks, asked);
    runs(&mut yard, "2026-05-01T12:00", "2026-05-01T13:00");
    reads(&mut yard, "2026-05-01T13:30", None, "812.9 h");
    assert_eq!(yard.fold().asked().count(), 1, "asked once");
    assert!(
        yard.sees(OPERATOR, "2026-05-01T14:00", handover::judge)
            .reasons
            .iter()
            .any(|reason| reason.what == handover::What::HoursInQuestion)
    );
    // It stood: what was told since it last moved counts, also what was told before somebody noticed.
    tells(&mut yard, "2026-05-01T14:00", "4 h ± 0.5 h");
    yard.rules(STEWARD, "2026-05-01T15:00", stuck, RulingSays::MeterBroken);
    assert_eq!(life(&yard), is("816.9", "0.5"));
    assert!(yard.fold().questions.is_empty());
}

#[test]
fn a_reading_at_the_end_of_a_run_is_no_stuck_meter() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "812.3 h");
    runs(&mut yard, "2026-05-01T08:00", "2026-05-01T11:00");
    reads(&mut yard, "2026-05-01T11:00", None, "815.2 h");
    reads(&mut yard, "2026-05-01T11:05", None, "815.2 h");
    assert_eq!(yard.fold().asked().count(), 0);
}

#[test]
fn a_broken_meter_that_moves_is_asked_about_and_may_count_after_all() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700 h");
    let said = broken(&mut yard, "2026-05-01T12:00", None);
    tells(&mut yard, "2026-05-02T12:00", "4 h ± 1 h");
    let same = reads(&mut yard, "2026-05-02T13:00", None, "700 h");
    let moved = reads(&mut yard, "2026-05-03T07:00", None, "705 h");
    let state = yard.fold();
    assert!(!state.questions.contains_key(&same));
    assert_eq!(
        state.questions[&moved].asks,
        Asks::BrokenMeterMoved {
            from: exact("700"),
            to: exact("705")
        }
    );
    assert_eq!(life(&yard), None);
    yard.rules(STEWARD, "2026-05-03T08:00", said, RulingSays::Answered);
    yard.rules(STEWARD, "2026-05-03T08:00", moved, RulingSays::ReadingRight);
    assert_eq!(
        life(&yard),
        is("705", "0"),
        "what was told is in what it shows"
    );
    assert!(yard.fold().questions.is_empty());
}

#[test]
fn a_meter_wrongly_said_to_be_broken_counts_on() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700 h");
    let said = broken(&mut yard, "2026-05-01T12:00", None);
    reads(&mut yard, "2026-05-02T07:00", None, "703 h");
    yard.rules(STEWARD, "2026-05-02T08:00", said, RulingSays::ReadingWrong);
    assert_eq!(life(&yard), is("703", "0"));
    assert!(yard.fold().questions.is_empty());
}

#[test]
fn hours_told_count_only_where_no_meter_does_and_not_beyond_the_clock() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700 h");
    tells(&mut yard, "2026-05-01T12:00", "4 h");
    assert_eq!(life(&yard), is("700", "0"));
    broken(&mut yard, "2026-05-01T12:00", None);
    let much = tells(&mut yard, "2026-05-02T08:00", "40 h ± 2 h");
    assert!(matches!(
        yard.fold().questions[&much].asks,
        Asks::ToldTooMuch { .. }
    ));
    yard.rules(STEWARD, "2026-05-02T09:00", much, RulingSays::ReadingWrong);
    assert!(!yard.fold().questions.contains_key(&much));
}

/// Whoever tells of more hours than a day has is asked, however long the telling goes on already.
#[test]
fn more_hours_told_than_there_are_is_asked_about_without_a_meter_too() {
    let mut yard = yard_with("[meter]\nkind = \"none\"\n");
    let asked = |yard: &SmallYard| yard.fold().asked().count();
    tells(&mut yard, "2026-05-01T12:00", "300 h");
    tells(&mut yard, "2026-05-20T12:00", "5 h");
    tells(&mut yard, "2026-05-20T12:10", "6 h");
    assert_eq!(asked(&yard), 0, "two tell of one day");
    tells(&mut yard, "2026-05-21T12:00", "30 h ± 8 h");
    assert_eq!(asked(&yard), 0, "it may have been 22");
    let much = tells(&mut yard, "2026-06-22T12:00", "30 h");
    assert_eq!(asked(&yard), 0, "in a month");
    let more = tells(&mut yard, "2026-06-23T12:00", "30 h");
    assert!(!yard.fold().questions.contains_key(&much));
    assert!(matches!(
        yard.fold().questions[&more].asks,
        Asks::ToldTooMuch { .. }
    ));
}

#[test]
fn none_neither_counted_at_a_change_unsays_no_hours_told() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700 h");
    broken(&mut yard, "2026-05-01T12:00", None);
    tells(&mut yard, "2026-05-05T17:00", "5 h ± 2 h");
    let change = MeterChange {
        meter: None,
        old_last: Some(q("700 h")),
        new_first: q("0 h"),
        unmetered: Some(q("0 h")),
        why: "mended".into(),
    };
    yard.says(OPERATOR, "2026-05-06T08:00", Body::MeterChange(change));
    assert_eq!(life(&yard), is("705", "2"));
}

#[test]
fn a_reading_where_no_book_knows_a_meter_is_asked_about_and_adds_nothing() {
    let mut yard = yard_with("[meter]\nkind = \"none\"\n");
    tells(&mut yard, "2026-05-01T12:00", "2 h ± 0.5 h");
    let read = reads(&mut yard, "2026-05-02T07:00", None, "700 h");
    assert_eq!(life(&yard), is("2", "0.5"));
    let shows = exact("700");
    let asks = Asks::NoMeterToRead { shows };
    assert_eq!(yard.fold().questions[&read].asks, asks);
    yard.rules(STEWARD, "2026-05-02T09:00", read, RulingSays::ReadingWrong);
    assert!(yard.fold().questions.is_empty());
}

/// The ±s of independent tellings add as squares: 3 and 4 make 5.
#[test]
fn hours_are_shown_with_the_half_width_of_their_figure() {
    let mut yard = yard_with("[meter]\nkind = \"none\"\n");
    tells(&mut yard, "2026-05-01T12:00", "20 h ± 3 h");
    tells(&mut yard, "2026-05-08T12:00", "20 h ± 4 h");
    let shown = upkeep::shown_hours(&yard.fold()).unwrap();
    assert_eq!((shown.hours, shown.plus_minus), (exact("40"), exact("5")));
}

#[test]
fn a_machine_without_a_meter_has_hours_as_told_and_is_never_stood_down_for_want_of_one() {
    let mut yard = yard_with("[meter]\nkind = \"none\"\n");
    let state = yard.fold();
    let book = &state.book().unwrap().book;
    assert!(book.is_without_meter() && !book.has_meter());
    assert!(
        !book::gaps(book)
            .iter()
            .any(|gap| gap.code == book::GapCode::NoMeter)
    );
    assert_eq!(upkeep::life_hours(&state), None);
    tells(&mut yard, "2026-05-01T12:00", "2 h ± 0.5 h");
    tells(&mut yard, "2026-05-08T12:00", "4 h");
    // Told without a ±: a quarter of it.
    assert_eq!(life(&yard), is("6", "1.5"));
    let figure = upkeep::hours_figure(&yard.fold()).unwrap();
    assert!((figure.number("life").unwrap() - 6.0).abs() < 1e-9);
    let judged = yard.sees(OPERATOR, "2026-05-08T13:00", handover::judge);
    let hours = |reason: &handover::Reason| reason.what == handover::What::HoursInQuestion;
    assert!(!judged.reasons.iter().any(hours));
    let because = walkround::Because::HoursInQuestion;
    let plan = yard.sees(OPERATOR, "2026-05-08T13:00", |situation| {
        walkround::plan(situation, RoundPurpose::Start)
    });
    assert!(!format!("{plan:?}").contains(&format!("{because:?}")));
}

/// B19d: fell and recovered must not book the whole life; B19g: never a rate below nothing.
#[test]
fn a_meter_that_fell_and_recovered_books_only_what_ran() {
    let mut yard = two_meters();
    for (when, shows) in [
        ("2026-05-01T07:00", "8000 h"),
        ("2026-05-01T08:00", "0 h"),
        ("2026-05-01T09:00", "0.4 h"),
        ("2026-05-01T10:00", "8002.5 h"),
    ] {
        reads(&mut yard, when, None, shows);
    }
    assert_eq!(life(&yard), is("8002.5", "0"));
    assert_eq!(yard.fold().asked().count(), 1);
}

/// B19a: a blip of 0, then a spike: neither is hours.
#[test]
fn a_blip_then_a_spike_are_two_questions_and_no_hours() {
    let mut yard = two_meters();
    reads(&mut yard, "2026-05-01T07:00", None, "700 h");
    reads(&mut yard, "2026-05-01T08:00", None, "0 h");
    reads(&mut yard, "2026-05-01T09:00", None, "9000 h");
    reads(&mut yard, "2026-05-01T17:00", None, "706 h");
    assert_eq!(life(&yard), is("706", "0"));
    assert_eq!(yard.fold().asked().count(), 2);
}

proptest! {
    /// Whatever was read, broken and told: life hours never fall, and one meter never moves another's line.
    #[test]
    fn life_hours_never_fall_and_meters_keep_apart(said in prop::collection::vec((0u8..5, 1u32..300, 0u32..3000), 1..40)) {
        let (mut both, mut alone) = (two_meters(), two_meters());
        let mut day = at("2026-02-01T00:00");
        for (what, gap, tenths) in said {
            day += jiff::SignedDuration::from_mins(i64::from(gap));
            let shows = quantity::Quantity::from_exact(Exact::from_ratio(i64::from(tenths), 10).unwrap(), quantity::Unit::Hour, None);
            let further = what == 1;
            let body = match what {
                0 | 4 => Body::MeterReading(MeterReading { meter: None, shows }),
                1 => Body::MeterReading(MeterReading { meter: Some(item("dash-clock")), shows }),
                2 => Body::MeterBroken(MeterBroken { meter: None, since: None, why: String::new() }),
                _ => Body::HoursTold(HoursTold { ran: shows }),
            };
            let n = both.entries.len() as u64 + 1;
            let one = entry(n, Some(machine()), OPERATOR, day, body);
            if !further {
                alone.entries.push(one.clone());
            }
            both.entries.push(one);
        }
        let (both, alone) = (both.fold(), alone.fold());
        let lives: Vec<_> = both.hours.readings.iter().map(|read| read.life.hours.clone()).collect();
        prop_assert!(lives.is_sorted());
        prop_assert_eq!(both.hours.segments, alone.hours.segments);
    }
}

/// Nobody told the hours of a machine without a meter: a day has 24 of them at most, and none while it stood.
#[test]
fn rhythms_of_a_machine_without_a_meter_go_by_hours_told_or_by_days_of_use() {
    let mut yard = yard_with("[meter]\nkind = \"none\"\n");
    yard.closes(OPERATOR, "2026-03-02T07:00", 1, all_well());
    yard.runs(OPERATOR, "2026-03-02T07:00");
    let filter = |yard: &SmallYard| because(yard, OPERATOR, "2026-03-04T07:00", "filter");
    assert_eq!(filter(&yard), None, "it stood");
    yard.runs(OPERATOR, "2026-03-03T08:00");
    let by_days = walkround::Because::Days { since: 2, every: 2 };
    assert_eq!(filter(&yard), Some(by_days));
    tells(&mut yard, "2026-03-03T17:00", "6 h ± 1 h");
    assert_eq!(filter(&yard), None, "told: 7 h of 50 at most");
}

#[test]
fn a_fitting_that_refused_runs_on_with_care_where_no_meter_can_be_read() {
    for (meters, downs) in [
        ("[meter]\nkind = \"none\"\n", false),
        ("[meter]\nkind = \"running\"\n", true),
    ] {
        let mut yard = yard_with(meters);
        yard.habits.refused_runs_hours = Some(8);
        let mut answers = all_well();
        let fitting_at = answers
            .iter()
            .position(|(_, answer)| answer.took().is_some());
        let (id, answer) = &mut answers[fitting_at.unwrap()];
        let id = *id;
        *answer = fitting(GreaseTook::Refused);
        yard.closes(OPERATOR, "2026-03-02T07:00", 1, answers);
        yard.runs(OPERATOR, "2026-03-02T08:00");
        let refused = |now| {
            let judged = yard.sees(OPERATOR, now, handover::judge);
            let mut all = judged.reasons.into_iter();
            all.find(|reason| matches!(reason.what, handover::What::Refused { .. }))
        };
        for now in ["2026-03-02T09:00", "2026-03-05T09:00"] {
            let reason = refused(now).unwrap_or_else(|| panic!("{id} refused"));
            let down = reason.weighs == handover::Verdict::StandDown;
            assert_eq!(down, downs, "{meters} {now}");
        }
    }
}
