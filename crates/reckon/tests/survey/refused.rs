//! What cannot be: impossible triangles and heights, numbers that are none, distances over a joint.

use reckon::arm::shape::Joint;
use reckon::arm::survey::{Fault, Pin, Taped, Which, solve};

use crate::machine::reference;
use crate::measured::{TAPE, everything, reading};

#[test]
fn a_triangle_that_cannot_be_is_explained() {
    let shape = reference().shape;
    let mut survey = everything(&shape);
    let place = |from: Pin, to: Pin| {
        let found = survey
            .distances
            .iter()
            .position(|taped| (taped.from, taped.to) == (from, to));
        found.unwrap()
    };
    let (long, one, other) = (
        place(Pin::BoomFoot, Pin::DipperPin),
        place(Pin::BoomFoot, Pin::BoomRamRod),
        place(Pin::BoomRamRod, Pin::DipperPin),
    );
    let both = survey.distances[one].metres + survey.distances[other].metres;
    survey.distances[long].metres = both + 0.1;
    let solved = solve(&survey).unwrap();
    let found = solved.impossible.iter().find(|triangle| {
        triangle.long == [long]
            && triangle
                .short
                .iter()
                .flatten()
                .all(|at| [one, other].contains(at))
    });
    let found = found.unwrap_or_else(|| panic!("{:?}", solved.impossible));
    assert!((found.excess - 0.1).abs() < 1e-12);
    assert!((found.sd - TAPE * 3.0_f64.sqrt()).abs() < 1e-12);
    assert!(solve(&everything(&shape)).unwrap().impossible.is_empty());
}

#[test]
fn a_height_that_cannot_be_is_explained() {
    // The barrel pin stands 0.38 m over the foot pin, 0.42 m from it: written half a metre too high.
    let shape = reference().shape;
    let mut survey = everything(&shape);
    let place = |from: Pin, to: Pin| {
        let mut all = survey.distances.iter();
        all.position(|taped| (taped.from, taped.to) == (from, to))
            .unwrap()
    };
    let high = place(Pin::BoomRamBarrel, Pin::Ground);
    let apart = survey.distances[place(Pin::BoomFoot, Pin::BoomRamBarrel)].metres;
    survey.distances[high].metres += 0.5;
    let solved = solve(&survey).unwrap();
    let [triangle] = &solved.impossible[..] else {
        panic!("{:?}", solved.impossible)
    };
    assert_eq!(
        triangle.pins,
        [Pin::Ground, Pin::BoomRamBarrel, Pin::BoomFoot]
    );
    assert_eq!(triangle.long, [high]);
    assert!((triangle.excess - (0.38 + 0.5 - apart)).abs() < 1e-12);
}

#[test]
fn what_cannot_be_used_is_said() {
    let shape = reference().shape;
    let mut survey = everything(&shape);
    let count = survey.distances.len();
    let mut bad = survey.distances[0];
    (bad.from, bad.to, bad.metres) = (Pin::BoomFoot, Pin::Tooth, 3.0);
    survey.distances.push(bad);
    survey.distances.push(Taped {
        metres: f64::NAN,
        ..survey.distances[3]
    });
    survey.distances.push(Taped {
        sd: 0.0,
        ..survey.distances[3]
    });
    survey.readings.push(reading(&shape, [0.5; 3], TAPE));
    survey.readings[0].rams[1] = 9.0;
    let solved = solve(&survey).unwrap();
    assert!(
        matches!(
            solved.faults[..],
            [
                Fault::NotRigid { distance: a },
                Fault::NotALength(Which::Distance(b)),
                Fault::NotAnUncertainty(Which::Distance(c)),
                Fault::NeverCloses { reading: 0, joint: Joint::Dipper },
            ] if (a, b, c) == (count, count + 1, count + 2)
        ),
        "{:?}",
        solved.faults
    );
    assert!(solved.complete());
    survey.nominal.lever = f64::INFINITY;
    assert_eq!(solve(&survey).unwrap_err(), Fault::NominalNotALength);
}
