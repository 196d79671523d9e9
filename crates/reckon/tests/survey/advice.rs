//! What is missing and what to measure next.

use reckon::arm::shape::Vector;
use reckon::arm::survey::{
    Assembly, Further, Geometry, NotSaid, Pin, Survey, Taped, Which, all_distances, solve,
};

use crate::machine::reference;
use crate::measured::{Chance, POSES, TAPE, everything, perfect, reading, reads};

fn without(pairs: &[(Pin, Pin)]) -> Survey {
    let all: Vec<(Pin, Pin)> = all_distances();
    let left: Vec<(Pin, Pin)> = all
        .into_iter()
        .filter(|pair| !pairs.contains(pair))
        .collect();
    perfect(&reference().shape, &left)
}

fn take(survey: &mut Survey, further: Further) {
    let truth = Geometry::of(&reference().shape);
    match further {
        Further::Distance { from, to } => {
            let metres = reads(&truth, from, to);
            let mut more = survey.distances[0];
            (more.from, more.to, more.metres) = (from, to, metres);
            survey.distances.push(more);
        }
        Further::Again(Which::Distance(at)) => survey.distances.push(survey.distances[at]),
        Further::Again(Which::Reading(at, _)) => survey.readings.push(survey.readings[at]),
        Further::Pose { rams } => {
            let shape = reference().shape;
            let share = |at: usize| (rams[at] - shape.rams[at].closed) / shape.rams[at].stroke;
            survey
                .readings
                .push(reading(&shape, [share(0), share(1), share(2)], TAPE));
        }
    }
}

#[test]
fn a_pin_left_open_is_named_and_unlocked() {
    // The lever's pin tied to one other pin only: it may lie anywhere on a circle.
    let survey = without(&[
        (Pin::DipperPin, Pin::LeverPin),
        (Pin::DipperRamRod, Pin::LeverPin),
        (Pin::BucketRamBarrel, Pin::LeverPin),
    ]);
    let solved = solve(&survey).unwrap();
    assert_eq!(solved.lacking.pins, [Pin::LeverPin]);
    assert!(!solved.complete() && solved.advice(&survey).is_empty());
    assert!(!solved.pin(Pin::LeverPin).unwrap().determined);
    assert!(solved.pin(Pin::BucketPin).unwrap().determined);
    let refused = solved.tooth_at([1.29, 1.3, 1.1], 0.0).unwrap_err();
    assert_eq!(
        refused,
        NotSaid::NotDetermined {
            pins: vec![Pin::LeverPin]
        }
    );
    // What does not depend on it can be said all the same.
    let boom = solved
        .spread_of(|pins| Some(vec![pins.boom_length]))
        .unwrap();
    assert!(boom.sd(0).unwrap() < TAPE);
    let [further] = solved.lacking.unlock[..] else {
        panic!("{:?}", solved.lacking)
    };
    let mut more = survey.clone();
    take(&mut more, further);
    assert!(solve(&more).unwrap().complete());
}

#[test]
fn with_nothing_measured_everything_is_missing_and_the_list_settles_it() {
    let mut survey = without(&all_distances());
    let truth = survey.nominal;
    survey.distances.clear();
    let solved = solve(&survey).unwrap();
    // All twelve pins and the one that lever and link share.
    assert_eq!(solved.lacking.pins.len(), 13);
    assert_eq!(solved.lacking.unlock.len(), 23);
    for further in solved.lacking.unlock {
        let Further::Distance { from, to } = further else {
            panic!("{further:?}")
        };
        survey.distances.push(Taped {
            from,
            to,
            metres: reads(&truth, from, to),
            sd: TAPE,
        });
    }
    let solved = solve(&survey).unwrap();
    assert!(solved.lacking.pins.is_empty(), "{:?}", solved.lacking);
}

#[test]
fn a_missing_tooth_is_found_by_poses() {
    let mut survey = without(&[
        (Pin::BucketPin, Pin::Tooth),
        (Pin::LinkPin, Pin::Tooth),
        (Pin::Tooth, Pin::Heel),
    ]);
    let solved = solve(&survey).unwrap();
    assert!(solved.lacking.pins.contains(&Pin::Tooth));
    let shape = reference().shape;
    survey.readings = POSES.map(|shares| reading(&shape, shares, TAPE)).to_vec();
    assert!(solve(&survey).unwrap().complete());
}

#[test]
fn advice_keeps_its_word() {
    let mut survey = everything(&reference().shape);
    survey
        .distances
        .retain(|taped| (taped.from, taped.to) != (Pin::DipperRamRod, Pin::BucketPin));
    let solved = solve(&survey).unwrap();
    let advised = solved.advice(&survey);
    assert_eq!(advised.len(), 2);
    // Tape errors of a millimetre and a half leave the tooth tens of millimetres off.
    assert!((0.01..0.06).contains(&advised[0].tooth_sd), "{:?}", advised);
    for advice in &advised {
        assert!(advice.tooth_sd_then < advice.tooth_sd);
        let mut more = survey.clone();
        take(&mut more, advice.further);
        let then = solve(&more).unwrap().advice(&more)[0].tooth_sd;
        assert!(
            (then / advice.tooth_sd_then - 1.0).abs() < 0.02,
            "{advice:?} {then}"
        );
    }
    // A pose does more than any distance.
    assert!(
        matches!(advised[0].further, Further::Pose { .. }),
        "{:?}",
        advised
    );
}

#[test]
fn the_numbers_of_the_whole_arm_move_as_the_pins_do() {
    let shape = reference().shape;
    let solved = solve(&everything(&shape)).unwrap();
    let (places, covariance) = solved.uncertain_numbers();
    let numbers = shape.to_numbers();
    let arm = |pins: &Geometry| {
        let arm = pins.into_shape(solved.assembly, shape.clone()).to_numbers();
        Some(places.iter().map(|at| arm[*at]).collect())
    };
    let spread = solved.spread_of(arm).unwrap();
    for (at, place) in places.iter().enumerate() {
        assert!((spread.values[at] - numbers[*place]).abs() < 1e-9);
        for other in 0..places.len() {
            assert!(
                (spread.covariance[at][other] - covariance[at][other]).abs() < 1e-12,
                "{at} {other}"
            );
        }
    }
}

#[test]
fn a_pin_by_the_axis_may_lie_on_either_side() {
    // The lever's pin 30 mm over the dipper's axis, measured from both ends of the axis alone, the guess on the axis.
    let mut survey = without(&[
        (Pin::DipperRamRod, Pin::LeverPin),
        (Pin::BucketRamBarrel, Pin::LeverPin),
    ]);
    survey.nominal.lever_pin.z = 0.004;
    Chance::new(3).disturb(&mut survey);
    let solved = solve(&survey).unwrap();
    let [side] = &solved.either_side[..] else {
        panic!("{:?}", solved.either_side)
    };
    assert_eq!(side.pins, [Pin::LeverPin]);
    let Some(Further::Distance { from, to }) = side.further else {
        panic!("{side:?}")
    };
    assert!([from, to].contains(&Pin::LeverPin));
    take(&mut survey, side.further.unwrap());
    let solved = solve(&survey).unwrap();
    assert!(solved.either_side.is_empty());
    assert!((solved.geometry.lever_pin.z - 0.03).abs() < 0.01);
}

#[test]
fn a_pin_held_by_two_distances_may_lie_over_their_line() {
    // The boom ram's rod pin over the line from foot pin to dipper ram barrel, the two it was taped to; the guess a
    // little under it. Neither the guess nor its image over the boom's axis leads there.
    let mut shape = reference().shape;
    let mut truth = Geometry::of(&shape);
    truth.boom_rod = Vector::new(1.13, 0.42);
    shape = truth.into_shape(Assembly::of(&shape), shape);
    let all = all_distances().into_iter();
    let left: Vec<(Pin, Pin)> = all
        .filter(|pair| *pair != (Pin::BoomRamRod, Pin::DipperPin))
        .collect();
    let mut survey = perfect(&shape, &left);
    survey.nominal.boom_rod = Vector::new(1.15, 0.335);
    let solved = solve(&survey).unwrap();
    let [side] = &solved.either_side[..] else {
        panic!("{:?}", solved.either_side)
    };
    assert_eq!(side.pins, [Pin::BoomRamRod]);
    assert_eq!(
        side.further,
        Some(Further::Distance {
            from: Pin::BoomRamRod,
            to: Pin::DipperPin
        })
    );
}
