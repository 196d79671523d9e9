//! What a book does not say is not known, with the one measurement that is missing, and everything else still is.

use yard::arm::{
    Direction, MapGrid, Missing, MissingCode, NotKnown, PoseAsked, PoseWarning, TeachingReason,
    arm_of, machine, order_of_work, pose, strength_map, strongest, teaching_poses,
};
use yard::book::{KnownBy, PinName};

use crate::table::{book_of, reference, text, with, without};

const POSE: [f64; 3] = [1.29, 1.2045, 0.96554];

fn missing(code: MissingCode, subject: &'static str) -> NotKnown {
    NotKnown::Missing(Missing { code, subject })
}

#[test]
fn a_pin_missing_leaves_no_pose() {
    let arm = without("id = \"link-pin\"");
    let why = missing(MissingCode::PinPlace, "link-pin");
    assert_eq!(pose(&arm, &PoseAsked::at(POSE)).unwrap_err(), why);
    assert_eq!(arm.missing[0], why.missing().unwrap());
    assert!(machine(&arm).reach.is_err());
}

#[test]
fn without_weights_geometry_only() {
    let arm = without("of = \"dipper\"");
    let record = pose(&arm, &PoseAsked::at(POSE)).unwrap();
    let whole = pose(&reference(), &PoseAsked::at(POSE)).unwrap();
    assert_eq!(record.tooth, whole.tooth);
    let why = missing(MissingCode::MassOf, "dipper");
    assert_eq!(record.hanging.unwrap_err(), why);
    for force in &record.forces {
        let force = force.as_ref().unwrap();
        assert_eq!(force.usable.unwrap_err(), why);
        assert_eq!(force.lever_alone.unwrap_err(), why);
        assert!(force.per_newton.iter().all(|share| share.is_finite()));
    }
    assert_eq!(record.rest.unwrap_err(), why);
    assert!(record.footing.iter().all(|one| one.figures == Err(why)));
    let swing = record.swing.unwrap();
    assert!(swing.towards_left.is_ok() && swing.inertia_at_least == Err(why));
    assert!(record.tank.unwrap().level.is_ok());
}

#[test]
fn without_a_pressure_the_rest_is_still_told() {
    let arm = with(
        "supply = \"17500 kPa\"\nrelief-piston = \"24500 kPa\"\n",
        "",
    );
    let record = pose(&arm, &PoseAsked::at(POSE)).unwrap();
    let crowd = record.forces[1].as_ref().unwrap();
    let why = missing(MissingCode::Supply, "dipper");
    assert_eq!(crowd.rams[1].working.unwrap_err(), why);
    assert_eq!(crowd.usable.unwrap_err(), why);
    assert!(crowd.rams[0].holding.is_ok());
    let holding = missing(MissingCode::ReliefPiston, "dipper");
    assert_eq!(
        record.forces[0].as_ref().unwrap().usable.unwrap_err(),
        holding
    );
    assert!(record.hanging.is_ok());
}

#[test]
fn without_friction_tipping_is_told_and_usable_is_not() {
    let arm = with("friction = \"0.5\"\n", "");
    let record = pose(&arm, &PoseAsked::at(POSE)).unwrap();
    let why = missing(MissingCode::Friction, "");
    let curl = record.forces[0].as_ref().unwrap();
    assert!(curl.standing[0].tips.is_ok() && curl.arm_alone.is_ok());
    assert_eq!(curl.usable.unwrap_err(), why);
    assert_eq!(
        record.footing[0].figures.as_ref().unwrap().drags_at,
        Err(why)
    );
    assert_eq!(
        strongest(&arm, Direction::Curl, Some(2), 9).unwrap_err(),
        why
    );
    assert!(strongest(&arm, Direction::Curl, None, 9).is_ok());
}

#[test]
fn by_default_no_lifting_machine() {
    let arm = with(
        "authority = \"none: an invented machine, for testing\"\n",
        "",
    );
    let record = pose(&arm, &PoseAsked::at(POSE)).unwrap();
    let why = record.lift.unwrap_err();
    assert_eq!(why.code(), "not-a-lifting-machine");
    assert_eq!(why.missing().unwrap().code, MissingCode::LiftingAuthority);
    assert!(!arm.missing.contains(&why.missing().unwrap()));
}

#[test]
fn which_way_a_ram_moves_settles_the_mirror_image() {
    let as_it_is = pose(&reference(), &PoseAsked::at(POSE)).unwrap();
    let mirrored = with("bucket-ram-out = \"curls\"", "bucket-ram-out = \"opens\"");
    let mirrored = pose(&mirrored, &PoseAsked::at(POSE)).unwrap();
    assert!(as_it_is.rams[2].lever < 0.0 && mirrored.rams[2].lever > 0.0);
    let silent = with("bucket-ram-out = \"curls\"\n", "");
    let why = pose(&silent, &PoseAsked::at(POSE)).unwrap_err();
    assert_eq!(why, missing(MissingCode::RamOut, "bucket"));
    assert_eq!(why.missing().unwrap().unlock().key, "bucket-ram-out");
}

#[test]
fn a_guess_is_said_to_be_one() {
    let guessed =
        text("reference-machine-book.toml").replacen("known = \"drawing\"", "known = \"guess\"", 2);
    let arm = arm_of(&book_of(&guessed));
    assert!(arm.guesses.shape && !arm.guesses.weights);
    let foot = arm
        .pins
        .iter()
        .find(|pin| pin.id == PinName::BoomFoot)
        .unwrap();
    assert_eq!(foot.known, KnownBy::Guess);
    assert!(pose(&arm, &PoseAsked::at(POSE)).unwrap().rests_on_guess);
    assert!(machine(&arm).rests_on_guess);
}

#[test]
fn a_measured_link_counts_before_a_guessed_pin() {
    let boom = "at = [\"2.35 m\", \"0 m\"]\nknown = \"drawing\"";
    let guess = "at = [\"2.2 m\", \"0 m\"]\nknown = \"guess\"";
    let measured = format!(
        "{guess}\n\n[[distance]]\nfrom = \"dipper-pin\"\nto = \"boom-foot\"\nis = \"2350 mm\""
    );
    let arm = with(boom, &measured);
    let length = arm.shape.as_ref().unwrap().boom_length;
    assert!((length - 2.35).abs() < 1e-9, "{length}");
    assert!(!arm.guesses.any());
    let length = with(boom, guess).shape.unwrap().boom_length;
    assert!((length - 2.2).abs() < 1e-9, "{length}");
}

#[test]
fn ends_of_strokes_and_beyond_are_warned_of() {
    let arm = reference();
    let of = |shares| {
        let lengths = yard::arm::lengths_out(&arm, shares).unwrap();
        pose(&arm, &PoseAsked::at(lengths)).unwrap().warnings
    };
    let codes = |warnings: &[PoseWarning]| -> Vec<&'static str> {
        warnings.iter().map(PoseWarning::code).collect()
    };
    assert!(codes(&of([0.5, 1.0, 0.5])).contains(&"on-its-stop"));
    assert!(
        codes(&of([0.5, 0.5, 0.5]))
            .iter()
            .all(|code| *code == "below-ground")
    );
    assert!(codes(&of([0.5, 1.02, 0.5])).contains(&"beyond-stroke"));
    let impossible = pose(&arm, &PoseAsked::at([9.0, 1.2, 1.0])).unwrap_err();
    assert_eq!(impossible.code(), "triangle-open");
}

#[test]
fn a_shape_that_does_not_close_says_so() {
    let arm = with("open = \"1.645 m\"", "open = \"2.645 m\"");
    assert!(!arm.troubles.is_empty());
    assert_eq!(machine(&arm).reach.unwrap_err().code(), "triangle-open");
    assert!(teaching_poses(&arm).is_err());
    assert!(pose(&arm, &PoseAsked::at(POSE)).is_ok());
}

#[test]
fn four_poses_two_to_use_and_two_to_avoid() {
    let arm = reference();
    let four = teaching_poses(&arm).unwrap().map(|one| one.unwrap());
    assert_eq!(four.map(|one| one.use_it), [true, true, false, false]);
    let records = four.map(|one| pose(&arm, &PoseAsked::at(one.lengths)).unwrap());
    let TeachingReason::HardPartFirst { ram, force } = four[0].why else {
        panic!("{:?}", four[0]);
    };
    let direction = Direction::ALL
        .iter()
        .position(|one| one.working() == ram)
        .unwrap();
    let (usable, _) = records[0].forces[direction]
        .as_ref()
        .unwrap()
        .usable
        .unwrap();
    assert!((usable.newtons().unwrap() / force - 1.0).abs() < 1e-9);
    assert!(records[0].tooth.z.abs() < 0.6 && records[0].warnings.len() < 2);
    assert!(records[1].tooth.z > 0.2 && records[1].pivots[2].r < records[3].pivots[2].r / 2.0);
    assert!(matches!(
        four[2].why,
        TeachingReason::OnItsStop { out: true, .. }
    ));
    assert_eq!(records[2].warnings[0].code(), "on-its-stop");
    assert!(records[3].tooth.r > 4.8);
    let order = order_of_work(&arm).unwrap();
    assert_ne!(order.parts[0].joint, order.parts[1].joint);
}

#[test]
fn the_map_is_the_kernels() {
    let arm = reference();
    let grid = MapGrid {
        steps: 9,
        square: 0.5,
    };
    let cells = strength_map(&arm, Direction::Crowd, arm.digs_from, grid).unwrap();
    assert!(cells.len() > 20);
    let best = strongest(&arm, Direction::Crowd, arm.digs_from, 9).unwrap();
    assert!(
        cells
            .iter()
            .all(|cell| cell.force <= best.force * (1.0 + 1e-9))
    );
}

#[test]
fn a_machine_without_rams_has_no_arm() {
    let arm = with("invented = true", "invented = true\nwithout = \"rams\"");
    let why = missing(MissingCode::NoArm, "");
    assert_eq!(pose(&arm, &PoseAsked::at(POSE)).unwrap_err(), why);
    assert_eq!(arm.missing, [why.missing().unwrap()]);
}
