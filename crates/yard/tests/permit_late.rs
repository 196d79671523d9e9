//! A permit to move knows only what the journal held when it was accepted, whatever time a later delivery bears.
#![allow(clippy::unwrap_used)]

mod small_yard;

use small_yard::*;
use yard::{book::Severity, entry::*, handover::judge, id::EntryId};

fn fault(severity: Severity) -> Body {
    Body::Fault(Fault {
        point: None,
        what: "crack in the arm".into(),
        severity,
        told: None,
    })
}

/// A yard whose machine stands, with a permit for the operator given at 14:00.
fn permitted() -> (SmallYard, EntryId) {
    let mut yard = SmallYard::new();
    let why = "look first".into();
    yard.says(
        STEWARD,
        "2026-05-01T12:00",
        Body::StandDown(StandDown { why }),
    );
    let permit = MovePermit {
        who: OPERATOR,
        how_far: q("20 m"),
        until: at("2026-05-02T00:00"),
        how: "to the shed".into(),
    };
    let given = yard.says(DEPUTY, "2026-05-01T14:00", Body::MovePermit(permit));
    (yard, given)
}

fn in_force(yard: &SmallYard) -> Option<EntryId> {
    yard.sees(OPERATOR, "2026-05-01T18:00", |situation| {
        judge(situation).holds.permit
    })
}

#[test]
fn what_was_known_leaves_the_permit() {
    let (yard, given) = permitted();
    assert_eq!(in_force(&yard), Some(given));
}

#[test]
fn a_fault_written_before_and_delivered_after_ends_it() {
    let (mut yard, _) = permitted();
    yard.says(OTHER, "2026-05-01T09:00", fault(Severity::StandDown));
    assert_eq!(in_force(&yard), None);
}

#[test]
fn the_same_fault_delivered_before_leaves_it() {
    let (mut yard, given) = permitted();
    let late = yard.says(OTHER, "2026-05-01T09:00", fault(Severity::StandDown));
    for entry in &mut yard.entries {
        entry.seq = if entry.id == late { 0 } else { entry.seq };
    }
    assert_eq!(in_force(&yard), Some(given));
}

#[test]
fn what_does_not_stand_the_machine_down_leaves_it() {
    let (mut yard, given) = permitted();
    yard.says(OTHER, "2026-05-01T09:00", fault(Severity::Care));
    assert_eq!(in_force(&yard), Some(given));
}

#[test]
fn a_correction_delivered_after_that_makes_it_worse_ends_it() {
    let (mut yard, given) = permitted();
    let mild = yard.says(OTHER, "2026-05-01T09:00", fault(Severity::Care));
    for entry in &mut yard.entries {
        entry.seq = if entry.id == mild { 0 } else { entry.seq };
    }
    assert_eq!(in_force(&yard), Some(given));
    yard.corrects(
        STEWARD,
        "2026-05-01T13:00",
        mild,
        Some(fault(Severity::StandDown)),
    );
    assert_eq!(in_force(&yard), None);
}

#[test]
fn a_new_permit_given_knowing_it_is_in_force() {
    let (mut yard, _) = permitted();
    yard.says(OTHER, "2026-05-01T09:00", fault(Severity::StandDown));
    let permit = MovePermit {
        who: OPERATOR,
        how_far: q("20 m"),
        until: at("2026-05-02T00:00"),
        how: "to the shed".into(),
    };
    let again = yard.says(DEPUTY, "2026-05-01T15:00", Body::MovePermit(permit));
    assert_eq!(in_force(&yard), Some(again));
}
