//! Weighted least squares: Gauss and Newton's step, damped after Levenberg and Marquardt.

use super::rows::{Row, normal, squares};

/// Where the descent ended.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Descent {
    pub(super) unknowns: Vec<f64>,
    pub(super) rows: Vec<Row>,
    /// The sum of the squared residuals.
    pub(super) squares: f64,
    /// False where it ran out of steps.
    pub(super) settled: bool,
}

const MOST_STEPS: usize = 200;

/// Steps shorter than this change nothing that a tape could see, in metres.
const SHORTEST: f64 = 1e-13;

/// A step this short that leads no further down is rounding, in metres.
const SHORT: f64 = 1e-10;

/// Below this the damping is of no account; above, no step is worth taking.
const DAMPING: (f64, f64) = (1e-12, 1e9);

/// Goes down from here to the least sum of squares.
///
/// `rows`: the measurements at any unknowns, none where they make no sense; such a step is never taken. What no
/// measurement sees stays as it was. None where the start itself makes no sense.
///
/// Source: Marquardt, J. SIAM 11, 431 (1963): damping on the scaled diagonal, smaller after each success.
pub(super) fn descend(
    start: Vec<f64>,
    rows: impl Fn(&[f64]) -> Option<Vec<Row>>,
) -> Option<Descent> {
    let first = rows(&start)?;
    let mut at = Descent {
        squares: squares(&first),
        unknowns: start,
        rows: first,
        settled: false,
    };
    let mut damping = 1e-3;
    for _ in 0..MOST_STEPS {
        if at.settled {
            break;
        }
        damping = at.step(damping, &rows)?;
    }
    Some(at)
}

impl Descent {
    /// Takes the next step down, with more damping until one leads down; says with how much to go on.
    fn step(
        &mut self,
        mut damping: f64,
        rows: &impl Fn(&[f64]) -> Option<Vec<Row>>,
    ) -> Option<f64> {
        let (matrix, right) = normal(&self.rows, self.unknowns.len());
        loop {
            let step = matrix.damped_solution(&right, damping)?;
            let longest = step.iter().fold(0.0_f64, |most, part| most.max(part.abs()));
            let moved: Vec<f64> = self
                .unknowns
                .iter()
                .zip(&step)
                .map(|(x, d)| x + d)
                .collect();
            let there = rows(&moved).map(|rows| (squares(&rows), rows));
            match there {
                Some((lower, rows)) if lower < self.squares => {
                    let gained = self.squares - lower;
                    (self.unknowns, self.rows, self.squares) = (moved, rows, lower);
                    let nothing_left = gained < 1e-13 * (lower + 1e-6) && longest < SHORT;
                    self.settled = longest < SHORTEST || nothing_left;
                    return Some((damping * 0.1).max(DAMPING.0));
                }
                _ if longest < SHORT || damping > DAMPING.1 => {
                    self.settled = true;
                    return Some(damping);
                }
                _ => damping *= 10.0,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::matrix::ranked;
    use super::*;

    // NIST Statistical Reference Datasets, nonlinear regression, Misra1a: y = b1 (1 - exp(-b2 x)), data, certified
    // values and standard deviations read in public copies.
    const X: [f64; 14] = [
        77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1,
        760.0,
    ];
    const Y: [f64; 14] = [
        10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47,
        81.78,
    ];

    fn misra(b: &[f64]) -> Option<Vec<Row>> {
        let row = |(x, y): (&f64, &f64)| {
            let fallen = libm::exp(-b[1] * x);
            Row {
                residual: y - b[0] * (1.0 - fallen),
                by: vec![(0, 1.0 - fallen), (1, b[0] * x * fallen)],
            }
        };
        Some(X.iter().zip(&Y).map(row).collect())
    }

    #[test]
    fn certified_values_from_both_starts() {
        for start in [vec![500.0, 0.0001], vec![250.0, 0.0005]] {
            let found = descend(start, misra).unwrap();
            let near = |value: f64, certified: f64| (value / certified - 1.0).abs() < 1e-8;
            assert!(near(found.unknowns[0], 2.389_421_291_8e2), "{found:?}");
            assert!(near(found.unknowns[1], 5.501_564_318_1e-4));
            assert!(near(found.squares, 1.245_513_889_4e-1));
            let inverse = ranked(&normal(&found.rows, 2).0, 1e6).inverse;
            let spread = (found.squares / 12.0).sqrt();
            assert!(near(spread * inverse.get(0, 0).sqrt(), 2.707_007_524_1));
            assert!(near(spread * inverse.get(1, 1).sqrt(), 7.266_868_843_6e-6));
        }
    }

    #[test]
    fn a_start_without_sense_gives_nothing() {
        assert_eq!(descend(vec![1.0], |_| None), None);
    }
}
