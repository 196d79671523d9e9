//! Rhythms: what is due when, by hours, calendar, season, standing, event and person.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{
    entry::*,
    upkeep,
    walkround::{Because, due_for},
};

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
        let lines = yard.sees(OPERATOR, now, upkeep::next_due);
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
