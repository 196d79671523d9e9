//! A thousand surveys with the tape's own errors: the stated interval covers the truth as often as it says.

use reckon::arm::pose::Placed;
use reckon::arm::survey::{Geometry, Solved, Survey, Z95, solve};

use crate::machine::{mini_excavator, reference};
use crate::measured::{Chance, POSES, everything, reading};

const TRIALS: u64 = 1000;

/// Share of the trials in which the interval of each number held the truth, and of the tooth's height and reach. Beside
/// that, errors of the tape alone look as unlikely as 5 % in 5 % of the trials, and seldom cast doubt on a distance.
fn covered(survey: &Survey, truth: &Geometry, tooth: ([f64; 3], [f64; 2])) -> (Vec<f64>, [f64; 2]) {
    let truth = truth.to_list();
    let mut held = vec![0.0; truth.len()];
    let mut tooth_held = [0.0; 2];
    let (mut unlikely, mut doubted) = (0, 0);
    for trial in 0..TRIALS {
        let mut survey = survey.clone();
        Chance::new(trial).disturb(&mut survey);
        let solved: Solved = solve(&survey).unwrap();
        unlikely += u32::from(solved.overall.chance < 0.05);
        doubted += u32::from(!solved.doubts.is_empty());
        assert!(solved.either_side.is_empty() && solved.complete());
        let found = solved.geometry.to_list();
        for (at, held) in held.iter_mut().enumerate() {
            let within = (found[at] - truth[at]).abs() <= Z95 * solved.variance(at).sqrt();
            *held += f64::from(u8::from(within)) / TRIALS as f64;
        }
        let spread = solved.tooth_at(tooth.0, 0.0).unwrap();
        for (at, held) in tooth_held.iter_mut().enumerate() {
            let within = (spread.values[at] - tooth.1[at]).abs() <= spread.half_width(at).unwrap();
            *held += f64::from(u8::from(within)) / TRIALS as f64;
        }
    }
    // Four standard deviations of a share of a thousand; each of some forty tests goes off once in a thousand.
    assert!((22..=78).contains(&unlikely), "{unlikely}");
    assert!(doubted < 70, "{doubted}");
    (held, tooth_held)
}

fn check(held: &[f64], whose: &str) {
    let mean = held.iter().sum::<f64>() / held.len() as f64;
    assert!((0.932..=0.968).contains(&mean), "{whose}: {mean} {held:?}");
    // Of so many intervals one may miss by chance; a wrong formula is off by far more (four standard deviations).
    for share in held {
        assert!((0.922..=0.978).contains(share), "{whose}: {held:?}");
    }
}

#[test]
fn by_tape_alone() {
    let shape = mini_excavator().shape;
    let lengths = [1.1, 1.3, 1.05];
    let tooth = Placed::at_lengths(&shape, lengths).unwrap().tooth;
    let truth = Geometry::of(&shape);
    let (held, tooth_held) = covered(&everything(&shape), &truth, (lengths, [tooth.r, tooth.z]));
    check(&held, "mini excavator");
    check(&tooth_held, "its tooth");
}

#[test]
fn with_poses() {
    let shape = reference().shape;
    let mut survey = everything(&shape);
    survey.readings = POSES[..3]
        .iter()
        .map(|shares| reading(&shape, *shares, 0.0015))
        .collect();
    let lengths = [1.29, 1.3125, 1.1225];
    let tooth = Placed::at_lengths(&shape, lengths).unwrap().tooth;
    let truth = Geometry::of(&shape);
    let (held, tooth_held) = covered(&survey, &truth, (lengths, [tooth.r, tooth.z]));
    check(&held, "reference machine");
    check(&tooth_held, "its tooth");
}
