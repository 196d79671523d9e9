//! What comes back: one fault with its count, gaps and cost; the cure that does not hold; the other side; grease unseen.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use small_yard::*;
use yard::{
    entry::*,
    handover::{Verdict, judge},
    id::*,
    upkeep::*,
    walkround::{Because, RoundPlan, plan, twin_asks},
};

/// The loader with both sides named as such, bolts, the right track, and the play of the boom's foot.
fn book() -> String {
    let sided = |text: String, one: &str, other: &str| {
        text.replace(
            &format!("id = \"{one}\"\n"),
            &format!("id = \"{one}\"\nmirror = \"{other}\"\n"),
        )
    };
    let text = sided(BOOK.to_owned(), "clip-left", "clip-right");
    let text = sided(text, "clip-right", "clip-left");
    let text = sided(text, "sag-left", "sag-right") + MORE;
    let read = yard::book::read(&text, &quantity::Habits::default());
    assert!(read.book.is_some(), "{:?}", read.troubles);
    text
}

const MORE: &str = r#"
[[point]]
id = "sag-right"
mirror = "sag-left"
station = "right"
kind = "measure"
what = "Track sag, right"
about = "tracks"
rhythm = ["every 30 days"]
min = "3/4 in"
max = "2 in"
method = "board along the top"
readings = ["middle"]

[[point]]
id = "frame-bolts"
station = "back"
kind = "bolts"
what = "Bolts of the frame"
about = "bolts"
rhythm = "every 30 days"
count = 14

[[point]]
id = "play-boom"
station = "back"
kind = "measure"
what = "Play at the boom's foot"
about = "joints"
joint = "boom-foot"
rhythm = "every 30 days"
max = "5 mm"
method = "bar under the arm"
readings = ["up and down"]
plus-minus = "0.2 mm"

[[part]]
id = "clip-11"
what = "Clip, 11 mm"
points = ["clip-left"]

[[part]]
id = "belt"
what = "Fan belt"
"#;

fn yard_of_two_sides() -> SmallYard {
    let mut yard = SmallYard::with_book(&book());
    yard.reads(OPERATOR, "2026-03-01T06:00", "800 h");
    yard
}

fn mends(
    yard: &mut SmallYard,
    when: &str,
    of: FaultRef,
    what: &str,
    cost: Option<&str>,
) -> EntryId {
    let repair = Repair {
        mends: vec![of],
        what: what.into(),
        cost: cost.map(str::to_owned),
        event: None,
        cause: None,
    };
    yard.says(OPERATOR, when, Body::Repair(repair))
}

/// Found at this point, by a round of its own.
fn found(yard: &mut SmallYard, when: &str, id: &str, answer: Answer) -> FaultRef {
    let n = yard.entries.len() as u64 + 500;
    fault_at(yard.closes(OPERATOR, when, n, vec![(id, answer)]), id)
}

/// The left clip off three times, each time a new clip.
fn clip_three_times() -> SmallYard {
    let mut yard = yard_of_two_sides();
    let days = [
        ("2026-03-02", "800 h", "New clip", Some("0.02 EUR")),
        ("2026-03-12", "834.2 h", "new clip fitted", Some("0,03 EUR")),
        ("2026-04-01", "851 h", "the same again", None),
    ];
    for (day, hours, what, cost) in days {
        yard.reads(OPERATOR, &format!("{day}T06:30"), hours);
        let clip = found(
            &mut yard,
            &format!("{day}T07:00"),
            "clip-left",
            clip(ClipState::Missing),
        );
        mends(&mut yard, &format!("{day}T08:00"), clip, what, cost);
    }
    yard
}

#[test]
fn the_same_clip_again_is_one_fault_with_count_gaps_and_cost() {
    let mut yard = clip_three_times();
    yard.says(
        STEWARD,
        "2026-04-02T09:00",
        Body::Purchase(Purchase {
            what: "ten clips".into(),
            cost: Some("EUR 12.50".into()),
            part: Some(item("clip-11")),
            point: None,
            count: None,
        }),
    );
    let machine = yard.fold();
    let all = repeats(&machine);
    assert_eq!(all.len(), 1);
    let clip = &all[0];
    assert_eq!((clip.point.as_str(), clip.failures.len()), ("clip-left", 3));
    assert_eq!(clip.gaps_hours, [Some(exact("34.2")), Some(exact("16.8"))]);
    assert_eq!(clip.gaps_days(&yard.zone), [10, 20]);
    let cost = costs(&machine, &clip.work, false);
    assert_eq!(
        cost.sums.into_iter().collect::<Vec<_>>(),
        [("EUR".to_owned(), exact("12.55"))]
    );
    assert_eq!((cost.unread.len(), cost.shared), (0, 0));
    assert_eq!(
        repeat_at(&machine, &point("clip-left")).as_ref(),
        Some(clip)
    );
    assert_eq!(repeat_at(&machine, &point("clip-right")), None);
}

#[test]
fn a_repair_of_two_things_is_told_to_be_in_both_sums_and_odd_costs_in_none() {
    let mut yard = clip_three_times();
    let clip = found(
        &mut yard,
        "2026-04-10T07:00",
        "clip-left",
        clip(ClipState::Missing),
    );
    let hose = found(
        &mut yard,
        "2026-04-10T07:10",
        "hose-boom",
        Answer::Hose(HoseState::Rubbed),
    );
    let repair = Repair {
        mends: vec![clip, hose],
        what: "both".into(),
        cost: Some("about 40".into()),
        event: None,
        cause: Some(Cause::Found("the hose pulled the clip".into())),
    };
    yard.says(OPERATOR, "2026-04-10T09:00", Body::Repair(repair));
    let machine = yard.fold();
    let clip = repeat_at(&machine, &point("clip-left")).unwrap();
    let cost = costs(&machine, &clip.work, false);
    assert_eq!(cost.sums.get("EUR"), Some(&exact("0.05")));
    assert_eq!(
        (cost.unread.as_slice(), cost.shared),
        (&["about 40".to_owned()][..], 1)
    );
    assert!(matches!(
        clip.cures.last().unwrap().as_ref().unwrap().cause,
        Some(Cause::Found(_))
    ));
}

#[test]
fn the_same_cure_twice_asks_for_the_cause_and_another_cure_does_not() {
    let again =
        |yard: &mut SmallYard, when: &str| found(yard, when, "clip-left", clip(ClipState::Missing));
    let mut yard = yard_of_two_sides();
    let first = again(&mut yard, "2026-03-02T07:00");
    mends(&mut yard, "2026-03-02T08:00", first, "new clip", None);
    assert_eq!(repeat_at(&yard.fold(), &point("clip-left")), None);

    let second = again(&mut yard, "2026-03-03T07:00");
    let twice = repeat_at(&yard.fold(), &point("clip-left")).unwrap();
    assert_eq!(twice.same_cure().map(|(times, _)| times), Some(1));
    assert!(!twice.asks_cause());

    let mut same = yard.clone();
    mends(
        &mut same,
        "2026-03-03T08:00",
        second.clone(),
        "New clip again",
        None,
    );
    again(&mut same, "2026-03-04T07:00");
    let thrice = repeat_at(&same.fold(), &point("clip-left")).unwrap();
    assert_eq!(thrice.same_cure().map(|(times, _)| times), Some(2));
    assert!(thrice.asks_cause());

    mends(
        &mut yard,
        "2026-03-03T08:00",
        second,
        "bushed the hole, pin of 12 mm",
        None,
    );
    let third = again(&mut yard, "2026-03-04T07:00");
    let other = repeat_at(&yard.fold(), &point("clip-left")).unwrap();
    assert_eq!(other.same_cure().map(|(times, _)| times), Some(1));
    assert!(!other.asks_cause());

    // Whatever was tried: after three cures that did not hold the cause is asked for.
    mends(&mut yard, "2026-03-04T08:00", third, "wired it", None);
    again(&mut yard, "2026-03-05T07:00");
    assert!(
        repeat_at(&yard.fold(), &point("clip-left"))
            .unwrap()
            .asks_cause()
    );
}

#[test]
fn the_third_time_loose_is_a_stripped_thread() {
    let mut yard = yard_of_two_sides();
    for (at, state) in [BoltState::Loose, BoltState::StripeTurned, BoltState::Loose]
        .into_iter()
        .enumerate()
    {
        let day = format!("2026-03-1{at}");
        let told = repeat_at(&yard.fold(), &point("frame-bolts"));
        assert!(!told.is_some_and(|told| told.stripped));
        let bolts = Answer::Bolts { state, how_many: 2 };
        let bolts = found(&mut yard, &format!("{day}T07:00"), "frame-bolts", bolts);
        mends(&mut yard, &format!("{day}T08:00"), bolts, "210 lb-ft", None);
    }
    let bolts = repeat_at(&yard.fold(), &point("frame-bolts")).unwrap();
    assert!(bolts.stripped);
    let clips = repeat_at(&clip_three_times().fold(), &point("clip-left")).unwrap();
    assert!(!clips.stripped);
}

#[test]
fn a_part_fitted_again_is_told_even_where_no_point_has_it() {
    let mut yard = yard_of_two_sides();
    for (day, hours, cost) in [
        ("2026-03-05", "810 h", "8"),
        ("2026-05-04", "872.5 h", "8.40"),
    ] {
        yard.reads(OPERATOR, &format!("{day}T06:00"), hours);
        let fitted = PartFitted {
            part: Some(item("belt")),
            what: "Fan belt".into(),
            point: None,
            event: None,
            cost: Some(cost.into()),
            count: None,
        };
        yard.says(OPERATOR, &format!("{day}T07:00"), Body::PartFitted(fitted));
    }
    let machine = yard.fold();
    let all = parts_again(&machine);
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].gaps_hours, [Some(exact("62.5"))]);
    assert_eq!(all[0].gaps_days(&yard.zone), [60]);
    assert_eq!(
        costs(&machine, &all[0].work, false).sums.get(""),
        Some(&exact("16.4"))
    );
}

/// Found on the left at a round of its own; whether the right one is then asked because of it.
fn asks_right(yard: &SmallYard, now: &str) -> bool {
    let because = because(yard, OPERATOR, now, "clip-right");
    let of = point("clip-left");
    because == Some(Because::OtherSide { of })
}

#[test]
fn what_is_found_on_one_side_asks_the_other_at_the_next_round() {
    let mut yard = SmallYard::with_book(&book());
    done(&mut yard, "2026-03-01T07:00", "800 h");
    assert!(!asks_right(&yard, "2026-03-02T06:00"));
    let left = vec![("clip-left", clip(ClipState::Loose))];
    yard.walks(OPERATOR, "2026-03-02T07:00", 700, left);
    // The round that found it does not grow while it is walked.
    assert!(!asks_right(&yard, "2026-03-02T07:05"));
    yard.closes(OPERATOR, "2026-03-02T07:10", 700, vec![]);
    assert!(!asks_right(&yard, "2026-03-02T07:10"));
    assert!(asks_right(&yard, "2026-03-02T07:11"));
    // Mending the left one does not answer for the right one.
    let found = yard.fold().findings.keys().next().unwrap().clone();
    mends(&mut yard, "2026-03-02T09:00", found, "new clip", None);
    assert!(asks_right(&yard, "2026-03-03T06:00"));
    assert!(yard.sees(OPERATOR, "2026-03-03T06:00", |seen| {
        twin_asks(seen).len() == 1
            && plan(seen, RoundPurpose::Start).is_some_and(|plan| !one_tap(&plan, "clip-right"))
    }));
    let right = vec![("clip-right", clip(ClipState::Present))];
    yard.closes(OPERATOR, "2026-03-03T07:00", 701, right);
    assert!(!asks_right(&yard, "2026-03-03T08:00"));
}

fn one_tap(plan: &RoundPlan, id: &str) -> bool {
    let stops = plan.legs.iter().flat_map(|leg| &leg.stops);
    stops
        .flat_map(|stop| &stop.points)
        .any(|due| due.point == point(id) && due.one_tap)
}

#[test]
fn who_looked_at_both_sides_in_one_round_has_looked() {
    let mut yard = SmallYard::with_book(&book());
    done(&mut yard, "2026-03-01T07:00", "800 h");
    let right = vec![("clip-right", clip(ClipState::Present))];
    yard.walks(OPERATOR, "2026-03-02T07:00", 700, right);
    let left = vec![("clip-left", clip(ClipState::Missing))];
    yard.closes(OPERATOR, "2026-03-02T07:05", 700, left);
    assert!(!asks_right(&yard, "2026-03-03T06:00"));
}

#[test]
fn grease_that_goes_in_and_is_never_seen_is_asked_for_until_it_is_seen() {
    let mut yard = SmallYard::with_book(&book());
    done(&mut yard, "2026-01-02T07:00", "800 h");
    // Its own first sight is of another time: here nobody ever saw it.
    let mut never = SmallYard::with_book(&book());
    for (n, day) in ["2026-01-02", "2026-01-12", "2026-02-02"]
        .iter()
        .enumerate()
    {
        let boom = vec![("fit-boom", fitting(GreaseTook::Took))];
        never.closes(OPERATOR, &format!("{day}T07:00"), 10 + n as u64, boom);
    }
    let weighs = |yard: &SmallYard, now: &str| {
        yard.sees(OPERATOR, now, |seen| {
            let reasons = judge(seen).reasons;
            reasons
                .into_iter()
                .find(|reason| reason.rule == "not-reaching")
                .map(|reason| reason.weighs)
        })
    };
    assert_eq!(weighs(&never, "2026-01-31T08:00"), None);
    assert_eq!(weighs(&never, "2026-02-02T08:00"), Some(Verdict::Care));
    assert_eq!(
        because(&never, OPERATOR, "2026-02-02T08:00", "fit-boom"),
        Some(Because::NotReaching)
    );
    assert_eq!(weighs(&yard, "2026-02-02T08:00"), None);
    let seen = vec![("fit-boom", fitting(GreaseTook::Seen))];
    never.closes(OPERATOR, "2026-02-02T09:00", 20, seen);
    assert_eq!(weighs(&never, "2026-03-20T08:00"), None);
}

#[test]
fn play_that_grows_behind_unseen_grease_is_not_reached() {
    let mut yard = SmallYard::with_book(&book());
    done(&mut yard, "2026-01-02T07:00", "800 h");
    let play = |text: &str| {
        vec![
            ("play-boom", sag(text)),
            ("fit-boom", fitting(GreaseTook::Took)),
        ]
    };
    yard.closes(OPERATOR, "2026-01-10T07:00", 30, play("1.0 mm"));
    let found = |yard: &SmallYard| {
        yard.sees(OPERATOR, "2026-02-01T08:00", |seen| {
            not_reaching(seen, find(seen, "fit-boom"))
        })
    };
    assert_eq!(found(&yard), None);
    let mut sure = yard.clone();
    sure.closes(OPERATOR, "2026-01-20T07:00", 31, play("1.5 mm"));
    assert!(
        matches!(found(&sure), Some(NotReaching::PlayGrows { from, to, .. }) if from == "1.0 mm" && to == "1.5 mm")
    );
    // Four tenths are within what the two readings are good for.
    yard.closes(OPERATOR, "2026-01-20T07:00", 31, play("1.4 mm"));
    assert_eq!(found(&yard), None);
}

#[test]
fn a_bank_port_never_confirmed_in_thirty_days_is_due() {
    let mut yard = SmallYard::with_book(&book());
    done(&mut yard, "2026-01-02T07:00", "800 h");
    let book = book()
        .replace("remote = true", "remote = true\nseen-within-days = 30")
        .replace(
            "rhythm = [\"every start\"]\nseconds = 10",
            "rhythm = [\"every 365 days\"]\nseconds = 10",
        );
    let mut monthly = SmallYard::with_book(&book);
    done(&mut monthly, "2026-01-02T07:00", "800 h");
    let port = |yard: &SmallYard, now: &str| because(yard, OPERATOR, now, "fit-ring");
    assert_eq!(port(&monthly, "2026-01-31T08:00"), None);
    assert_eq!(
        port(&monthly, "2026-02-01T08:00"),
        Some(Because::Days {
            since: 30,
            every: 30
        })
    );
    // Never confirmed at all, it is due at once, however often it took grease.
    let mut never = SmallYard::with_book(&book);
    let took = vec![("fit-ring", fitting(GreaseTook::Took))];
    never.closes(OPERATOR, "2026-01-02T07:00", 10, took);
    assert!(port(&never, "2026-01-02T08:00").is_some());
}

#[test]
fn two_strokes_a_week_for_four_weeks_on_the_left_only_is_no_upkeep() {
    let mut yard = yard_of_two_sides();
    let topped = |yard: &mut SmallYard, when: &str, id: &str| {
        let adjustment = Adjustment {
            point: Some(point(id)),
            what: "2 strokes".into(),
            event: None,
            mends: vec![],
        };
        yard.says(OPERATOR, when, Body::Adjustment(adjustment));
    };
    for day in ["2026-03-02", "2026-03-09", "2026-03-16"] {
        topped(&mut yard, &format!("{day}T07:00"), "sag-left");
    }
    let sided = |yard: &SmallYard, now: &str| yard.sees(OPERATOR, now, one_sided);
    assert_eq!(sided(&yard, "2026-03-17T08:00"), []);
    topped(&mut yard, "2026-03-23T07:00", "sag-left");
    let told = sided(&yard, "2026-03-24T08:00");
    assert_eq!(told.len(), 1);
    assert_eq!(
        (told[0].point.as_str(), told[0].twin.as_str(), told[0].times),
        ("sag-left", "sag-right", 4)
    );
    // Four weeks on, the first is forgotten; the other side adjusted, both are only upkeep.
    assert_eq!(sided(&yard, "2026-03-31T08:00"), []);
    topped(&mut yard, "2026-03-24T07:00", "sag-right");
    assert_eq!(sided(&yard, "2026-03-24T08:00"), []);
}

#[test]
fn what_can_wait_is_ranked_and_holds_nothing_that_stands_it_down() {
    let mut yard = yard_of_two_sides();
    let looked = |state| look(state);
    found(
        &mut yard,
        "2026-03-01T07:00",
        "weekly-a",
        looked(LookState::Worn),
    );
    found(
        &mut yard,
        "2026-03-02T07:00",
        "hose-boom",
        Answer::Hose(HoseState::Rubbed),
    );
    found(
        &mut yard,
        "2026-03-03T07:00",
        "clip-left",
        clip(ClipState::Missing),
    );
    let machine = yard.fold();
    let said = yard.sees(OPERATOR, "2026-03-04T07:00", judge);
    let waits = can_wait(&machine, &said);
    let points: Vec<&str> = waits
        .iter()
        .map(|one| one.thing.latest.point().unwrap().as_str())
        .collect();
    assert_eq!(points, ["hose-boom", "weekly-a"]);
    assert!(
        waits
            .iter()
            .all(|one| one.weighs < Verdict::StandDown && one.times == 1)
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// What is found on a side, adjusted on it, or greased unseen never makes a round shorter nor a verdict better.
    #[test]
    fn what_comes_back_never_makes_it_better(kind in 0usize..4, times in 1usize..6) {
        let mut before = SmallYard::with_book(&book());
        done(&mut before, "2026-03-01T07:00", "800 h");
        before.closes(OPERATOR, "2026-03-30T07:00", 900, all_well());
        let mut after = before.clone();
        for n in 0..times {
            let when = format!("2026-03-{:02}T12:00", 3 + 5 * n);
            match kind {
                0 => drop(found(&mut after, &when, "clip-left", clip(ClipState::Loose))),
                1 => drop(found(&mut after, &when, "frame-bolts", Answer::Bolts { state: BoltState::Loose, how_many: 1 })),
                2 => drop(after.says(OPERATOR, &when, Body::Adjustment(Adjustment { point: Some(point("sag-left")), what: "strokes".into(), event: None, mends: vec![] }))),
                _ => drop(after.closes(OPERATOR, &when, 950 + n as u64, vec![("fit-boom", fitting(GreaseTook::Took))])),
            }
        }
        let look = |yard: &SmallYard| yard.sees(OPERATOR, "2026-03-30T08:00", |seen| judge(seen).verdict);
        prop_assert!(look(&after) >= look(&before));
    }
}
