//! The two propagators against published worked examples.

use reckon::{Spread, choose_lowest, covariance_of, normal_cumulative, propagate, sample};

/// JCGM 100:2008, H.2: resistance and reactance from voltage, current and phase measured together.
///
/// Inputs and results read in the documentation of a metrology institute's software (MSLNZ, GUM H2); the printed
/// results are those of table H.4: R 127.732(70), X 219.85(30), Z 254.26(24), correlations -0.59, -0.49, +0.99.
#[test]
fn resistance_and_reactance() {
    let correlations = [(0, 1, -0.36), (0, 2, 0.86), (1, 2, -0.65)];
    let covariance = covariance_of(&[3.2e-3, 9.5e-6, 7.5e-4], &correlations).unwrap();
    let result = propagate(&[4.999, 19.661e-3, 1.044_46], &covariance, |x| {
        let impedance = x[0] / x[1];
        Ok(vec![
            impedance * libm::cos(x[2]),
            impedance * libm::sin(x[2]),
            impedance,
        ])
    })
    .unwrap();
    for (index, (value, uncertainty, last_digit)) in [
        (127.732, 0.070, 0.001),
        (219.85, 0.30, 0.01),
        (254.26, 0.24, 0.01),
    ]
    .into_iter()
    .enumerate()
    {
        assert!(
            (result.values[index] - value).abs() <= last_digit / 2.0,
            "{index}: {}",
            result.values[index]
        );
        let u = result.standard_uncertainty(index).unwrap();
        assert!((u - uncertainty).abs() <= last_digit / 2.0, "{index}: {u}");
    }
    for (one, other, together) in [(0, 1, -0.59), (0, 2, -0.49), (1, 2, 0.99)] {
        let got = result.correlation(one, other).unwrap();
        assert!((got - together).abs() <= 0.005, "{one} {other}: {got}");
    }
}

/// JCGM 100:2008, H.1: an end gauge compared with a standard, u = 32 nm. Inputs and result from memory.
#[test]
fn end_gauge() {
    // Length of the standard, difference, difference of expansion, deviation from 20 °C, expansion, difference of
    // temperature; nm and °C.
    let estimates = [50_000_623.0, 215.0, 0.0, -0.1, 11.5e-6, 0.0];
    let covariance = covariance_of(&[25.0, 9.7, 0.58e-6, 0.41, 1.2e-6, 0.029], &[]).unwrap();
    let result = propagate(&estimates, &covariance, |x| {
        Ok(vec![x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5])])
    })
    .unwrap();
    assert_eq!(result.values[0], 50_000_838.0);
    let u = result.standard_uncertainty(0).unwrap();
    assert!((u - 32.0).abs() <= 0.5, "{u}");
}

/// JCGM 101:2008, 9.2: the sum of four inputs of standard uncertainty 1. Printed intervals from memory: normal
/// inputs ±3.92 (table 2), even inputs ±3.88 (table 3).
#[test]
fn sum_of_four() {
    let even = Spread::Even {
        half_width: 3.0_f64.sqrt(),
    };
    for (spread, end) in [(Spread::Normal { u: 1.0 }, 3.92), (even, 3.88)] {
        let result = sample(&[(0.0, spread); 4], 400_000, 7, |x| Some(x.iter().sum())).unwrap();
        // Four times the deviation that 400 000 draws leave at an end of the interval, and the rounding.
        let slack = 0.04 + 0.005;
        assert!(
            (result.high - end).abs() < slack && (result.low + end).abs() < slack,
            "{result:?}"
        );
        assert!(
            (result.standard_uncertainty - 2.0).abs() < 0.01 && result.mean.abs() < 0.0127,
            "{result:?}"
        );
    }
}

/// Clark 1961, Operations Research 9, 145, eq. 2 and 4, from memory: the mean of the lower of two normal values that
/// move together, and how often the first is the lower one.
#[test]
fn the_lower_of_two() {
    let (means, u, together) = ([180.0, 184.0], [4.0, 3.0], 0.4);
    let covariance = covariance_of(&u, &[(0, 1, together)]).unwrap();
    let choice = choose_lowest(&means, &covariance, 400_000, 11, <[f64]>::to_vec).unwrap();
    let apart = (u[0] * u[0] + u[1] * u[1] - 2.0 * together * u[0] * u[1]).sqrt();
    let z = (means[1] - means[0]) / apart;
    let density = 0.398_942_280_401 * libm::exp(-z * z / 2.0);
    let mean = means[0] * normal_cumulative(z) + means[1] * normal_cumulative(-z) - apart * density;
    assert!(
        (choice.shares[0] - normal_cumulative(z)).abs() < 0.003,
        "{choice:?}"
    );
    assert!(
        (choice.lowest.mean - mean).abs() < 0.025,
        "{choice:?} {mean}"
    );
    assert_eq!(choice.governs, 0);
    assert!((choice.shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
}

#[test]
fn the_same_seed_gives_the_same_digits() {
    let drawn = |seed| {
        sample(&[(1.0, Spread::Normal { u: 1.0 })], 1000, seed, |x| {
            Some(x[0])
        })
        .unwrap()
    };
    assert_eq!(drawn(3), drawn(3));
    assert_ne!(drawn(3), drawn(4));
}

#[test]
fn what_does_not_apply_never_governs() {
    let none_but_second = |x: &[f64]| vec![f64::INFINITY, x[0], f64::NAN];
    let choice = choose_lowest(&[5.0], &[vec![1.0]], 1000, 1, none_but_second).unwrap();
    assert_eq!(
        (choice.governs, choice.shares.as_slice()),
        (1, [0.0, 1.0, 0.0].as_slice())
    );
}
