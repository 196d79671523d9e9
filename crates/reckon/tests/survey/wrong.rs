//! Wrong distances: named where the others can tell, all suspects where they cannot, triangles that cannot be.

use reckon::arm::shape::{ArmShape, Vector};
use reckon::arm::survey::{Body, Doubt, Further, Geometry, Part, Pin, Survey, Taped, Which, solve};

use crate::machine::{mini_excavator, reference};
use crate::measured::{Chance, POSES, TAPE, everything, perfect, reading, reads};

/// Every distance and three poses.
fn well_checked(shape: &ArmShape) -> Survey {
    let mut survey = everything(shape);
    survey.readings = POSES[..3]
        .iter()
        .map(|shares| reading(shape, *shares, TAPE))
        .collect();
    survey
}

/// The distances an error of which the others can name: redundancy at least 0.3, no other test like theirs.
fn fair(survey: &Survey) -> Vec<usize> {
    let clean = solve(survey).unwrap();
    let tested = &clean.tested;
    let alone = |at: usize| {
        (0..tested.len()).all(|other| other == at || clean.tests_together(at, other).abs() <= 0.9)
    };
    let all = (0..tested.len()).filter(|at| tested[*at].redundancy >= 0.3 && alone(*at));
    let distances = all.filter_map(|at| match tested[at].which {
        Which::Distance(place) => Some(place),
        Which::Reading(..) => None,
    });
    distances.collect()
}

/// The one whose error shows most.
fn best_checked(survey: &Survey) -> usize {
    let clean = solve(survey).unwrap();
    let distances = clean.tested.iter().filter_map(|tested| match tested.which {
        Which::Distance(place) => Some((place, tested.redundancy)),
        Which::Reading(..) => None,
    });
    distances.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap().0
}

#[test]
fn one_wrong_distance_is_named() {
    for shape in [reference().shape, mini_excavator().shape] {
        let checked = well_checked(&shape);
        let fair = fair(&checked);
        assert!(fair.len() >= 3, "{fair:?}");
        let (mut named, trials) = (0, 150);
        for seed in 0..trials {
            let mut chance = Chance::new(seed);
            let mut survey = checked.clone();
            chance.disturb(&mut survey);
            let at = fair[seed as usize % fair.len()];
            survey.distances[at].metres += if chance.even() < 0.5 { 0.02 } else { -0.02 };
            let solved = solve(&survey).unwrap();
            let first = solved.doubts.first().map(Doubt::about);
            named += u64::from(first == Some(&[Which::Distance(at)][..]));
            assert!(solved.overall.chance < 0.001 && solved.overall.widened > 1.0);
        }
        assert!(named * 100 >= 95 * trials, "{named} of {trials}");
    }
}

#[test]
fn what_it_should_read_is_said() {
    let mut survey = well_checked(&reference().shape);
    let clean = solve(&survey).unwrap();
    let count = clean.tested.len();
    // The places of distances are those of their tests.
    let likeness = |at: usize| {
        let others = (0..count).filter(|other| *other != at);
        others
            .map(|other| clean.tests_together(at, other).abs())
            .fold(0.0, f64::max)
    };
    let fair = fair(&survey).into_iter();
    let at = fair
        .min_by(|a, b| likeness(*a).total_cmp(&likeness(*b)))
        .unwrap();
    let right = survey.distances[at].metres;
    survey.distances[at].metres += 0.02;
    let solved = solve(&survey).unwrap();
    let Some(Doubt::Misfit {
        which,
        error,
        should_be,
        should_be_sd,
        likelihood,
        ..
    }) = solved.doubts.first()
    else {
        panic!("{:?}", solved.doubts)
    };
    assert_eq!(*which, Which::Distance(at));
    assert!((error - 0.02).abs() < 1e-3 && (should_be - right).abs() < 1e-3);
    assert!(*should_be_sd > 0.0 && *should_be_sd < 0.01 && *likelihood > 0.9);
    assert_eq!(
        solved.doubts.len(),
        1,
        "without it all fits: {:?}",
        solved.doubts
    );
}

#[test]
fn a_smaller_error_is_named_with_less_certainty() {
    let mut survey = well_checked(&reference().shape);
    let at = best_checked(&survey);
    survey.distances[at].metres += 0.008;
    let solved = solve(&survey).unwrap();
    let Some(Doubt::Misfit { likelihood, .. }) = solved.doubts.first() else {
        panic!("{:?}", solved.doubts)
    };
    // Each as likely as the fall in the sum of squares that it brings.
    let sizes = solved.tested.iter().filter_map(|tested| tested.normalised);
    let squares: Vec<f64> = sizes.map(|size| size * size).collect();
    let most = squares.iter().copied().fold(0.0, f64::max);
    let shares = squares
        .iter()
        .map(|square| libm::exp(0.5 * (square - most)));
    let all: f64 = shares.sum();
    assert!((likelihood * all - 1.0).abs() < 1e-9, "{likelihood} {all}");
    assert!((0.2..0.999).contains(likelihood), "{likelihood}");
}

#[test]
fn two_wrong_measurements_are_found_one_after_the_other() {
    let mut survey = well_checked(&reference().shape);
    let at = fair(&survey)[0];
    survey.distances[at].metres -= 0.03;
    survey.readings[1].tooth_height = survey.readings[1].tooth_height.map(|height| height + 0.4);
    let solved = solve(&survey).unwrap();
    let found: Vec<&[Which]> = solved.doubts.iter().map(Doubt::about).collect();
    assert_eq!(found.len(), 2, "{:?}", solved.doubts);
    assert!(
        found.contains(&&[Which::Distance(at)][..]),
        "{:?}",
        solved.doubts
    );
    // A wrong height and a wrong boom ram do the same to the tooth: either is a suspect, the height the first.
    let height = Which::Reading(1, Part::ToothHeight);
    assert!(
        found.iter().any(|which| which.first() == Some(&height)),
        "{:?}",
        solved.doubts
    );
}

/// A survey of these distances of the reference machine, the best checked of them 50 mm too long.
fn one_too_long(pairs: &[(Pin, Pin)]) -> Survey {
    let mut survey = perfect(&reference().shape, pairs);
    let wrong = best_checked(&survey);
    survey.distances[wrong].metres += 0.05;
    survey
}

/// The first suspects and what would tell them apart, where none of them is named.
fn suspects(survey: &Survey) -> (Vec<Which>, Option<Further>) {
    match &solve(survey).unwrap().doubts[..] {
        [Doubt::Suspects { which, further, .. }, ..] => (which.clone(), *further),
        other => panic!("{other:?}"),
    }
}

/// The further distance, taken right.
fn take(survey: &mut Survey, further: Further) {
    let (from, to) = match further {
        Further::Distance { from, to } => (from, to),
        Further::Again(Which::Distance(at)) => (survey.distances[at].from, survey.distances[at].to),
        other => panic!("{other:?}"),
    };
    survey.distances.push(Taped {
        from,
        to,
        metres: reads(&Geometry::of(&reference().shape), from, to),
        sd: TAPE,
    });
}

#[test]
fn four_pins_and_six_distances_cannot_tell() {
    // One condition: every normalised residual is the same size, whichever is wrong.
    let mut survey = one_too_long(&Body::Boom.pairs());
    let solved = solve(&survey).unwrap();
    assert_eq!(solved.overall.redundancy, 1);
    let sizes = solved
        .tested
        .iter()
        .map(|tested| tested.normalised.unwrap().abs());
    let sizes: Vec<f64> = sizes.collect();
    for size in &sizes {
        assert!((size / sizes[0] - 1.0).abs() < 1e-6, "{sizes:?}");
    }
    let (all, further) = suspects(&survey);
    assert_eq!(all.len(), 6);
    // All that can be taped on it has been: one of the six once more. It clears that one; the other five stay alike.
    let Some(Further::Again(again)) = further else {
        panic!("{further:?}")
    };
    assert!(all.contains(&again));
    take(&mut survey, Further::Again(again));
    let (left, _) = suspects(&survey);
    assert!(!left.contains(&again) && left.len() == 5, "{left:?}");
}

#[test]
fn the_separating_distance_separates() {
    // Four pins of the dipper, and the lever's pin tied to two of them alone: until it is tied to more, any may be it.
    let four = [
        Pin::DipperPin,
        Pin::DipperRamRod,
        Pin::BucketRamBarrel,
        Pin::BucketPin,
    ];
    let within = |(from, to): &(Pin, Pin)| four.contains(from) && four.contains(to);
    let mut pairs = Body::Dipper.pairs();
    pairs.retain(within);
    pairs.extend([
        (Pin::LeverPin, Pin::BucketPin),
        (Pin::DipperPin, Pin::LeverPin),
    ]);
    let mut survey = one_too_long(&pairs);
    let (all, further) = suspects(&survey);
    take(&mut survey, further.unwrap());
    let solved = solve(&survey).unwrap();
    let left = solved.doubts.first().map(|doubt| doubt.about().len());
    assert!(left.unwrap() < all.len(), "{all:?}, then {left:?}");
}

#[test]
fn a_square_is_controlled_as_statics_says() {
    // Redundancy numbers of a braced square: its one state of self-stress has forces 1 in the sides and -sqrt 2 in the
    // diagonals, and the condition between the lengths has the same coefficients. So 1/8 and 1/4 (plane statics; the
    // duality of self-stress and condition: Maxwell 1864, from memory).
    let shape = mini_excavator().shape;
    let mut survey = perfect(&shape, &Body::Bucket.pairs());
    for taped in &mut survey.distances {
        let diagonal = matches!(
            (taped.from, taped.to),
            (Pin::BucketPin, Pin::Heel) | (Pin::LinkPin, Pin::Tooth)
        );
        taped.metres = if diagonal { 0.5 * 2.0_f64.sqrt() } else { 0.5 };
    }
    // Pin, link pin, heel, tooth in turn are the corners.
    survey.nominal.tip_radius = 0.5;
    survey.nominal.link_pin = Vector::new(0.02, 0.48);
    survey.nominal.heel = Vector::new(0.51, 0.5);
    let solved = solve(&survey).unwrap();
    for tested in &solved.tested {
        let share = if tested.measured > 0.6 { 0.25 } else { 0.125 };
        assert!((tested.redundancy - share).abs() < 1e-9, "{tested:?}");
    }
}
