//! Rhythms: what is due when, by hours, calendar, season, standing, event and person.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use small_yard::*;
use yard::{
    entry::*,
    handover::Situation,
    id::PersonId,
    upkeep,
    walkround::{Because, due, due_for},
};

/// Why a point is due before a start.
fn because(yard: &SmallYard, person: PersonId, now: &str, id: &str) -> Option<Because> {
    yard.sees(person, now, |situation| due(situation, find(situation, id)))
}

fn find<'a>(situation: &Situation<'a>, id: &str) -> &'a yard::book::Point {
    situation
        .book()
        .unwrap()
        .points
        .iter()
        .find(|known| known.id == point(id))
        .unwrap()
}

/// A yard in which the operator did everything on that day, at so many hours, and ran the machine.
fn done_on(when: &str, hours: &str) -> SmallYard {
    let mut yard = SmallYard::new();
    done(&mut yard, when, hours);
    yard
}

fn done(yard: &mut SmallYard, when: &str, hours: &str) {
    yard.reads(OPERATOR, when, hours);
    let n = yard.entries.len() as u64;
    yard.closes(OPERATOR, when, n, all_well());
    yard.runs(OPERATOR, when);
}

#[test]
fn everything_is_due_that_was_never_done_but_what_waits() {
    let yard = SmallYard::new();
    for (id, _) in all_well() {
        let waits = ["rest-lock", "nuts", "drain"].contains(&id);
        assert_eq!(
            because(&yard, OPERATOR, "2026-03-02T07:00", id),
            (!waits).then_some(Because::NeverDone),
            "{id}"
        );
    }
}

#[test]
fn every_start_comes_every_start_and_again_after_another_person() {
    let yard = done_on("2026-03-02T07:00", "100 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T13:00", "clip-left"),
        Some(Because::EveryStart)
    );
    assert_eq!(
        because(&yard, OTHER, "2026-03-02T13:00", "clip-left"),
        Some(Because::OtherOperator)
    );
}

/// The trade's note: 6.5 h run of 50, 24 months since the change of 12: overdue by the calendar.
#[test]
fn whichever_comes_first() {
    let mut yard = done_on("2026-03-02T07:00", "100 h");
    yard.reads(OPERATOR, "2026-04-02T07:00", "106.5 h");
    assert_eq!(because(&yard, OPERATOR, "2026-04-02T07:00", "filter"), None);
    assert_eq!(
        because(&yard, OPERATOR, "2028-03-01T07:00", "filter"),
        Some(Because::Days {
            since: 730,
            every: 365
        })
    );
    yard.reads(OPERATOR, "2026-04-12T07:00", "149.9 h");
    assert_eq!(because(&yard, OPERATOR, "2026-04-12T07:00", "filter"), None);
    yard.reads(OPERATOR, "2026-04-12T08:00", "150 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-04-12T08:00", "filter"),
        Some(Because::Hours {
            since: exact("50"),
            every: exact("50")
        })
    );
}

/// The trade's note: a weekend with 1.2 h run of 10, but "daily": due at the next working start.
#[test]
fn daily_is_due_at_the_next_start_day() {
    let mut yard = done_on("2026-03-06T07:00", "100 h");
    yard.reads(OPERATOR, "2026-03-06T17:00", "101.2 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-06T18:00", "fit-boom"),
        None
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-09T07:00", "fit-boom"),
        Some(Because::Days { since: 3, every: 1 })
    );
}

/// The trade's note: first 20 h, then each 50 h; done late at 78 h the next is 128 h, not 120 h.
#[test]
fn done_late_restarts_from_when_it_was_done() {
    let mut yard = done_on("2026-03-02T07:00", "0 h");
    yard.event(OPERATOR, "2026-03-02T08:00", "new-engine");
    let next = |yard: &SmallYard, now: &str| {
        let lines = yard.sees(OPERATOR, now, |situation| upkeep::next_due(situation));
        lines
            .into_iter()
            .find(|line| line.point == point("drain"))
            .and_then(|line| line.at_hours)
    };
    assert_eq!(next(&yard, "2026-03-03T07:00"), Some(exact("20")));
    for (day, hours, next_at) in [
        ("2026-03-10T07:00", "20 h", "70"),
        ("2026-03-20T07:00", "78 h", "128"),
    ] {
        done(&mut yard, day, hours);
        assert_eq!(next(&yard, day), Some(exact(next_at)));
        assert_eq!(because(&yard, OPERATOR, day, "drain"), None);
    }
    yard.reads(OPERATOR, "2026-04-20T07:00", "128 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-04-20T07:00", "drain"),
        Some(Because::After {
            event: item("new-engine")
        })
    );
}

/// A maker's rule for wheel nuts: refitted at 640 h, checked at 650, 660, 670, 680, 690 and then 790 h.
#[test]
fn an_event_brings_close_checks_and_then_wide_ones() {
    let mut yard = done_on("2026-03-02T07:00", "640 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T08:00", "nuts"),
        None,
        "no event, no check"
    );
    yard.event(OPERATOR, "2026-03-02T09:00", "sprocket-refitted");
    let checks = [
        ("03-04", 650),
        ("03-07", 660),
        ("03-10", 670),
        ("03-13", 680),
        ("03-16", 690),
        ("04-16", 790),
    ];
    for (day, hours) in checks {
        let (early, then) = (format!("2026-{day}T07:00"), format!("2026-{day}T17:00"));
        yard.reads(OPERATOR, &early, &format!("{}.9 h", hours - 1));
        assert_eq!(because(&yard, OPERATOR, &early, "nuts"), None, "{hours}");
        yard.reads(OPERATOR, &then, &format!("{hours} h"));
        assert_eq!(
            because(&yard, OPERATOR, &then, "nuts"),
            Some(Because::After {
                event: item("sprocket-refitted")
            }),
            "{hours}"
        );
        yard.walks(
            OPERATOR,
            &then,
            hours,
            vec![("nuts", look(LookState::Well))],
        );
        assert_eq!(because(&yard, OPERATOR, &then, "nuts"), None, "{hours}");
    }
}

/// The trade's note: it stood 45 days, so it is greased before the first dig although no hour was run.
#[test]
fn standing_counts_from_the_last_use_or_the_last_time_it_was_done() {
    let mut yard = done_on("2026-03-02T07:00", "100 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-31T07:00", "standing"),
        None
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-04-16T07:00", "standing"),
        Some(Because::Standing { days: 45 })
    );
    yard.walks(
        OPERATOR,
        "2026-04-16T08:00",
        90,
        vec![("standing", look(LookState::Well))],
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-04-17T07:00", "standing"),
        None
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-05-16T07:00", "standing"),
        Some(Because::Standing { days: 75 })
    );
}

#[test]
fn a_season_begins_on_its_day() {
    let yard = done_on("2026-09-30T07:00", "100 h");
    assert_eq!(because(&yard, OPERATOR, "2026-09-30T23:00", "season"), None);
    assert_eq!(
        because(&yard, OPERATOR, "2026-10-01T05:00", "season"),
        Some(Because::Season)
    );
    let yard = done_on("2026-10-01T07:00", "100 h");
    assert_eq!(because(&yard, OPERATOR, "2027-02-28T07:00", "season"), None);
    assert_eq!(
        because(&yard, OPERATOR, "2027-03-01T07:00", "season"),
        Some(Because::Season)
    );
}

/// The army's tables: who is new to a machine does the weekly and monthly lists too.
#[test]
fn a_person_new_to_the_machine_does_weekly_and_monthly_points_too() {
    let mut yard = done_on("2026-03-02T07:00", "100 h");
    for id in ["weekly-a", "monthly", "crank"] {
        assert_eq!(
            because(&yard, OTHER, "2026-03-02T13:00", id),
            Some(Because::FirstTime),
            "{id}"
        );
        assert_eq!(
            because(&yard, OPERATOR, "2026-03-02T13:00", id),
            None,
            "{id}"
        );
    }
    assert_eq!(because(&yard, OTHER, "2026-03-02T13:00", "season"), None);
    yard.walks(
        OTHER,
        "2026-03-02T13:00",
        70,
        vec![("monthly", look(LookState::Well))],
    );
    assert_eq!(
        because(&yard, OTHER, "2026-03-02T14:00", "monthly"),
        None,
        "looked at by this person"
    );
    yard.runs(OTHER, "2026-03-02T15:00");
    assert_eq!(because(&yard, OTHER, "2026-03-03T07:00", "crank"), None);
}

/// Done on Monday 2 March: the three weekly points take Monday, Tuesday and Wednesday in turn along the lap.
#[test]
fn weekly_points_share_the_week() {
    let yard = done_on("2026-03-02T07:00", "100 h");
    let first_due = |id: &str| {
        (3..=12)
            .find(|day| because(&yard, OPERATOR, &format!("2026-03-{day:02}T07:00"), id).is_some())
    };
    assert_eq!(
        ["weekly-a", "weekly-b", "weekly-c"].map(first_due),
        [Some(9), Some(3), Some(4)]
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-03T07:00", "weekly-b"),
        Some(Because::ItsDay)
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-05T07:00", "weekly-b"),
        Some(Because::ItsDay),
        "its day has passed undone"
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-09T07:00", "weekly-a"),
        Some(Because::Days { since: 7, every: 7 })
    );
}

#[test]
fn grease_of_a_remote_line_is_seen_at_the_joint_every_week() {
    let text = BOOK.replace(
        "until = \"3 strokes\"\nrhythm = [\"every start\"]",
        "until = \"3 strokes\"\nrhythm = [\"every 100 h\"]",
    );
    assert_ne!(text, BOOK);
    let mut yard = SmallYard::with_book(&text);
    yard.reads(OPERATOR, "2026-03-02T06:00", "100 h");
    yard.walks(
        OPERATOR,
        "2026-03-02T07:00",
        1,
        vec![("fit-ring", fitting(GreaseTook::Took))],
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T08:00", "fit-ring"),
        Some(Because::StillUnknown),
        "never seen"
    );
    yard.walks(
        OPERATOR,
        "2026-03-03T07:00",
        2,
        vec![("fit-ring", fitting(GreaseTook::Seen))],
    );
    yard.walks(
        OPERATOR,
        "2026-03-08T07:00",
        3,
        vec![("fit-ring", fitting(GreaseTook::Took))],
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-09T07:00", "fit-ring"),
        None
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-10T07:00", "fit-ring"),
        Some(Because::Days { since: 7, every: 7 })
    );
}

#[test]
fn what_is_open_unknown_or_cannot_be_told_is_due() {
    let mut yard = done_on("2026-03-02T07:00", "100 h");
    yard.walks(
        OPERATOR,
        "2026-03-02T09:00",
        40,
        vec![
            ("monthly", not_checked()),
            ("season", look(LookState::Damaged)),
        ],
    );
    yard.reads(OPERATOR, "2026-03-02T10:00", "3 h");
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T11:00", "monthly"),
        Some(Because::StillUnknown)
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T11:00", "season"),
        Some(Because::OpenFinding)
    );
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T11:00", "filter"),
        Some(Because::HoursInQuestion)
    );
}

#[test]
fn greased_after_work_it_waits_for_the_end_of_work() {
    let mut yard = SmallYard::with_book(&(BOOK.to_owned() + "\n[greasing]\nwhen = \"after\"\n"));
    done(&mut yard, "2026-03-02T07:00", "100 h");
    let after = |yard: &SmallYard, id: &str| {
        yard.sees(OPERATOR, "2026-03-02T17:00", |situation| {
            due_for(situation, find(situation, id), RoundPurpose::After)
        })
    };
    assert_eq!(
        because(&yard, OPERATOR, "2026-03-02T17:00", "fit-ring"),
        None
    );
    assert_eq!(after(&yard, "fit-ring"), Some(Because::AfterUse));
    assert_eq!(after(&yard, "rest-lock"), Some(Because::AfterUse));
    assert_eq!(after(&yard, "clip-left"), None);
}

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
        let lines = yard.sees(OPERATOR, &eve, |situation| upkeep::next_due(situation));
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
        let lines = yard.sees(OPERATOR, now, |situation| upkeep::next_due(situation));
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
        let lines = yard.sees(OPERATOR, &noon, |situation| upkeep::next_due(situation));
        let on = lines.into_iter().find(|line| line.point == point(id)).and_then(|line| line.on).unwrap();
        prop_assert_eq!(because(&yard, OPERATOR, &noon, id).is_some(), now >= on);
    }
}
