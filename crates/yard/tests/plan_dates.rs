//! Next times told ahead: dates that are never a day off, hours by the meter of today.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use small_yard::*;
use yard::{entry::*, upkeep, walkround::Because};

/// Public issue threads: due dates shown a day off west of Greenwich, on the day clocks change (Rome, 29 October 2023), and
/// where midnight itself is skipped (Sao Paulo, 4 November 2018).
#[test]
fn a_due_date_is_never_a_day_off() {
    for (zone_name, from, due_on) in [
        ("Europe/Rome", "2023-09-29", "2023-10-29"),
        ("America/Sao_Paulo", "2018-10-05", "2018-11-04"),
        ("America/Sao_Paulo", "2018-10-04", "2018-11-03"),
        ("Pacific/Auckland", "2026-03-06", "2026-04-05"),
        ("America/Los_Angeles", "2026-10-02", "2026-11-01"),
    ] {
        let mut yard = SmallYard {
            zone: zone(zone_name),
            ..SmallYard::new()
        };
        for entry in &mut yard.entries {
            // The yard was founded long before.
            entry.ordered_at = at("2018-01-01T00:00");
        }
        done(&mut yard, &format!("{from}T23:30"), "100 h");
        let day = due_on.parse::<jiff::civil::Date>().unwrap();
        let eve = format!("{}T23:59", day.yesterday().unwrap());
        assert_eq!(
            because(&yard, OPERATOR, &eve, "monthly"),
            None,
            "{zone_name} {eve}"
        );
        for time in ["00:00", "01:30", "12:00", "23:59"] {
            let now = format!("{day}T{time}");
            assert_eq!(
                because(&yard, OPERATOR, &now, "monthly"),
                Some(Because::Days {
                    since: 30,
                    every: 30
                }),
                "{zone_name} {now}"
            );
        }
        let lines = yard.sees(OPERATOR, &eve, upkeep::next_due);
        let on = lines
            .into_iter()
            .find(|line| line.point == point("monthly"))
            .and_then(|line| line.on);
        assert_eq!(on, Some(day), "{zone_name}");
    }
}

/// The trade's strip beside the meter: last 412.6 h, every 50 h, says 462.6 h; and what the new meter shows after a change.
#[test]
fn the_next_time_is_told_in_life_hours_and_by_the_meter_of_today() {
    let mut yard = done_on("2026-03-02T07:00", "412.6 h");
    let filter = |yard: &SmallYard, now: &str| {
        let lines = yard.sees(OPERATOR, now, upkeep::next_due);
        lines
            .into_iter()
            .find(|line| line.point == point("filter") && line.at_hours.is_some())
            .unwrap()
    };
    let line = filter(&yard, "2026-03-03T07:00");
    assert_eq!(
        (line.at_hours, line.meter_shows),
        (Some(exact("462.6")), Some(exact("462.6")))
    );
    assert!((line.figure.unwrap().number("due").unwrap() - 462.6).abs() < 1e-9);
    let why = "dead".to_owned();
    let change = MeterChange {
        meter: None,
        old_last: Some(q("420 h")),
        new_first: q("0 h"),
        unmetered: None,
        why,
    };
    yard.says(DEPUTY, "2026-03-05T07:00", Body::MeterChange(change));
    let line = filter(&yard, "2026-03-06T07:00");
    assert_eq!(
        (line.at_hours, line.meter_shows),
        (Some(exact("462.6")), Some(exact("42.6")))
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// A point is due on every day from the date told ahead on, and on none before.
    #[test]
    fn what_is_told_ahead_is_what_falls_due(done_day in 1u8..=28, later in 0i64..50, id in prop::sample::select(vec!["weekly-a", "weekly-b", "weekly-c", "monthly"])) {
        let yard = done_on(&format!("2026-03-{done_day:02}T07:00"), "100 h");
        let now = format!("2026-03-{done_day:02}").parse::<jiff::civil::Date>().unwrap().checked_add(jiff::Span::new().days(later)).unwrap();
        let noon = format!("{now}T12:00");
        let lines = yard.sees(OPERATOR, &noon, upkeep::next_due);
        let on = lines.into_iter().find(|line| line.point == point(id)).and_then(|line| line.on).unwrap();
        prop_assert_eq!(because(&yard, OPERATOR, &noon, id).is_some(), now >= on);
    }
}

/// Two rhythms of one point that fall on one day are said once.
#[test]
fn what_was_never_done_is_due_once_whatever_its_rhythms() {
    let point = "[[point]]\nid = \"seat-bolts\"\nstation = \"front\"\nkind = \"bolts\"\nwhat = \"Bolts of the seat\"\nrhythm = [\"every 30 days\", \"every 50 h\"]\n";
    let yard = SmallYard::with_book(&format!("{BOOK}\n{point}"));
    let lines = yard.sees(OPERATOR, "2026-03-02T07:00", upkeep::next_due);
    let said = lines
        .iter()
        .filter(|line| line.point.as_str() == "seat-bolts");
    assert_eq!(said.count(), 1);
}
