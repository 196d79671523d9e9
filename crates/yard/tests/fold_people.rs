//! The yard's fold: who founds it, who gives roles, and what a correction of a role does.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{entry::*, id::PersonId, people::Role, state::*};

fn role(yard: &SmallYard, person: PersonId, when: &str) -> Role {
    yard.yard().role_at(person, at(when))
}

#[test]
fn the_first_role_founds_the_yard_and_no_second_does() {
    let yard = SmallYard::new();
    assert_eq!(role(&yard, STEWARD, "2026-01-01T06:00"), Role::Steward);
    assert_eq!(role(&yard, STEWARD, "2026-01-01T05:59"), Role::Visitor);
    let mut yard = yard;
    let own = yard.give(OTHER, "2026-02-01T06:00", OTHER, Some(Role::Steward));
    assert_eq!(role(&yard, OTHER, "2026-03-01T06:00"), Role::Operator);
    assert_eq!(
        yard.yard().questions[&own].asks,
        Asks::NotEntitled { of: fault(own) }
    );
}

#[test]
fn a_founder_must_name_himself() {
    let mut yard = SmallYard {
        entries: vec![],
        ..SmallYard::new()
    };
    yard.give(OTHER, "2026-01-01T06:00", OPERATOR, Some(Role::Steward));
    yard.give(STEWARD, "2026-01-01T07:00", STEWARD, Some(Role::Steward));
    assert_eq!(role(&yard, OPERATOR, "2026-02-01T06:00"), Role::Visitor);
    assert_eq!(role(&yard, STEWARD, "2026-02-01T06:00"), Role::Steward);
}

#[test]
fn roles_are_given_and_taken_by_the_steward_only() {
    let mut yard = SmallYard::new();
    yard.give(DEPUTY, "2026-02-01T06:00", LEARNER, Some(Role::Operator));
    assert_eq!(role(&yard, LEARNER, "2026-02-02T06:00"), Role::Learner);
    yard.give(STEWARD, "2026-02-03T06:00", LEARNER, Some(Role::Operator));
    yard.give(STEWARD, "2026-02-05T06:00", LEARNER, None);
    assert_eq!(role(&yard, LEARNER, "2026-02-04T06:00"), Role::Operator);
    assert_eq!(role(&yard, LEARNER, "2026-02-05T06:00"), Role::Visitor);
}

#[test]
fn a_corrected_role_counts_from_the_correction_on() {
    let mut yard = SmallYard::new();
    let slip = yard.give(STEWARD, "2026-02-01T06:00", LEARNER, Some(Role::Steward));
    let void = |yard: &mut SmallYard, by, when: &str, of| {
        yard.yard_says(
            by,
            when,
            Body::Correction(Correction {
                of,
                instead: None,
                why: "slip".into(),
            }),
        )
    };
    let refused = void(&mut yard, DEPUTY, "2026-02-02T06:00", slip);
    assert_eq!(
        yard.yard().questions[&refused].asks,
        Asks::CorrectionNotEntitled { of: slip }
    );
    let voided = void(&mut yard, STEWARD, "2026-02-03T06:00", slip);
    assert_eq!(role(&yard, LEARNER, "2026-02-02T06:00"), Role::Steward);
    assert_eq!(
        role(&yard, LEARNER, "2026-02-03T06:00"),
        Role::Learner,
        "back to what was held before"
    );
    let later = void(&mut yard, LEARNER, "2026-02-04T06:00", voided);
    assert_eq!(
        yard.yard().questions[&later].asks,
        Asks::CorrectionNotEntitled { of: voided },
        "no way back for whom it was taken from"
    );
    assert_eq!(role(&yard, LEARNER, "2026-02-05T06:00"), Role::Learner);
}

#[test]
fn a_deputy_for_one_machine_is_one_there_only() {
    let mut yard = SmallYard::new();
    let here = RoleGiven {
        person: OTHER,
        role: Some(Role::Deputy),
        machines: vec![machine()],
    };
    yard.yard_says(STEWARD, "2026-02-01T06:00", Body::RoleGiven(here));
    let state = yard.yard();
    assert_eq!(
        state.role_on(OTHER, &machine(), at("2026-02-02T06:00")),
        Role::Deputy
    );
    assert_eq!(state.role_at(OTHER, at("2026-02-02T06:00")), Role::Operator);
    let down = yard.says(
        OTHER,
        "2026-02-02T06:00",
        Body::StandDown(StandDown { why: "rain".into() }),
    );
    yard.says(
        OTHER,
        "2026-02-02T07:00",
        Body::Release(Release {
            lifts: vec![fault(down)],
            mended: "dry".into(),
        }),
    );
    assert!(yard.fold().findings[&fault(down)].released.is_some());
    yard.give(STEWARD, "2026-02-03T06:00", OTHER, Some(Role::Operator));
    assert_eq!(
        yard.yard()
            .role_on(OTHER, &machine(), at("2026-02-04T06:00")),
        Role::Operator
    );
}

#[test]
fn the_yard_keeps_lessons_machines_and_what_does_not_read() {
    let mut yard = SmallYard::new();
    yard.says(
        STEWARD,
        "2026-02-01T06:00",
        Body::Lesson(Lesson {
            person: LEARNER,
            what: "loading".into(),
        }),
    );
    yard.says(
        LEARNER,
        "2026-02-01T07:00",
        Body::Lesson(Lesson {
            person: LEARNER,
            what: "everything".into(),
        }),
    );
    yard.runs(LEARNER, "2026-02-01T08:00");
    let unread = yard.yard_says(
        STEWARD,
        "2026-02-01T09:00",
        Body::Unreadable {
            kind: "purchase".into(),
            at: "cost".into(),
        },
    );
    let state = yard.yard();
    assert_eq!(
        state.people[&LEARNER].lessons,
        [(at("2026-02-01T06:00"), "loading".to_owned())]
    );
    assert_eq!(
        state.people[&LEARNER].machines[&machine()],
        at("2026-02-01T08:00")
    );
    assert_eq!(state.machines, [machine()]);
    assert_eq!(state.unknown, [(unread, "purchase".to_owned())]);
    assert!(matches!(
        state.questions[&unread].asks,
        Asks::Unreadable { .. }
    ));
}
