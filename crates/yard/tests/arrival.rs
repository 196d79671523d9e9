//! Taking in a machine: gaps ranked, steps done only with data, the first month, what the journal makes of it.
#![allow(clippy::unwrap_used)]

mod blank;
mod small_yard;

use blank::blanks;
use small_yard::*;
use std::collections::BTreeSet;
use yard::{
    arrival::{ArrivalItem, MonthWhat, Open, plan, quiet_rounds},
    book::{PointKind, Without, gaps},
    code::Coded,
    entry::*,
    handover::{Verdict, judge},
};

/// The loader's book with a fluid.
fn with_fluid() -> SmallYard {
    SmallYard::with_book(&format!(
        "{BOOK}\n[[fluid]]\nid = \"engine-oil\"\nname = \"Engine oil\"\n"
    ))
}

fn blank(name: &str) -> String {
    let all = blanks();
    let text = all.into_iter().find(|(known, _)| known == name).unwrap().1;
    yard::book::new_from_blank(&text, "Invented", &machine())
}

fn step(step: ArrivalStep) -> Body {
    say(step, None, None, None)
}

fn say(
    step: ArrivalStep,
    about: Option<&str>,
    fluid: Option<FluidNow>,
    count: Option<u32>,
) -> Body {
    Body::Arrival(Arrival {
        step,
        about: about.map(item),
        fluid,
        count,
        says: None,
    })
}

const NOW: &str = "2026-03-02T12:00";

fn planned(yard: &SmallYard) -> yard::arrival::ArrivalPlan {
    yard.sees(STEWARD, NOW, plan)
}

fn of(yard: &SmallYard, step: ArrivalStep) -> yard::arrival::StepPlan {
    let steps = planned(yard).steps;
    steps.into_iter().find(|one| one.step == step).unwrap()
}

/// Every blank, and a book of a kind that has none.
fn any_kind() -> Vec<(String, String)> {
    let own = ("no-blank".to_owned(), BOOK.to_owned());
    let mut all = vec![own];
    all.extend(blanks().into_iter().map(|(name, _)| {
        let text = blank(&name);
        (name, text)
    }));
    all
}

#[test]
fn every_gap_of_every_kind_appears_exactly_once_and_in_order() {
    for (name, text) in any_kind() {
        let yard = SmallYard::with_book(&text);
        let state = yard.fold();
        let of_book: Vec<String> = gaps(&state.book().unwrap().book)
            .into_iter()
            .map(|gap| gap.id)
            .collect();
        let ranked = planned(&yard).gaps;
        let ids: BTreeSet<_> = ranked.iter().map(|one| one.gap.id.clone()).collect();
        assert_eq!(ids, of_book.iter().cloned().collect(), "{name}");
        assert_eq!(ranked.len(), of_book.len(), "{name}: twice");
        let places: Vec<u32> = ranked.iter().map(|one| one.rank).collect();
        assert_eq!(places, (1..=ranked.len() as u32).collect::<Vec<_>>());
        let safety: Vec<bool> = ranked.iter().map(|one| one.gap.bears_on_safety).collect();
        assert!(safety.is_sorted_by(|a, b| a >= b), "{name}: safety first");
    }
}

#[test]
fn a_book_without_anything_ranks_how_to_stop_it_first() {
    for (name, first) in [
        ("tracked-loader-backhoe", "no-stop"),
        ("chainsaw", "no-stop"),
        ("trailer", "no-danger-zone"),
    ] {
        let gaps = planned(&SmallYard::with_book(&blank(name))).gaps;
        assert_eq!(gaps[0].gap.id, first, "{name}");
        // What only a drawing or a figure waits for comes after what the verdict waits for.
        let at = |id: &str| gaps.iter().position(|one| one.gap.id.starts_with(id));
        if let (Some(masses), Some(limit)) = (at("no-masses"), at("measure-without-limit")) {
            assert!(limit < masses, "{name}");
        }
    }
}

#[test]
fn accepted_gaps_come_last() {
    let mut yard = SmallYard::with_book(&blank("trailer"));
    let gap = "no-masses".to_owned();
    let accept = GapAccepted {
        gap: gap.clone(),
        why: "never weighed".into(),
    };
    yard.says(STEWARD, "2026-03-01T07:00", Body::GapAccepted(accept));
    let gaps = planned(&yard).gaps;
    let last = gaps.last().unwrap();
    assert_eq!((&last.gap.id, last.accepted), (&gap, true));
}

#[test]
fn no_step_of_any_kind_is_done_without_data() {
    for (name, text) in any_kind() {
        let plan = planned(&SmallYard::with_book(&text));
        let done: Vec<_> = plan.steps.iter().filter(|one| one.done).collect();
        assert!(done.is_empty(), "{name}: {done:?}");
        assert_eq!(plan.steps.len(), ArrivalStep::ALL.len());
        assert!(plan.steps.iter().all(|one| one.done != one.why.is_some()));
    }
}

#[test]
fn a_fluid_is_unknown_until_changed_or_analysed_and_weighs_on_the_verdict() {
    let mut yard = SmallYard::with_book(&blank("chainsaw"));
    let book = yard.fold().book().unwrap().book.clone();
    let fluids: Vec<&str> = book.fluids.iter().map(|fluid| fluid.id.as_str()).collect();
    assert!(fluids.len() > 1);
    let care = |yard: &SmallYard| {
        let judged = yard.sees(STEWARD, NOW, judge);
        let rule = judged
            .reasons
            .into_iter()
            .find(|one| one.rule == "unknown-fluid");
        rule.map(|one| (one.weighs, one.unknown, one.what))
    };
    assert_eq!(care(&yard), None, "no arrival was begun");
    yard.says(DEPUTY, "2026-03-01T07:00", step(ArrivalStep::Came));
    let (weighs, unknown, what) = care(&yard).unwrap();
    assert_eq!((weighs, unknown), (Verdict::Care, true));
    let yard::handover::What::UnknownFluid { fluids: named } = what else {
        panic!()
    };
    assert_eq!(
        named.iter().map(|one| one.as_str()).collect::<Vec<_>>(),
        fluids
    );
    for (n, fluid) in fluids.iter().enumerate() {
        let now = [FluidNow::Changed, FluidNow::Analysed][n % 2];
        assert!(!of(&yard, ArrivalStep::Fluids).done);
        yard.says(
            DEPUTY,
            "2026-03-01T08:00",
            say(ArrivalStep::Fluids, Some(fluid), Some(now), None),
        );
    }
    assert!(of(&yard, ArrivalStep::Fluids).done);
    assert_eq!(care(&yard), None);
}

/// Naming a fluid without saying why it is known leaves it unknown.
#[test]
fn a_word_about_a_fluid_does_not_make_it_known() {
    let mut yard = with_fluid();
    let fluid = yard.fold().book().unwrap().book.fluids[0].id.clone();
    yard.says(
        DEPUTY,
        "2026-03-01T07:00",
        say(ArrivalStep::Fluids, Some(fluid.as_str()), None, None),
    );
    assert!(!of(&yard, ArrivalStep::Fluids).done);
    yard.says(DEPUTY, "2026-03-01T08:00", step(ArrivalStep::Over));
    let judged = yard.sees(STEWARD, NOW, judge);
    assert!(
        !judged.reasons.iter().any(|one| one.rule == "unknown-fluid"),
        "it is over"
    );
}

#[test]
fn the_second_lap_ends_only_with_as_many_fittings_in_the_book() {
    let mut yard = SmallYard::new();
    let in_book = yard::upkeep::fittings(&yard.fold().book().unwrap().book);
    let (first, second) = (ArrivalStep::FittingsFirst, ArrivalStep::FittingsSecond);
    yard.says(
        DEPUTY,
        "2026-03-01T07:00",
        say(second, None, None, Some(in_book)),
    );
    assert_eq!(of(&yard, second).why, Some(Open::FirstLapFirst));
    yard.says(
        DEPUTY,
        "2026-03-01T07:10",
        say(first, None, None, Some(in_book - 1)),
    );
    assert!(of(&yard, first).done && of(&yard, second).done);
    yard.says(
        DEPUTY,
        "2026-03-01T08:00",
        say(second, None, None, Some(in_book + 1)),
    );
    let counted = in_book + 1;
    assert_eq!(
        of(&yard, second).why,
        Some(Open::CountsDiffer { in_book, counted })
    );
}

#[test]
fn both_sides_are_compared_and_a_difference_shows() {
    let mut yard = SmallYard::with_book(&blank("tracked-loader-backhoe"));
    let sides = of(&yard, ArrivalStep::Sides).items;
    assert!(sides.len() > 3, "a machine with two sides");
    let book = yard.fold().book().unwrap().book.clone();
    let clips = |item: &ArrivalItem| match item {
        ArrivalItem::Pair(pair) => book
            .points
            .iter()
            .any(|point| point.id == pair.left && point.kind == PointKind::PinClip),
        _ => false,
    };
    let ArrivalItem::Pair(pair) = sides.into_iter().find(clips).unwrap() else {
        panic!()
    };
    let y = |id| {
        book.points
            .iter()
            .find(|point| point.id == id)
            .unwrap()
            .at
            .unwrap()
            .y
    };
    assert!(y(pair.left.clone()) > y(pair.right.clone()), "left is left");
    let answers = vec![
        (pair.left.as_str(), clip(ClipState::Present)),
        (pair.right.as_str(), clip(ClipState::Loose)),
    ];
    yard.walks(OPERATOR, "2026-03-01T07:00", 1, answers);
    let now = of(&yard, ArrivalStep::Sides).items;
    let found = now.into_iter().find_map(|item| match item {
        ArrivalItem::Pair(now) if now.left == pair.left => Some(now),
        _ => None,
    });
    let found = found.unwrap();
    assert!(found.differs && found.of_left.is_some() && found.of_right.is_some());
}

#[test]
fn readings_differ_only_beyond_their_plus_minus() {
    let twin = "[[point]]\nid = \"sag-right\"\nstation = \"right\"\nkind = \"measure\"\nabout = \"tracks\"\nwhat = \"Sag right\"\n\
                rhythm = [\"every start\"]\nmax = \"2 in\"\nmethod = \"board along the top\"\nreadings = [\"middle\"]\nmirror = \"sag-left\"\n";
    let left = BOOK.replace(
        "id = \"sag-left\"\n",
        "id = \"sag-left\"\nmirror = \"sag-right\"\n",
    );
    let text = format!("{left}\n{twin}");
    assert_eq!(
        yard::book::read(&text, &quantity::Habits::default()).troubles,
        []
    );
    let differs = |other: &str| {
        let mut yard = SmallYard::with_book(&text);
        let answers = vec![
            ("sag-left", sag("1 1/2 in ± 1/16 in")),
            ("sag-right", sag(other)),
        ];
        yard.walks(OPERATOR, "2026-03-01T07:00", 1, answers);
        let pairs = of(&yard, ArrivalStep::Sides).items;
        let sag = pairs.iter().find_map(|item| match item {
            ArrivalItem::Pair(pair) if pair.right.as_str() == "sag-right" => Some(pair.differs),
            _ => None,
        });
        sag.unwrap()
    };
    assert!(!differs("1 5/8 in ± 1/16 in"));
    assert!(differs("1 11/16 in ± 1/16 in"));
    assert!(!differs("38.1 mm ± 1 mm"), "the same in millimetres");
}

#[test]
fn what_has_no_limit_and_bears_on_safety_is_measured_first() {
    let yard = SmallYard::with_book(&blank("tracked-loader-backhoe"));
    let book = yard.fold().book().unwrap().book.clone();
    let keys: Vec<(bool, bool)> = of(&yard, ArrivalStep::Measures)
        .items
        .iter()
        .map(|item| match item {
            ArrivalItem::Measure {
                point, has_limit, ..
            } => {
                let known = book.points.iter().find(|one| one.id == *point).unwrap();
                (!known.about.bears_on_safety(), *has_limit)
            }
            other => panic!("{other:?}"),
        })
        .collect();
    assert!(keys.len() > 1 && keys.is_sorted(), "{keys:?}");
}

#[test]
fn the_month_begins_with_what_keeps_it_from_starting() {
    for name in ["tracked-loader-backhoe", "chainsaw", "trailer"] {
        let mut yard = SmallYard::with_book(&blank(name));
        yard.says(DEPUTY, "2026-02-27T22:00", step(ArrivalStep::Came));
        let month = planned(&yard).month;
        let days: Vec<i32> = month.iter().map(|line| line.day).collect();
        assert!(days.is_sorted(), "{name}: {days:?}");
        assert_eq!(month[0].what, MonthWhat::AdoptBook);
        assert!(month[0].done && !month[1].done, "{name}");
        assert!(matches!(&month[1].what, MonthWhat::BlocksStart(gaps) if !gaps.is_empty()));
        let last = month.last().unwrap();
        assert_eq!(last.what, MonthWhat::QuietRounds { quiet: 0 });
        assert_eq!(last.by, jiff::civil::date(2026, 3, 27), "28 days on");
    }
}

#[test]
fn nothing_is_asked_of_a_machine_that_has_no_book_but_a_book() {
    let mut yard = SmallYard::new();
    yard.entries
        .retain(|entry| !matches!(entry.body, Body::BookAdopted(_)));
    let plan = planned(&yard);
    assert!(plan.gaps.is_empty());
    assert_eq!(plan.month.len(), 1);
    assert_eq!(plan.month[0].what, MonthWhat::AdoptBook);
    assert!(plan.steps.iter().all(|one| !one.done));
}

#[test]
fn a_second_reading_counts_only_near_its_day() {
    let mut yard = SmallYard::new();
    yard.says(DEPUTY, "2026-02-16T07:00", step(ArrivalStep::Came));
    let left = |yard: &SmallYard, day: i32| {
        let month = planned(yard).month;
        let line = month
            .into_iter()
            .find(|line| line.day == day && matches!(line.what, MonthWhat::Again { .. }));
        match line.unwrap().what {
            MonthWhat::Again { left, .. } => left.len(),
            other => panic!("{other:?}"),
        }
    };
    let all = left(&yard, 7);
    assert!(all > 0);
    yard.closes(OPERATOR, "2026-02-17T07:00", 1, all_well());
    assert_eq!(left(&yard, 7), all, "the day after is too soon");
    yard.closes(OPERATOR, "2026-02-22T07:00", 2, all_well());
    assert!(left(&yard, 7) < all && left(&yard, 14) == all);
}

#[test]
fn quiet_rounds_are_counted_in_a_row() {
    let mut yard = SmallYard::new();
    yard.closes(OPERATOR, "2026-02-15T07:00", 1, all_well());
    yard.says(DEPUTY, "2026-02-16T06:00", step(ArrivalStep::Came));
    yard.closes(OPERATOR, "2026-02-16T07:00", 2, all_well());
    let quiet = |yard: &SmallYard| {
        yard.sees(STEWARD, NOW, |situation| {
            quiet_rounds(situation, situation.machine.arrival.as_ref().unwrap())
        })
    };
    assert_eq!(quiet(&yard), 1, "the round before it came does not count");
    let mut bad = all_well();
    bad[1].1 = clip(ClipState::Missing);
    yard.closes(OPERATOR, "2026-02-17T07:00", 3, bad);
    assert_eq!(quiet(&yard), 0);
    yard.closes(OPERATOR, "2026-02-18T07:00", 4, all_well());
    assert_eq!(quiet(&yard), 1);
}

#[test]
fn only_deputy_or_steward_take_a_machine_in() {
    let mut yard = SmallYard::new();
    yard.says(OPERATOR, "2026-03-01T07:00", step(ArrivalStep::Came));
    let state = yard.fold();
    assert_eq!(state.arrival, None);
    assert_eq!(state.questions.len(), 1);
}

#[test]
fn coming_again_after_it_was_over_begins_anew_and_a_correction_takes_a_step_back() {
    let mut yard = with_fluid();
    let first = yard.says(DEPUTY, "2026-02-01T07:00", step(ArrivalStep::Came));
    let fluid = yard.fold().book().unwrap().book.fluids[0].id.clone();
    let changed = yard.says(
        DEPUTY,
        "2026-02-01T08:00",
        say(
            ArrivalStep::Fluids,
            Some(fluid.as_str()),
            Some(FluidNow::Changed),
            None,
        ),
    );
    assert_eq!(
        yard.fold().arrival.unwrap().fluids_known[&fluid],
        (FluidNow::Changed, changed)
    );
    let mut taken_back = yard.clone();
    taken_back.corrects(DEPUTY, "2026-02-01T09:00", changed, None);
    assert!(taken_back.fold().arrival.unwrap().fluids_known.is_empty());
    yard.says(STEWARD, "2026-02-02T07:00", step(ArrivalStep::Came));
    let arrived = yard.fold().arrival.unwrap();
    assert_eq!((arrived.entry, arrived.over), (first, None), "one arrival");
    let over = yard.says(STEWARD, "2026-02-03T07:00", step(ArrivalStep::Over));
    assert_eq!(
        yard.fold().arrival.unwrap().over,
        Some((over, at("2026-02-03T07:00")))
    );
    let again = yard.says(STEWARD, "2026-03-01T07:00", step(ArrivalStep::Came));
    let arrived = yard.fold().arrival.unwrap();
    assert_eq!((arrived.entry, arrived.over), (again, None));
    assert!(
        arrived.fluids_known.is_empty(),
        "who knows what was poured in meanwhile"
    );
    let mut turned = yard.clone();
    turned.entries.reverse();
    assert_eq!(turned.fold(), yard.fold(), "whatever the order of arrival");
}

#[test]
fn a_trailer_has_no_engine_to_stop_but_somebody_says_so() {
    let mut yard = SmallYard::with_book(&blank("trailer"));
    assert!(yard.fold().book().unwrap().book.lacks(Without::Engine));
    assert_eq!(of(&yard, ArrivalStep::Stop).why, Some(Open::NotSaid));
    yard.says(DEPUTY, "2026-03-01T07:00", step(ArrivalStep::Stop));
    assert!(of(&yard, ArrivalStep::Stop).done);
}
