//! Propagation by seeded sampling, for what is a minimum or a choice.

use rand_chacha::ChaCha20Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

use crate::propagate::check_covariance;
use crate::refusal::Refusal;

/// No more draws than this: memory is not endless.
const MOST_DRAWS: usize = 1_000_000;

/// How one independent input is spread about its estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// Not at all.
    Exact,
    /// Normal, with this standard uncertainty.
    Normal {
        /// The standard uncertainty.
        u: f64,
    },
    /// Anywhere within this half width, all equally likely.
    Even {
        /// Half the width.
        half_width: f64,
    },
}

/// What sampling found about one result.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampled {
    /// The mean of the draws.
    pub mean: f64,
    /// Their standard deviation.
    pub standard_uncertainty: f64,
    /// The lower end of the 95 % interval, as many draws below as above the upper end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// Draws for which the model gave a finite result.
    pub used: usize,
}

/// Which of several governs, and the lowest value.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The index of the one that governs most often; the first of equals.
    pub governs: usize,
    /// For each, the share of draws in which it was the lowest: "the boom's relief, 80 %".
    pub shares: Vec<f64>,
    /// The lowest value over all draws.
    pub lowest: Sampled,
}

/// Samples a model of independent inputs.
///
/// - `inputs`: each with its estimate and its spread. `draws`: how many; `seed`: the same seed gives the same digits.
/// - `model`: one number for a set of inputs; a draw for which it gives none is left out and shows in `used`.
///
/// Formula: JCGM 101:2008, 5.9 and 7.7, from memory; generator ChaCha20, normal draws after Box and Muller 1958.
///
/// # Errors
/// "draws" for fewer than 2 or more than a million; "spread" for a spread that cannot be; "model" where fewer than
/// two draws gave a number.
pub fn sample(
    inputs: &[(f64, Spread)],
    draws: usize,
    seed: u64,
    model: impl Fn(&[f64]) -> Option<f64>,
) -> Result<Sampled, Refusal> {
    check_draws(draws)?;
    if inputs
        .iter()
        .any(|(estimate, spread)| !estimate.is_finite() || !spread.can_be())
    {
        return Err(Refusal::Contradiction { what: "spread" });
    }
    let mut chance = Chance::new(seed);
    let mut drawn = vec![0.0; inputs.len()];
    let mut results = Vec::with_capacity(draws);
    for _ in 0..draws {
        for (place, (estimate, spread)) in drawn.iter_mut().zip(inputs) {
            *place = estimate + spread.draw(&mut chance);
        }
        results.extend(model(&drawn).filter(|result| result.is_finite()));
    }
    summary(results)
}

/// Samples several candidates from inputs that move together, and tells which is the lowest how often.
///
/// - `estimates`, `covariance`: the inputs, jointly normal. `draws`, `seed`: as in [`sample`].
/// - `candidates`: for a set of inputs the value of each candidate, always in the same order; infinite for one that
///   does not apply. A draw in which none is finite is left out.
///
/// Formula: JCGM 101:2008, 6.4.8 (joint normal by the covariance's triangular root), from memory.
///
/// # Errors
/// As [`sample`]; "covariance" where it does not fit the estimates or belongs to no distribution.
pub fn choose_lowest(
    estimates: &[f64],
    covariance: &[Vec<f64>],
    draws: usize,
    seed: u64,
    candidates: impl Fn(&[f64]) -> Vec<f64>,
) -> Result<Choice, Refusal> {
    check_draws(draws)?;
    check_covariance(estimates.len(), covariance)?;
    let root = triangular_root(covariance)?;
    let mut chance = Chance::new(seed);
    let mut times: Vec<usize> = Vec::new();
    let mut lowest = Vec::with_capacity(draws);
    for _ in 0..draws {
        let independent: Vec<f64> = estimates.iter().map(|_| chance.normal()).collect();
        let moved = |row: &Vec<f64>| -> f64 {
            row.iter()
                .zip(&independent)
                .map(|(share, z)| share * z)
                .sum()
        };
        let drawn: Vec<f64> = estimates
            .iter()
            .zip(&root)
            .map(|(estimate, row)| estimate + moved(row))
            .collect();
        let values = candidates(&drawn);
        times.resize(values.len().max(times.len()), 0);
        let finite = values
            .iter()
            .enumerate()
            .filter(|(_, value)| value.is_finite());
        if let Some((index, value)) = finite.min_by(|a, b| a.1.total_cmp(b.1)) {
            times[index] += 1;
            lowest.push(*value);
        }
    }
    let lowest = summary(lowest)?;
    let shares: Vec<f64> = times
        .iter()
        .map(|&times| times as f64 / lowest.used as f64)
        .collect();
    let most = times.iter().copied().max().unwrap_or(0);
    let governs = times.iter().position(|&times| times == most).unwrap_or(0);
    Ok(Choice {
        governs,
        shares,
        lowest,
    })
}

impl Spread {
    fn can_be(self) -> bool {
        match self {
            Spread::Exact => true,
            Spread::Normal { u: width } | Spread::Even { half_width: width } => {
                width.is_finite() && width >= 0.0
            }
        }
    }

    fn draw(self, chance: &mut Chance) -> f64 {
        match self {
            Spread::Exact => 0.0,
            Spread::Normal { u } => u * chance.normal(),
            Spread::Even { half_width } => half_width * (2.0 * chance.even() - 1.0),
        }
    }
}

/// Chance that is the same every time.
struct Chance {
    generator: ChaCha20Rng,
    spare: Option<f64>,
}

impl Chance {
    fn new(seed: u64) -> Self {
        Chance {
            generator: ChaCha20Rng::seed_from_u64(seed),
            spare: None,
        }
    }

    /// Strictly between 0 and 1, in steps of 2^-53.
    fn even(&mut self) -> f64 {
        ((self.generator.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }

    /// Standard normal, two for each pair of even draws.
    fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        let far = (-2.0 * libm::log(self.even())).sqrt();
        let angle = core::f64::consts::TAU * self.even();
        self.spare = Some(far * libm::sin(angle));
        far * libm::cos(angle)
    }
}

fn check_draws(draws: usize) -> Result<(), Refusal> {
    if (2..=MOST_DRAWS).contains(&draws) {
        Ok(())
    } else {
        Err(Refusal::Contradiction { what: "draws" })
    }
}

/// Mean, deviation and the interval with a fortieth of the draws on either side.
fn summary(mut results: Vec<f64>) -> Result<Sampled, Refusal> {
    let used = results.len();
    if used < 2 {
        return Err(Refusal::Contradiction { what: "model" });
    }
    results.sort_unstable_by(f64::total_cmp);
    let count = used as f64;
    let mean = results.iter().sum::<f64>() / count;
    let squares: f64 = results
        .iter()
        .map(|result| (result - mean) * (result - mean))
        .sum();
    let outside = (count * 0.025).floor() as usize;
    Ok(Sampled {
        mean,
        standard_uncertainty: (squares / (count - 1.0)).sqrt(),
        low: results[outside],
        high: results[used - 1 - outside],
        used,
    })
}

/// The lower triangular root of a covariance (Cholesky); a direction without variance gives a row of nothing.
fn triangular_root(covariance: &[Vec<f64>]) -> Result<Vec<Vec<f64>>, Refusal> {
    let count = covariance.len();
    let mut root = vec![vec![0.0; count]; count];
    for i in 0..count {
        for j in 0..=i {
            let done: f64 = (0..j).map(|k| root[i][k] * root[j][k]).sum();
            let left = covariance[i][j] - done;
            let noise = 1e-9 * (covariance[i][i] * covariance[j][j]).sqrt();
            if i == j {
                if left < -noise {
                    return Err(Refusal::Contradiction { what: "covariance" });
                }
                root[i][i] = left.max(0.0).sqrt();
            } else if root[j][j] * root[j][j] > 1e-12 * covariance[j][j] {
                root[i][j] = left / root[j][j];
            } else if left.abs() > noise {
                return Err(Refusal::Contradiction { what: "covariance" });
            }
        }
    }
    Ok(root)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_gives_the_covariance_back() {
        let covariance = vec![
            vec![4.0, 2.0, -1.0],
            vec![2.0, 5.0, 1.0],
            vec![-1.0, 1.0, 3.0],
        ];
        let root = triangular_root(&covariance).unwrap();
        for i in 0..3 {
            for j in 0..3 {
                let back: f64 = (0..3).map(|k| root[i][k] * root[j][k]).sum();
                assert!((back - covariance[i][j]).abs() < 1e-12);
            }
        }
        assert!(
            triangular_root(&[
                vec![1.0, 0.9, -0.9],
                vec![0.9, 1.0, 0.9],
                vec![-0.9, 0.9, 1.0]
            ])
            .is_err()
        );
    }

    #[test]
    fn what_cannot_be_sampled_is_refused() {
        let one = [(1.0, Spread::Exact)];
        assert!(sample(&one, 1, 0, |x| Some(x[0])).is_err());
        assert!(sample(&one, 100, 0, |_| None).is_err());
        assert!(sample(&[(f64::NAN, Spread::Exact)], 100, 0, |x| Some(x[0])).is_err());
        assert!(sample(&[(1.0, Spread::Normal { u: -1.0 })], 100, 0, |x| Some(x[0])).is_err());
        assert!(choose_lowest(&[1.0], &[vec![1.0]], 100, 0, |_| vec![f64::NAN]).is_err());
    }
}
