//! Findings: opened by what was said, closed only by an entry that names them, by somebody entitled.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{entry::*, id::FaultRef, state::*, upkeep};

fn missing_clip() -> (SmallYard, FaultRef) {
    let mut yard = SmallYard::new();
    let walk = yard.walks(
        OPERATOR,
        "2026-05-01T07:00",
        1,
        vec![("clip-left", clip(ClipState::Missing))],
    );
    (yard, fault_at(walk, "clip-left"))
}

fn released(
    yard: &mut SmallYard,
    by: yard::id::PersonId,
    lifts: Vec<FaultRef>,
) -> yard::id::EntryId {
    yard.says(
        by,
        "2026-05-01T12:00",
        Body::Release(Release {
            lifts,
            mended: "new clip, pulled by hand".into(),
        }),
    )
}

#[test]
fn an_answer_that_is_not_well_is_a_finding_until_it_is_named() {
    let (mut yard, finding) = missing_clip();
    yard.walks(
        OPERATOR,
        "2026-05-02T07:00",
        2,
        vec![("clip-left", clip(ClipState::Present))],
    );
    let state = yard.fold();
    assert!(
        state.findings[&finding].open(),
        "a later answer closes nothing"
    );
    assert_eq!(
        state.answers[&point("clip-left")].answered.answer,
        clip(ClipState::Present)
    );
    let repair = yard.repairs(OPERATOR, "2026-05-02T08:00", vec![finding.clone()]);
    assert_eq!(yard.fold().findings[&finding].mended, [repair]);
    let release = released(&mut yard, STEWARD, vec![finding.clone()]);
    assert_eq!(yard.fold().findings[&finding].released, Some(release));
}

#[test]
fn only_the_named_finding_is_closed() {
    let (mut yard, finding) = missing_clip();
    let other = yard.walks(
        OPERATOR,
        "2026-05-01T08:00",
        1,
        vec![("clip-right", clip(ClipState::Loose))],
    );
    yard.repairs(OPERATOR, "2026-05-02T08:00", vec![finding.clone()]);
    let state = yard.fold();
    assert!(!state.findings[&finding].open());
    assert!(state.findings[&fault_at(other, "clip-right")].open());
}

#[test]
fn a_learner_neither_repairs_nor_releases_and_an_operator_does_not_release() {
    let (mut yard, finding) = missing_clip();
    let repair = yard.repairs(LEARNER, "2026-05-01T08:00", vec![finding.clone()]);
    let by_learner = released(&mut yard, LEARNER, vec![finding.clone()]);
    let by_operator = released(&mut yard, OPERATOR, vec![finding.clone()]);
    let state = yard.fold();
    assert!(state.findings[&finding].open());
    for entry in [repair, by_learner, by_operator] {
        assert_eq!(
            state.questions[&entry].asks,
            Asks::NotEntitled {
                of: finding.clone()
            }
        );
    }
}

#[test]
fn a_closing_entry_may_come_before_what_it_names() {
    let mut yard = SmallYard::new();
    let finding = fault_at(entry_id(yard.entries.len() as u64 + 2), "clip-left");
    let repair = yard.repairs(OPERATOR, "2026-04-01T08:00", vec![finding.clone()]);
    yard.walks(
        OPERATOR,
        "2026-05-01T07:00",
        1,
        vec![("clip-left", clip(ClipState::Missing))],
    );
    assert_eq!(yard.fold().findings[&finding].mended, [repair]);
}

#[test]
fn a_voided_repair_mends_nothing() {
    let (mut yard, finding) = missing_clip();
    let repair = yard.repairs(OPERATOR, "2026-05-01T08:00", vec![finding.clone()]);
    yard.corrects(OPERATOR, "2026-05-01T09:00", repair, None);
    assert!(yard.fold().findings[&finding].open());
}

#[test]
fn faults_and_stand_downs_count_from_whomever_they_come() {
    let mut yard = SmallYard::new();
    let reported = Fault {
        point: Some(point("no-such-point")),
        what: "smell of fuel".into(),
        severity: yard::book::Severity::StandDown,
        told: None,
    };
    let told = yard.says(VISITOR, "2026-05-01T07:00", Body::Fault(reported));
    let down = yard.says(
        LEARNER,
        "2026-05-01T08:00",
        Body::StandDown(StandDown {
            why: "wheel loose".into(),
        }),
    );
    let state = yard.fold();
    assert!(state.findings[&fault(told)].open() && state.findings[&fault(down)].open());
    assert_eq!(
        state.questions[&told].asks,
        Asks::NoSuchPoint {
            point: point("no-such-point")
        }
    );
}

#[test]
fn a_refusal_is_found_and_not_counted_as_greased() {
    let mut yard = SmallYard::new();
    yard.reads(OPERATOR, "2026-05-01T06:00", "800 h");
    yard.walks(
        OPERATOR,
        "2026-05-01T07:00",
        1,
        vec![("fit-boom", fitting(GreaseTook::Seen))],
    );
    yard.reads(OPERATOR, "2026-05-02T06:00", "812.3 h");
    let refused = yard.walks(
        OPERATOR,
        "2026-05-02T07:00",
        2,
        vec![("fit-boom", fitting(GreaseTook::Refused))],
    );
    let state = yard.fold();
    let finding = &state.findings[&fault_at(refused, "fit-boom")];
    assert_eq!(finding.life_hours.as_ref().unwrap().hours, exact("812.3"));
    assert_eq!(
        state.done[&point("fit-boom")]
            .life_hours
            .as_ref()
            .unwrap()
            .hours,
        exact("800")
    );
    let greased = Greasing {
        fittings: vec![answered("fit-boom", fitting(GreaseTook::Took))],
        mends: vec![fault_at(refused, "fit-boom")],
    };
    let greasing = yard.says(LEARNER, "2026-05-02T09:00", Body::Greasing(greased));
    let state = yard.fold();
    assert_eq!(
        state.findings[&fault_at(refused, "fit-boom")].mended,
        [greasing]
    );
    assert_eq!(state.done[&point("fit-boom")].entry, greasing);
    assert_eq!(
        state.seen_at_joint[&point("fit-boom")].at,
        at("2026-05-01T07:00"),
        "taken is not seen"
    );
}

#[test]
fn a_misfit_and_a_point_that_is_not_there_are_asked_about() {
    let mut yard = SmallYard::new();
    let answers = vec![
        ("clip-left", look(LookState::Well)),
        ("no-such-point", look(LookState::Well)),
        ("clip-right", clip(ClipState::Present)),
    ];
    let walk = yard.walks(OPERATOR, "2026-05-01T07:00", 1, answers);
    let state = yard.fold();
    let asked: Vec<_> = state
        .asked()
        .map(|question| question.asks.clone())
        .collect();
    assert_eq!(
        asked,
        [
            Asks::Misfit {
                point: point("clip-left")
            },
            Asks::NoSuchPoint {
                point: point("no-such-point")
            }
        ]
    );
    assert_eq!(state.misfits[&point("clip-left")], walk);
    assert!(
        !state.done.contains_key(&point("clip-left"))
            && state.done.contains_key(&point("clip-right"))
    );
    yard.rules(STEWARD, "2026-05-01T08:00", walk, RulingSays::Answered);
    assert_eq!(yard.fold().asked().count(), 0);
}

#[test]
fn a_visitors_round_counts_for_nothing_but_what_it_found() {
    let mut yard = SmallYard::new();
    let walk = yard.closes(
        VISITOR,
        "2026-05-01T07:00",
        1,
        vec![
            ("clip-left", clip(ClipState::Missing)),
            ("clip-right", clip(ClipState::Present)),
        ],
    );
    let state = yard.fold();
    assert!(state.findings[&fault_at(walk, "clip-left")].open());
    assert!(state.rounds.is_empty() && state.done.is_empty() && state.answers.is_empty());
}

#[test]
fn could_not_check_is_not_done() {
    let mut yard = SmallYard::new();
    yard.walks(
        OPERATOR,
        "2026-05-01T07:00",
        1,
        vec![("clip-left", clip(ClipState::Present))],
    );
    let later = yard.walks(
        OPERATOR,
        "2026-05-02T07:00",
        2,
        vec![
            ("clip-left", not_checked()),
            ("sag-left", sag("2 in ± 1/16 in")),
        ],
    );
    let state = yard.fold();
    assert_eq!(state.done[&point("clip-left")].at, at("2026-05-01T07:00"));
    assert_eq!(state.answers[&point("clip-left")].entry, later);
    assert!(
        !state.done.contains_key(&point("sag-left")),
        "too close to call is measured again"
    );
    assert!(state.findings.is_empty());
}

#[test]
fn runs_handovers_permits_and_sign_offs() {
    let mut yard = SmallYard::new();
    let start = Run {
        part: RunPart::Start,
        hours: None,
        work: None,
        amiss: vec![],
        in_sight_of: None,
    };
    yard.says(OPERATOR, "2026-05-01T07:00", Body::Run(start));
    assert_eq!(
        yard.fold().running,
        Some((OPERATOR, at("2026-05-01T07:00")))
    );
    let book = yard.book;
    let left = yard.says(
        OPERATOR,
        "2026-05-01T12:00",
        Body::Handover(Handover {
            book,
            hours: None,
            engine: EngineLeft::Running,
            steps: vec![],
            next: None,
        }),
    );
    let permit = MovePermit {
        who: LEARNER,
        how_far: q("20 m"),
        until: at("2026-05-02T00:00"),
        how: "to the shed".into(),
    };
    let refused = yard.says(
        OPERATOR,
        "2026-05-01T13:00",
        Body::MovePermit(permit.clone()),
    );
    let given = yard.says(DEPUTY, "2026-05-01T14:00", Body::MovePermit(permit));
    let sign_off = SignOff {
        person: LEARNER,
        given: true,
        until: None,
        limits: None,
        in_sight: true,
    };
    yard.says(
        OPERATOR,
        "2026-05-01T15:00",
        Body::SignOff(sign_off.clone()),
    );
    assert!(yard.fold().sign_offs.is_empty());
    yard.says(DEPUTY, "2026-05-01T16:00", Body::SignOff(sign_off.clone()));
    let state = yard.fold();
    assert_eq!(
        (state.running, state.last_run),
        (None, Some((OPERATOR, at("2026-05-01T12:00"))))
    );
    assert_eq!(
        state.questions[&left].asks,
        Asks::LeftRunning {
            engine: EngineLeft::Running
        }
    );
    assert_eq!(
        state.questions[&refused].asks,
        Asks::NotEntitled { of: fault(refused) }
    );
    assert_eq!(
        state
            .permits
            .iter()
            .map(|(entry, ..)| *entry)
            .collect::<Vec<_>>(),
        [given]
    );
    assert!(state.sign_offs[&LEARNER].in_sight);
    yard.says(
        DEPUTY,
        "2026-05-01T17:00",
        Body::SignOff(SignOff {
            given: false,
            ..sign_off
        }),
    );
    assert!(yard.fold().sign_offs.is_empty());
}

/// A point found bad again is the same failure until it was mended; then it is a repeat.
#[test]
fn repeats_count_failures_after_mending() {
    let mut yard = SmallYard::new();
    let bad = |yard: &mut SmallYard, when: &str, hours: &str, n| {
        yard.reads(OPERATOR, when, hours);
        fault_at(
            yard.walks(
                OPERATOR,
                when,
                n,
                vec![("clip-left", clip(ClipState::Loose))],
            ),
            "clip-left",
        )
    };
    let first = bad(&mut yard, "2026-05-01T07:00", "100 h", 1);
    bad(&mut yard, "2026-05-02T07:00", "104 h", 2);
    assert_eq!(upkeep::repeats(&yard.fold()), []);
    yard.repairs(OPERATOR, "2026-05-02T08:00", vec![first.clone()]);
    let again = bad(&mut yard, "2026-05-10T07:00", "130.5 h", 3);
    let repeats = upkeep::repeats(&yard.fold());
    assert_eq!(repeats.len(), 1);
    assert_eq!(repeats[0].failures, [first, again]);
    assert_eq!(repeats[0].gaps_hours, [Some(exact("30.5"))]);
}

fn level(reads: LevelReads, looks: FluidLooks) -> Answer {
    Answer::Level {
        reads,
        pose: Some(item("lowered")),
        oil: Some(yard::book::OilHeat::Cold),
        looks,
    }
}

fn top_up(mends: Vec<FaultRef>) -> Body {
    Body::TopUp(TopUp {
        fluid: None,
        added: q("1 l"),
        grade: None,
        mends,
    })
}

fn greasing(mends: Vec<FaultRef>) -> Body {
    Body::Greasing(Greasing {
        fittings: vec![answered("fit-boom", fitting(GreaseTook::Took))],
        mends,
    })
}

fn adjustment(mends: Vec<FaultRef>) -> Body {
    Body::Adjustment(Adjustment {
        point: None,
        what: "adjusted".into(),
        event: None,
        mends,
    })
}

/// A learner's service closes only what that kind of service sets right; who may repair closes by any kind what he names.
#[test]
fn a_learners_service_closes_only_what_it_sets_right() {
    type Service = fn(Vec<FaultRef>) -> Body;
    let services: [(&str, Service); 3] = [
        ("top-up", top_up),
        ("greasing", greasing),
        ("adjustment", adjustment),
    ];
    let (clean, milky) = (FluidLooks::Clean, FluidLooks::Milky);
    let found = [
        ("oil-hydraulic", level(LevelReads::Below, clean), "top-up"),
        ("oil-hydraulic", level(LevelReads::Nothing, clean), "top-up"),
        ("oil-hydraulic", level(LevelReads::Below, milky), ""),
        ("oil-hydraulic", level(LevelReads::TooFull, clean), ""),
        ("fit-boom", fitting(GreaseTook::Refused), "greasing"),
        ("sag-left", sag("2 1/8 in"), "adjustment"),
        ("clip-left", clip(ClipState::Missing), ""),
        ("hose-boom", Answer::Hose(HoseState::Bulged), ""),
        ("brake", Answer::Function(FunctionState::Weak), ""),
    ];
    for (at_point, answer, right) in found {
        for (kind, service) in services {
            for by in [LEARNER, OPERATOR] {
                let mut yard = SmallYard::new();
                let when = "2026-05-01T07:00";
                let walk = yard.walks(OPERATOR, when, 1, vec![(at_point, answer.clone())]);
                let finding = fault_at(walk, at_point);
                let entry = yard.says(by, "2026-05-01T08:00", service(vec![finding.clone()]));
                if at_point == "fit-boom" {
                    let takes = vec![(at_point, fitting(GreaseTook::Took))];
                    yard.walks(OPERATOR, "2026-05-01T09:00", 2, takes);
                }
                let state = yard.fold();
                let closes = by == OPERATOR || kind == right;
                assert_eq!(
                    state.findings[&finding].open(),
                    !closes,
                    "{kind} {answer:?}"
                );
                let asks = Asks::NotEntitled { of: finding };
                let asked = state.questions.get(&entry).map(|question| &question.asks);
                assert_eq!(asked, (!closes).then_some(&asks), "{kind} {answer:?}");
            }
        }
    }
}

#[test]
fn a_learners_service_never_closes_a_fault_or_a_stand_down() {
    let reported = Fault {
        point: Some(point("oil-hydraulic")),
        what: "oil is low".into(),
        severity: yard::book::Severity::Care,
        told: None,
    };
    for body in [
        Body::Fault(reported),
        Body::StandDown(StandDown { why: "low".into() }),
    ] {
        for service in [top_up, greasing, adjustment] {
            let mut yard = SmallYard::new();
            let told = yard.says(OPERATOR, "2026-05-01T07:00", body.clone());
            yard.says(LEARNER, "2026-05-01T08:00", service(vec![fault(told)]));
            assert!(yard.fold().findings[&fault(told)].open());
        }
    }
}

/// A fitting that refused is closed by what names it and proves it: grease that goes in, in that entry or after it.
#[test]
fn a_refusal_is_closed_only_by_grease_that_goes_in() {
    let answer = |yard: &mut SmallYard, when: &str, n, took| {
        let walk = yard.walks(OPERATOR, when, n, vec![("fit-boom", fitting(took))]);
        fault_at(walk, "fit-boom")
    };
    let mut yard = SmallYard::new();
    let refused = answer(&mut yard, "2026-05-01T07:00", 1, GreaseTook::Refused);
    answer(&mut yard, "2026-05-01T08:00", 2, GreaseTook::Took);
    let repair = yard.repairs(OPERATOR, "2026-05-01T09:00", vec![refused.clone()]);
    assert!(
        yard.fold().findings[&refused].open(),
        "a repair proves nothing"
    );
    let other = yard.walks(
        OPERATOR,
        "2026-05-01T10:00",
        3,
        vec![("fit-ring", fitting(GreaseTook::Seen))],
    );
    assert!(
        yard.fold().findings[&refused].open(),
        "{other:?} is another fitting"
    );
    let again = answer(&mut yard, "2026-05-02T07:00", 4, GreaseTook::Refused);
    assert!(yard.fold().findings[&refused].open());
    answer(&mut yard, "2026-05-02T08:00", 5, GreaseTook::Took);
    let state = yard.fold();
    assert_eq!(state.findings[&refused].mended, [repair]);
    assert!(state.findings[&again].open(), "nothing names it");

    yard.says(LEARNER, "2026-05-02T09:00", greasing(vec![again.clone()]));
    assert!(
        !yard.fold().findings[&again].open(),
        "named and greased in one"
    );
}

#[test]
fn a_greasing_without_grease_and_a_visitors_word_prove_nothing() {
    let mut yard = SmallYard::new();
    let walk = yard.walks(
        OPERATOR,
        "2026-05-01T07:00",
        1,
        vec![("fit-boom", fitting(GreaseTook::Refused))],
    );
    let refused = fault_at(walk, "fit-boom");
    let still = |took| {
        Body::Greasing(Greasing {
            fittings: vec![answered("fit-boom", fitting(took))],
            mends: vec![refused.clone()],
        })
    };
    yard.says(OPERATOR, "2026-05-01T08:00", still(GreaseTook::Refused));
    yard.says(VISITOR, "2026-05-01T09:00", still(GreaseTook::Seen));
    assert!(yard.fold().findings[&refused].open());
    yard.says(OPERATOR, "2026-05-01T10:00", still(GreaseTook::Seen));
    assert!(!yard.fold().findings[&refused].open());
}
