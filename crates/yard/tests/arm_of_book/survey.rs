//! First guesses of a blank and distances from a tape, in a book: solved, doubted, and what to measure next.

use reckon::arm::shape::Vector;
use reckon::arm::survey::{Geometry, Pin, all_distances};
use yard::arm::{
    ArmOfBook, Direction, MeasuredWhat, NextMeasure, PoseAsked, SurveyFinding, arm_of, likely, pose,
};
use yard::book::{GapCode, KnownBy, PinName, gaps};

use crate::table::{book_of, reference, text};

const POSE: [f64; 3] = [1.29, 1.2045, 0.96554];

/// The reference machine's book with a blank's guesses for its pins, some centimetres off, and no lever and link.
fn guessed() -> String {
    let whole = text("reference-machine-book.toml");
    let mut at = 0;
    let tables = whole.split("\n\n").filter_map(|table| {
        if table.contains("[[distance]]") {
            return None;
        }
        if !table.contains("[[pin]]") {
            return Some(table.to_owned());
        }
        at += 1;
        let off = f64::from(at % 3) * 0.02 - 0.02;
        Some(shifted(table, off))
    });
    tables.collect::<Vec<_>>().join("\n\n")
}

fn shifted(table: &str, off: f64) -> String {
    let line = |line: &str| {
        let Some(both) = line.strip_prefix("at = [") else {
            return line.replace("drawing", "guess");
        };
        let numbers: Vec<f64> = both
            .split('"')
            .filter_map(|part| part.strip_suffix(" m")?.parse().ok())
            .collect();
        let on_axis = numbers[1] == 0.0;
        let second = if on_axis { 0.0 } else { numbers[1] - off };
        format!("at = [\"{} m\", \"{} m\"]", numbers[0] + off, second)
    };
    table.lines().map(line).collect::<Vec<_>>().join("\n")
}

/// Every distance a tape can be held to on the reference machine, true to a tenth of a nanometre.
fn true_distances() -> Vec<(Pin, Pin, f64)> {
    let geometry = Geometry::of(reference().shape.as_ref().unwrap());
    let nothing = Vector::default();
    let along = |length: f64| Vector::new(length, 0.0);
    let place = |pin: Pin, with: Pin| match pin {
        // The foot pin is the boom's origin, the dipper's pin the dipper's, the bucket's pin the bucket's.
        Pin::BoomFoot if matches!(with, Pin::BoomRamBarrel | Pin::Ground | Pin::SwingAxis) => {
            geometry.foot
        }
        Pin::BoomFoot => nothing,
        Pin::BoomRamBarrel => geometry.boom_barrel,
        Pin::BoomRamRod => geometry.boom_rod,
        Pin::DipperRamBarrel => geometry.dipper_barrel,
        Pin::DipperPin
            if matches!(with, Pin::BoomFoot | Pin::BoomRamRod | Pin::DipperRamBarrel) =>
        {
            along(geometry.boom_length)
        }
        Pin::DipperPin => nothing,
        Pin::DipperRamRod => geometry.dipper_rod,
        Pin::BucketRamBarrel => geometry.bucket_barrel,
        Pin::LeverPin => geometry.lever_pin,
        Pin::BucketPin if matches!(with, Pin::LinkPin | Pin::Tooth | Pin::Heel) => nothing,
        Pin::BucketPin => along(geometry.dipper_length),
        Pin::LinkPin => geometry.link_pin,
        Pin::Tooth => along(geometry.tip_radius),
        Pin::Heel => geometry.heel,
        Pin::LinkagePin | Pin::Ground | Pin::SwingAxis => nothing,
    };
    let each = all_distances().into_iter().map(|(from, to)| {
        let length = match (from, to) {
            (Pin::LeverPin, Pin::LinkagePin) => geometry.lever,
            (Pin::LinkagePin, Pin::LinkPin) => geometry.link,
            (pin, Pin::Ground) => place(pin, Pin::Ground).z,
            (pin, Pin::SwingAxis) => place(pin, Pin::SwingAxis).r,
            _ => (place(from, to) - place(to, from)).length(),
        };
        (from, to, length)
    });
    each.collect()
}

fn taped(distances: &[(Pin, Pin, f64)]) -> String {
    let each = distances.iter().map(|(from, to, length)| {
        format!(
            "\n\n[[distance]]\nfrom = \"{}\"\nto = \"{}\"\nis = \"{length:.10} m ± 0.003 m\"",
            from.code(),
            to.code()
        )
    });
    each.collect()
}

fn with(distances: &[(Pin, Pin, f64)]) -> ArmOfBook {
    arm_of(&book_of(&(guessed() + &taped(distances))))
}

#[test]
fn a_tape_turns_guesses_into_this_machines_own_pins() {
    let arm = with(&true_distances());
    let survey = arm.survey.as_ref().unwrap();
    assert_eq!(survey.findings, []);
    assert!(survey.complete && survey.open.is_empty() && survey.checks > 5);
    assert!(!arm.guesses.any());
    let (found, truth) = (arm.shape.as_ref().unwrap(), reference().shape.unwrap());
    for (found, truth) in found.to_numbers().iter().zip(truth.to_numbers()) {
        assert!((found - truth).abs() < 1e-7, "{found} {truth}");
    }
    for pin in &arm.pins {
        assert_eq!(pin.known, KnownBy::Measured);
        let half = pin.plus_minus.unwrap();
        assert!(half.r > 0.0 && half.r < 0.05, "{pin:?}");
    }
    let record = pose(&arm, &PoseAsked::at(POSE)).unwrap();
    let half = record.tooth_plus_minus.unwrap();
    assert!(half.r > 0.001 && half.r < 0.1 && half.z < 0.1, "{half:?}");
    assert!(!record.rests_on_guess);
    let likely = likely(&arm, POSE, Direction::Curl, arm.digs_from, (200, 1)).unwrap();
    assert_eq!(likely.limits.len(), 5);
}

#[test]
fn without_a_tape_it_stays_a_guess_and_the_book_says_what_to_measure() {
    let text = guessed() + "\n\n[arm-lengths]\n";
    let text = text.replace("\n\n[arm-lengths]\n", "").replace(
        "bucket-ram-out = \"curls\"",
        "bucket-ram-out = \"curls\"\nlever = \"0.36 m\"\nlink = \"0.37 m\"",
    );
    let book = book_of(&text);
    let arm = arm_of(&book);
    assert!(arm.guesses.shape && arm.shape.is_ok());
    assert!(pose(&arm, &PoseAsked::at(POSE)).unwrap().rests_on_guess);
    let survey = arm.survey.as_ref().unwrap();
    assert!(!survey.complete && !survey.open.is_empty());
    let NextMeasure::Distance(from, to) = survey.next[0] else {
        panic!("{:?}", survey.next);
    };
    assert!(
        arm.pins
            .iter()
            .all(|pin| pin.known == KnownBy::Guess && pin.plus_minus.is_none())
    );
    let gap = gaps(&book)
        .into_iter()
        .find(|gap| gap.code == GapCode::ArmLacks)
        .unwrap();
    assert_eq!(gap.subject, format!("distance {from} – {to}"));
    assert!(
        pose(&arm, &PoseAsked::at(POSE))
            .unwrap()
            .tooth_plus_minus
            .is_none()
    );
}

#[test]
fn some_distances_settle_some_pins() {
    let of_the_bucket: Vec<_> = true_distances()
        .into_iter()
        .filter(|(from, to, _)| {
            let bucket = [Pin::BucketPin, Pin::LinkPin, Pin::Tooth, Pin::Heel];
            (bucket.contains(from) && bucket.contains(to))
                || *to == Pin::LinkagePin
                || *from == Pin::LinkagePin
        })
        .collect();
    let arm = with(&of_the_bucket);
    let known = |id: PinName| arm.pins.iter().find(|pin| pin.id == id).unwrap().known;
    assert_eq!(known(PinName::LinkPin), KnownBy::Measured);
    assert_eq!(known(PinName::LeverPin), KnownBy::Guess);
    assert!(arm.guesses.shape);
    let survey = arm.survey.unwrap();
    assert!(survey.open.contains(&PinName::LeverPin) && !survey.open.contains(&PinName::Tooth));
}

#[test]
fn a_slip_of_the_tape_is_named_with_its_line() {
    let mut distances = true_distances();
    let slipped = distances
        .iter()
        .position(|one| (one.0, one.1) == (Pin::DipperPin, Pin::LeverPin))
        .unwrap();
    distances[slipped].2 += 0.05;
    let whole = guessed() + &taped(&distances);
    let arm = arm_of(&book_of(&whole));
    let line = |line: u32| whole.lines().nth(line as usize).unwrap();
    let named = arm
        .survey
        .unwrap()
        .findings
        .into_iter()
        .find_map(|finding| match finding {
            SurveyFinding::Misfit { one, error, .. } => Some((one, error)),
            _ => None,
        });
    let (one, error) = named.unwrap();
    assert_eq!(one.what, MeasuredWhat::Distance("dipper-pin", "lever-pin"));
    assert!((error - 0.05).abs() < 0.01, "{error}");
    assert_eq!(line(one.line), "from = \"dipper-pin\"");
}

#[test]
fn a_guessed_length_gives_way_to_a_measured_one() {
    let guess = "\n\n[[distance]]\nfrom = \"lever-pin\"\nto = \"linkage-pin\"\nis = \"0.5 m\"\nknown = \"guess\"";
    let whole = guessed() + guess + &taped(&true_distances());
    let arm = arm_of(&book_of(&whole));
    let lever = arm.shape.unwrap().linkage.lever();
    assert!((lever - 0.35).abs() < 1e-7, "{lever}");
}

#[test]
fn rams_that_nobody_weighed_are_worked_out_and_said_to_be() {
    let whole = text("reference-machine-book.toml");
    let bare: Vec<&str> = whole
        .lines()
        .filter(|line| {
            !["barrel-mass", "barrel-centre", "rod-mass", "rod-centre"]
                .iter()
                .any(|key| line.starts_with(key))
        })
        .collect();
    let arm = arm_of(&book_of(&bare.join("\n")));
    assert!(!arm.guesses.any() && arm.estimated.len() == 12 && arm.missing.is_empty());
    let curl = |arm: &ArmOfBook| {
        let record = pose(arm, &PoseAsked::at(POSE)).unwrap();
        let usable = record.forces[0].as_ref().unwrap().usable.unwrap();
        (
            usable.0.newtons().unwrap(),
            record.hanging.unwrap()[0].thrust,
        )
    };
    let (about, exact) = (curl(&arm), curl(&reference()));
    assert!(
        (about.0 / exact.0 - 1.0).abs() < 0.02,
        "{about:?} {exact:?}"
    );
    assert!(
        (about.1 / exact.1 - 1.0).abs() < 0.02,
        "{about:?} {exact:?}"
    );
}
