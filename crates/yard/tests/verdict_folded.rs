//! The whole loop on the invented demo machine, through the real folds: never walked, fit, found bad, mended, released.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{
    book::{Book, OilHeat, Point, PointKind},
    entry::*,
    handover::{Judgement, Verdict, judge},
    id::{FaultRef, PointId},
    people::Role,
    walkround::plan,
};

const DEMO: &str = include_str!("../../../demo/marigold.toml");

/// The demo machine under the name the small yard's helpers use.
fn demo() -> SmallYard {
    SmallYard::with_book(&DEMO.replacen("id = \"marigold\"", "id = \"loader\"", 1))
}

fn book(yard: &SmallYard) -> Book {
    Book::clone(&yard.fold().book().unwrap().book)
}

fn well(point: &Point) -> Answer {
    match &point.kind {
        PointKind::Level(mark) => Answer::Level {
            reads: LevelReads::AtMark,
            pose: mark.pose.clone(),
            oil: Some(if mark.oil == OilHeat::Any {
                OilHeat::Cold
            } else {
                mark.oil
            }),
            looks: FluidLooks::Clean,
        },
        PointKind::Fitting(_) => fitting(GreaseTook::Seen),
        PointKind::PinClip => clip(ClipState::Present),
        PointKind::Bolts => Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        },
        PointKind::Measure(limit) => {
            let end = limit.min.as_ref().or(limit.max.as_ref()).unwrap();
            // A quarter above the least, or half the most.
            let share = if limit.min.is_some() {
                exact("1.25")
            } else {
                exact("0.5")
            };
            let value = quantity::Quantity::from_exact(end.value() * &share, end.unit(), None);
            measured(limit.readings.len().max(1), value)
        }
        PointKind::Leak { .. } => Answer::Leak(None),
        PointKind::Hose => Answer::Hose(HoseState::Sound),
        PointKind::Structure => Answer::Structure(StructureState::Sound),
        PointKind::Function => Answer::Function(FunctionState::Works),
        PointKind::Look => look(LookState::Well),
        PointKind::Crank(cases) => Answer::Crank {
            cranked: cases.iter().map(|case| Some(case.may_crank)).collect(),
            bypassed: false,
        },
    }
}

fn measured(how_many: usize, value: quantity::Quantity) -> Answer {
    Answer::Measure {
        readings: vec![Reading::Value(value); how_many],
        by_method: Some(true),
        condition_held: Some(true),
    }
}

/// Walks what is due, all well but for what is said otherwise; gives the closing entry.
fn walk(
    yard: &mut SmallYard,
    by: yard::id::PersonId,
    when: &str,
    n: u64,
    but: &[(&str, Answer)],
) -> yard::id::EntryId {
    let book = book(yard);
    let due = yard
        .sees(by, when, |situation| plan(situation, RoundPurpose::Start))
        .unwrap();
    let ids: Vec<PointId> = due
        .legs
        .into_iter()
        .flat_map(|leg| leg.stops)
        .flat_map(|stop| stop.points)
        .map(|due| due.point)
        .collect();
    let known = |id: &PointId| book.points.iter().find(|point| point.id == *id).unwrap();
    let mut answers: Vec<(&str, Answer)> = ids
        .iter()
        .map(|id| (id.as_str(), well(known(id))))
        .collect();
    for (id, answer) in but {
        answers.retain(|(known, _)| known != id);
        answers.push((id, answer.clone()));
    }
    yard.closes(by, when, n, answers)
}

fn hand_over(yard: &mut SmallYard, by: yard::id::PersonId, when: &str, engine: EngineLeft) {
    let proven = |step: &yard::book::RestStep| RestAnswer {
        step: step.id.clone(),
        state: RestState::Proven,
        note: None,
    };
    let steps = book(yard).rest.iter().map(proven).collect();
    let left = Handover {
        book: yard.book,
        hours: None,
        engine,
        steps,
        next: None,
    };
    yard.says(by, when, Body::Handover(left));
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

fn rules(said: &Judgement) -> Vec<String> {
    let name = |reason: &yard::handover::Reason| match &reason.point {
        Some(point) => format!("{} at {point}", reason.rule),
        None => reason.rule.to_owned(),
    };
    said.reasons.iter().map(name).collect()
}

/// Ready for a round: signed off, hours read, left at rest.
fn ready() -> SmallYard {
    let mut yard = demo();
    sign_off(&mut yard);
    yard.reads(STEWARD, "2026-03-01T12:30", "812.3 h");
    hand_over(&mut yard, STEWARD, "2026-03-01T16:00", EngineLeft::Off);
    yard
}

#[test]
fn a_machine_nobody_walked_stands_because_it_is_not_known() {
    let said = ready().sees(OPERATOR, "2026-03-02T07:00", judge);
    assert_eq!(said.verdict, Verdict::StandDown);
    assert!(said.only_unknown());
    assert!(rules(&said).contains(&"not-walked".to_owned()));
}

#[test]
fn walked_and_all_well_it_runs() {
    let mut yard = ready();
    walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &[]);
    let said = yard.sees(OPERATOR, "2026-03-02T07:10", judge);
    assert!(said.verdict < Verdict::StandDown, "{:?}", rules(&said));
    // What the demo's book itself leaves open may ask for care; nothing else does.
    let of_the_book = ["joint-without-fitting", "gap"];
    assert!(
        said.reasons
            .iter()
            .all(|reason| of_the_book.contains(&reason.rule)),
        "{:?}",
        rules(&said)
    );
    assert!(
        yard.sees(OPERATOR, "2026-03-02T19:01", judge).verdict == Verdict::StandDown,
        "it holds twelve hours"
    );
    assert!(
        yard.sees(OTHER, "2026-03-02T07:10", judge).verdict == Verdict::StandDown,
        "and only for who walked it"
    );
}

/// Sag outside, sag too close, a level in another pose, a fitting that refuses and a missing clip: the clip comes first; a
/// learner's release lifts nothing, the steward's does.
#[test]
fn the_worst_comes_first_and_only_the_steward_lifts_it() {
    let mut yard = ready();
    let level = Answer::Level {
        reads: LevelReads::AtMark,
        pose: None,
        oil: Some(OilHeat::Cold),
        looks: FluidLooks::Clean,
    };
    let fitting_id = a_fitting(&yard);
    let hydraulic = a_level(&yard);
    let but = [
        (
            "track-sag-left",
            sag_by_method(&yard, "track-sag-left", "2 1/8 in"),
        ),
        (
            "track-sag-right",
            sag_by_method(&yard, "track-sag-right", "2 in ± 1/16 in"),
        ),
        (hydraulic.as_str(), level),
        (fitting_id.as_str(), fitting(GreaseTook::Refused)),
        ("loader-clips-left", clip(ClipState::Missing)),
    ];
    let part = walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &but);
    let said = yard.sees(OPERATOR, "2026-03-02T07:10", judge);
    assert_eq!(said.verdict, Verdict::StandDown);
    let told = rules(&said);
    assert_eq!(told[0], "pin-clip at loader-clips-left");
    assert_eq!(told[1], "measure-outside at track-sag-left");
    for expected in [
        "too-close at track-sag-right".to_owned(),
        format!("level-not-comparable at {hydraulic}"),
        format!("refused-grease at {fitting_id}"),
    ] {
        assert!(
            told.contains(&expected),
            "{expected} is missing of {told:?}"
        );
    }

    let found = |id: &str| FaultRef {
        entry: part,
        point: Some(point(id)),
    };
    let lifts = vec![found("loader-clips-left"), found("track-sag-left")];
    let release = |lifts| {
        Body::Release(Release {
            lifts,
            mended: "new clip; track tightened".into(),
        })
    };
    yard.says(LEARNER, "2026-03-02T08:00", release(lifts.clone()));
    let after_learner = rules(&yard.sees(OPERATOR, "2026-03-02T08:01", judge));
    assert_eq!(after_learner[..2], told[..2], "a learner lifts nothing");

    yard.repairs(STEWARD, "2026-03-02T09:00", lifts.clone());
    let mended = rules(&yard.sees(OPERATOR, "2026-03-02T09:01", judge));
    assert!(
        mended.contains(&"not-released at loader-clips-left".to_owned()),
        "{mended:?}"
    );

    yard.says(STEWARD, "2026-03-02T09:10", release(lifts));
    let released = rules(&yard.sees(OPERATOR, "2026-03-02T09:11", judge));
    assert!(
        !released
            .iter()
            .any(|told| told.contains("loader-clips-left") || told.contains("track-sag-left")),
        "{released:?}"
    );
}

/// Left idling: it stands until walked round, whoever asks.
#[test]
fn left_running_it_stands_until_walked_round() {
    let mut yard = ready();
    hand_over(&mut yard, OTHER, "2026-03-02T06:00", EngineLeft::Running);
    let before = yard.sees(OPERATOR, "2026-03-02T06:30", judge);
    assert_eq!(
        (before.verdict, before.reasons[0].rule),
        (Verdict::StandDown, "left-running")
    );
    walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &[]);
    let after = yard.sees(OPERATOR, "2026-03-02T07:10", judge);
    assert_eq!(
        (after.verdict, after.reasons[0].rule),
        (Verdict::Care, "left-running")
    );
}

#[test]
fn a_role_taken_away_is_the_end_of_running() {
    let mut yard = ready();
    walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &[]);
    yard.give(STEWARD, "2026-03-02T07:05", OPERATOR, Some(Role::Visitor));
    let said = yard.sees(OPERATOR, "2026-03-02T07:10", judge);
    assert!(rules(&said).contains(&"may-not-run".to_owned()));
}

fn a_fitting(yard: &SmallYard) -> PointId {
    let points = book(yard).points;
    points
        .into_iter()
        .find(|point| matches!(point.kind, PointKind::Fitting(_)))
        .unwrap()
        .id
}

fn a_level(yard: &SmallYard) -> PointId {
    let has_pose =
        |point: &Point| matches!(&point.kind, PointKind::Level(mark) if mark.pose.is_some());
    book(yard).points.into_iter().find(has_pose).unwrap().id
}

fn sag_by_method(yard: &SmallYard, id: &str, text: &str) -> Answer {
    let points = book(yard).points;
    let PointKind::Measure(limit) = &points
        .iter()
        .find(|known| known.id == point(id))
        .unwrap()
        .kind
    else {
        panic!("{id} is measured")
    };
    measured(limit.readings.len().max(1), q(text))
}

/// A release lifts what it names, and ends the round that was walked before it: "walk round first", until walked again.
#[test]
fn what_was_released_since_the_round_is_walked_round_again() {
    let mut yard = ready();
    let missing = [("loader-clips-left", clip(ClipState::Missing))];
    let part = walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &missing);
    let lifts = vec![fault_at(part, "loader-clips-left")];
    yard.repairs(STEWARD, "2026-03-02T09:00", lifts.clone());
    let release = Body::Release(Release {
        lifts,
        mended: "new clip, pulled by hand".into(),
    });
    yard.says(STEWARD, "2026-03-02T09:10", release);
    let released = yard.sees(OPERATOR, "2026-03-02T09:11", judge);
    assert!(released.only_unknown(), "{:?}", rules(&released));
    assert_eq!(rules(&released)[0], "released-since-round");
    walk(&mut yard, OPERATOR, "2026-03-02T09:20", 2, &[]);
    let walked = yard.sees(OPERATOR, "2026-03-02T09:30", judge);
    assert!(walked.verdict < Verdict::StandDown, "{:?}", rules(&walked));
}

/// A fitting refuses at 812.3 h, eight hours are allowed. A repair alone gives no new hours, nor does a second refusal; grease
/// that goes in ends it.
#[test]
fn a_repair_alone_gives_a_dry_fitting_no_more_hours() {
    let mut yard = ready();
    yard.habits.refused_runs_hours = Some(8);
    let id = a_fitting(&yard);
    let refuses = [(id.as_str(), fitting(GreaseTook::Refused))];
    let first = walk(&mut yard, OPERATOR, "2026-03-02T07:00", 1, &refuses);
    yard.repairs(
        OPERATOR,
        "2026-03-02T12:00",
        vec![fault_at(first, id.as_str())],
    );
    let until = |yard: &SmallYard, when: &str| yard.sees(OPERATOR, when, judge).holds.until_hours;
    assert_eq!(until(&yard, "2026-03-02T12:01"), Some(exact("820.3")));
    yard.reads(OPERATOR, "2026-03-02T16:00", "818 h");
    let second = walk(&mut yard, OPERATOR, "2026-03-03T07:00", 2, &refuses);
    assert_eq!(until(&yard, "2026-03-03T07:10"), Some(exact("820.3")));
    yard.reads(OPERATOR, "2026-03-03T12:00", "820.4 h");
    let used_up = yard.sees(OPERATOR, "2026-03-03T12:01", judge);
    assert_eq!(used_up.verdict, Verdict::StandDown);
    assert_eq!(rules(&used_up)[0], format!("refused-grease at {id}"));
    assert!(!used_up.only_unknown());

    let takes = Greasing {
        fittings: vec![answered(id.as_str(), fitting(GreaseTook::Seen))],
        mends: vec![fault_at(second, id.as_str())],
    };
    yard.says(OPERATOR, "2026-03-03T13:00", Body::Greasing(takes));
    let taken = yard.sees(OPERATOR, "2026-03-03T13:01", judge);
    assert!(taken.verdict < Verdict::StandDown, "{:?}", rules(&taken));
}
