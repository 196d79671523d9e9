//! Uncertain measurements: how far the figures spread, and which limit governs how likely.

use reckon::arm::force::{Governs, standard_curl};
use reckon::arm::shape::{ArmShape, Joint, Vector};
use reckon::arm::strength::{Direction, likely};
use reckon::{Spread, sample};

use crate::machine::reference;
use crate::table::close;

/// Places of the linkage among an arm's numbers.
const DIPPER_LENGTH: usize = 4;
const TIP_RADIUS: usize = 5;
const LINKAGE: usize = 34;

/// The arm with these of its numbers replaced.
fn moved(shape: &ArmShape, places: &[usize], values: &[f64]) -> ArmShape {
    let mut numbers = shape.to_numbers();
    for (place, value) in places.iter().zip(values) {
        numbers[*place] = *value;
    }
    ArmShape::from_numbers("shape", &numbers).unwrap()
}

#[test]
fn the_curl_force_is_forgiving() {
    // The report on the reference machine, 2000 draws, every pin and length with the same sigma, lever, link and crank
    // with half of it: the curl force spreads by 0.7 % at 2 mm and by 1.7 % at 5 mm (printed to two digits).
    let shape = reference().shape;
    let numbers = shape.to_numbers();
    let crank = Vector::new(numbers[LINKAGE + 8], numbers[LINKAGE + 9]);
    assert_eq!(crank, shape.linkage.link_on_bucket());
    for (sigma, spread) in [(0.002, 0.7), (0.005, 1.7)] {
        let mut places = vec![TIP_RADIUS, DIPPER_LENGTH];
        places.extend(LINKAGE..LINKAGE + 4);
        let mut inputs: Vec<(f64, Spread)> = places
            .iter()
            .map(|place| (numbers[*place], Spread::Normal { u: sigma }))
            .collect();
        let half = Spread::Normal { u: sigma / 2.0 };
        inputs.extend([
            (shape.linkage.lever(), half),
            (shape.linkage.link(), half),
            (crank.length(), half),
        ]);
        let curl = |drawn: &[f64]| {
            let mut arm = places.clone();
            let mut values = drawn[..6].to_vec();
            let grown = crank * (drawn[8] / crank.length());
            // The bucket's pin lies at the dipper's length.
            arm.extend([
                LINKAGE + 4,
                LINKAGE + 6,
                LINKAGE + 7,
                LINKAGE + 8,
                LINKAGE + 9,
            ]);
            values.extend([drawn[1], drawn[6], drawn[7], grown.r, grown.z]);
            let arm = moved(&shape, &arm, &values);
            Some(standard_curl(&arm, drawn[0]).ok()?.force)
        };
        let found = sample(&inputs, 1000, 5, curl).unwrap();
        let share = 100.0 * found.standard_uncertainty / found.mean;
        // 1000 draws know a standard deviation to 2.2 %; the print to 0.05.
        close(
            share,
            spread,
            0.05,
            0.1,
            "spread of the curl force, percent",
        );
    }
}

#[test]
fn of_two_close_limits_either_may_govern() {
    let machine = reference();
    let stance = machine.stance("bucket_and_stabilisers", 0.0);
    // Pose 0: sliding at 26 723 N, the bucket ram at 27 453 N. Sliding does not feel the pins; the ram's limit does.
    let lengths = [1.29, 1.2045, 0.965_54];
    let places: Vec<usize> = (LINKAGE..LINKAGE + 4).collect();
    let with = |sigma: f64| {
        let diagonal = |row: usize| {
            (0..4)
                .map(|at| if at == row { sigma * sigma } else { 0.0 })
                .collect()
        };
        let covariance: Vec<Vec<f64>> = (0..4).map(diagonal).collect();
        let input = (&places[..], &covariance[..]);
        likely(
            &machine.shape,
            input,
            lengths,
            Direction::Curl,
            Some(&stance),
            (400, 11),
        )
        .unwrap()
    };
    let sure = with(1e-6);
    assert_eq!(sure.limits[sure.choice.governs], Governs::Sliding);
    assert_eq!(sure.choice.shares[4], 1.0);
    close(
        sure.choice.lowest.mean,
        26_722.588_705_750_33,
        1e-6,
        0.0,
        "usable",
    );
    let unsure = with(0.01);
    assert_eq!(unsure.limits[2], Governs::Working(Joint::Bucket));
    assert!(
        unsure.choice.shares[2] > 0.05 && unsure.choice.shares[4] < 0.95,
        "{:?}",
        unsure.choice.shares
    );
    assert_eq!(unsure, with(0.01), "the same seed, the same digits");
}

#[test]
fn a_place_that_is_none_is_refused() {
    let machine = reference();
    let input = (&[999_usize][..], &[vec![1e-6]][..]);
    let lengths = [1.29, 1.2045, 0.965_54];
    let refused = likely(
        &machine.shape,
        input,
        lengths,
        Direction::Curl,
        None,
        (10, 1),
    )
    .unwrap_err();
    assert_eq!(refused.code(), "wrong-count");
}
