//! Perfect measurements give the pins back, whatever the first guess.

use reckon::arm::shape::Turns;
use reckon::arm::survey::{Assembly, Body, Closing, Geometry, Pin, Solved, Survey, solve};

use crate::measured::{Chance, POSES, everything, machines, perfect, ram_ends, reading};

pub(crate) fn furthest(solved: &Solved, truth: &Geometry) -> f64 {
    let pairs = solved.geometry.to_list().into_iter().zip(truth.to_list());
    pairs.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

fn comes_back(name: &str, survey: &mut Survey, truth: &Geometry, seed: u64) {
    let mut chance = Chance::new(seed);
    survey.nominal = chance.guess(truth, 0.15, 0.03);
    let solved = solve(survey).unwrap();
    let off = furthest(&solved, truth);
    assert!(
        off < 1e-9,
        "{name}, guess {seed}: {off} m off, {:?}",
        solved.overall
    );
    assert!(
        solved.faults.is_empty() && solved.lacking.pins.is_empty(),
        "{name}"
    );
    assert!(
        solved.doubts.is_empty() && solved.impossible.is_empty(),
        "{name}"
    );
    assert_eq!(solved.closing, [Closing::Whole; 3], "{name}");
    assert!(solved.complete() && solved.overall.squares < 1e-12);
}

#[test]
fn every_distance_gives_the_pins_back() {
    for (name, shape) in machines() {
        let truth = Geometry::of(&shape);
        for seed in 0..20 {
            comes_back(name, &mut everything(&shape), &truth, seed);
        }
    }
}

/// Each link a chain of triangles, nothing more; every pin tied to two others.
const ENOUGH: [(Pin, Pin); 23] = [
    (Pin::BoomFoot, Pin::Ground),
    (Pin::BoomFoot, Pin::SwingAxis),
    (Pin::BoomRamBarrel, Pin::Ground),
    (Pin::BoomRamBarrel, Pin::SwingAxis),
    (Pin::BoomFoot, Pin::DipperPin),
    (Pin::BoomFoot, Pin::BoomRamRod),
    (Pin::DipperPin, Pin::BoomRamRod),
    (Pin::BoomFoot, Pin::DipperRamBarrel),
    (Pin::DipperPin, Pin::DipperRamBarrel),
    (Pin::DipperPin, Pin::BucketPin),
    (Pin::DipperPin, Pin::DipperRamRod),
    (Pin::BucketPin, Pin::DipperRamRod),
    (Pin::DipperPin, Pin::BucketRamBarrel),
    (Pin::BucketPin, Pin::BucketRamBarrel),
    (Pin::BucketRamBarrel, Pin::LeverPin),
    (Pin::BucketPin, Pin::LeverPin),
    (Pin::BucketPin, Pin::Tooth),
    (Pin::BucketPin, Pin::LinkPin),
    (Pin::Tooth, Pin::LinkPin),
    (Pin::BucketPin, Pin::Heel),
    (Pin::Tooth, Pin::Heel),
    (Pin::LeverPin, Pin::LinkagePin),
    (Pin::LinkagePin, Pin::LinkPin),
];

#[test]
fn just_enough_distances_give_the_pins_back() {
    for (name, shape) in machines() {
        let truth = Geometry::of(&shape);
        let mut survey = perfect(&shape, &ENOUGH);
        let solved = solve(&survey).unwrap();
        assert_eq!(solved.overall.redundancy, 0);
        assert!(
            solved
                .tested
                .iter()
                .all(|tested| tested.normalised.is_none())
        );
        // A pin may lie close to the line between the two it was taped to. Its two images are near to each other then, and
        // a poor guess may be nearer to the wrong one. That is said, and never silently wrong.
        let (mut right, mut said) = (0, 0);
        for seed in 0..50 {
            survey.nominal = Chance::new(seed).guess(&truth, 0.15, 0.03);
            let solved = solve(&survey).unwrap();
            let close = furthest(&solved, &truth) < 1e-9;
            right += usize::from(close);
            said += usize::from(!close && !solved.either_side.is_empty());
        }
        assert!(
            right + said == 50 && right > 30,
            "{name}: {right} right, {said} said"
        );
    }
}

#[test]
fn poses_take_the_place_of_distances() {
    // No height and no level distance of the post's pins is measured, and none of the tooth: five poses give them.
    for (name, shape) in machines() {
        let truth = Geometry::of(&shape);
        let pairs: Vec<(Pin, Pin)> = Body::ALL
            .into_iter()
            .flat_map(Body::pairs)
            .filter(|(from, to)| {
                let none = [Pin::Ground, Pin::SwingAxis];
                !none.contains(from) && !none.contains(to)
            })
            .filter(|pair| *pair != (Pin::BucketPin, Pin::Tooth))
            .collect();
        let mut survey = perfect(&shape, &pairs);
        assert!(!solve(&survey).unwrap().complete(), "{name}");
        survey.readings = POSES.map(|shares| reading(&shape, shares, 0.002)).to_vec();
        for seed in 0..4 {
            let mut chance = Chance::new(seed);
            survey.nominal = chance.guess(&truth, 0.05, 0.02);
            let solved = solve(&survey).unwrap();
            let off = furthest(&solved, &truth);
            assert!(
                off < 1e-8,
                "{name}, guess {seed}: {off} {:?}",
                solved.overall
            );
        }
    }
}

#[test]
fn what_is_seen_settles_the_assembly() {
    for (name, shape) in machines() {
        let bucket = shape
            .linkage
            .at_length(0.5 * (ram_ends(&shape)[2].closed + ram_ends(&shape)[2].open));
        let turns = |lever: f64| {
            if lever > 0.0 {
                Turns::CounterClockwise
            } else {
                Turns::Clockwise
            }
        };
        let seen = [
            shape.boom_triangle.turns(),
            shape.dipper_triangle.turns(),
            turns(bucket.unwrap().grip.lever),
        ];
        let truth = Geometry::of(&shape);
        for seed in 0..20 {
            let guess = Chance::new(seed).guess(&truth, 0.05, 0.01);
            let found = Assembly::seen(&guess, ram_ends(&shape)[2], seen);
            assert_eq!(found, Some(Assembly::of(&shape)), "{name}, guess {seed}");
        }
    }
}

#[test]
fn the_arm_is_the_arm_again() {
    for (name, shape) in machines() {
        let solved = solve(&everything(&shape)).unwrap();
        let again = solved.geometry.into_shape(solved.assembly, shape.clone());
        for (one, other) in again.to_numbers().into_iter().zip(shape.to_numbers()) {
            assert!((one - other).abs() < 1e-9, "{name}");
        }
        assert!(again.troubles().is_empty(), "{name}");
        // A ram with too long a stroke does not close; one of unknown length is not judged.
        let mut survey = everything(&shape);
        survey.rams[0].as_mut().unwrap().open += 5.0;
        survey.rams[1] = None;
        survey.rams[2].as_mut().unwrap().open += 5.0;
        let closing = solve(&survey).unwrap().closing;
        assert!(matches!(
            closing,
            [Closing::Part(_), Closing::NotKnown, Closing::Part(_)]
        ));
    }
}

#[test]
fn a_guess_of_another_size_or_another_machine_does() {
    let [(_, reference), (_, excavator), _] = &machines()[..] else {
        unreachable!()
    };
    for (shape, other) in [(reference, excavator), (excavator, reference)] {
        let truth = Geometry::of(shape);
        let sized = |size: f64| Geometry::from_list(&truth.to_list().map(|number| number * size));
        for guess in [sized(0.5), sized(2.0), Geometry::of(other)] {
            let mut survey = everything(shape);
            survey.nominal = guess;
            assert!(furthest(&solve(&survey).unwrap(), &truth) < 1e-9);
        }
    }
}
