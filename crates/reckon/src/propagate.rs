//! The law of propagation of uncertainty, with inputs that move together.

use crate::refusal::Refusal;

/// Results with their joint covariance.
#[derive(Debug, Clone, PartialEq)]
pub struct Propagated {
    /// The results at the estimates of the inputs.
    pub values: Vec<f64>,
    /// Their covariance, row by row.
    pub covariance: Vec<Vec<f64>>,
}

impl Propagated {
    /// The standard uncertainty of one result; none where there is no such result.
    pub fn standard_uncertainty(&self, result: usize) -> Option<f64> {
        self.covariance
            .get(result)?
            .get(result)
            .map(|variance| variance.max(0.0).sqrt())
    }

    /// The correlation of two results, from -1 to 1; none where one of them does not vary.
    pub fn correlation(&self, one: usize, other: usize) -> Option<f64> {
        let both = self.standard_uncertainty(one)? * self.standard_uncertainty(other)?;
        let covariance = self.covariance.get(one)?.get(other)?;
        (both > 0.0).then(|| (covariance / both).clamp(-1.0, 1.0))
    }

    /// Half the width of one result's 95 % interval: twice its standard uncertainty (JCGM 100:2008, 6.3.3).
    pub fn half_width(&self, result: usize) -> Option<f64> {
        self.standard_uncertainty(result).map(|u| 2.0 * u)
    }
}

/// A covariance from standard uncertainties and correlations.
///
/// `correlations` names pairs of inputs and how they move together, from -1 to 1; a pair not named is independent.
///
/// # Errors
/// "covariance" where a pair does not exist, or an uncertainty or a correlation cannot be.
pub fn covariance_of(
    uncertainties: &[f64],
    correlations: &[(usize, usize, f64)],
) -> Result<Vec<Vec<f64>>, Refusal> {
    let bad = Refusal::Contradiction { what: "covariance" };
    if uncertainties.iter().any(|u| !u.is_finite() || *u < 0.0) {
        return Err(bad);
    }
    let count = uncertainties.len();
    let mut covariance = vec![vec![0.0; count]; count];
    for (index, u) in uncertainties.iter().enumerate() {
        covariance[index][index] = u * u;
    }
    for &(one, other, together) in correlations {
        if one == other || one >= count || other >= count || !(-1.0..=1.0).contains(&together) {
            return Err(bad);
        }
        let shared = together * uncertainties[one] * uncertainties[other];
        covariance[one][other] = shared;
        covariance[other][one] = shared;
    }
    Ok(covariance)
}

/// Carries the joint covariance of inputs through a model to its results.
///
/// - `estimates`: the inputs' values.
/// - `covariance`: theirs, one row for each, symmetric.
/// - `model`: gives the results for any inputs near the estimates, always the same number of them.
///
/// Formula: u(y_k, y_l) = sum over i, j of c_ki u(x_i, x_j) c_lj, with c the change of a result with an input:
/// JCGM 100:2008, 5.2.2, eq. 13, for one result, and JCGM 102:2011, 6.2 for several; both from memory. The changes
/// are taken as central differences over half an uncertainty either way (Kragten 1994, Analyst 119, 2161).
///
/// Range: a model that is nearly straight over the uncertainties; what is a minimum or a choice goes to
/// [`crate::choose_lowest`].
///
/// # Errors
/// The model's own refusal; "covariance" where the covariance does not fit the estimates; "model" where the model
/// gives another number of results or none that is finite.
pub fn propagate(
    estimates: &[f64],
    covariance: &[Vec<f64>],
    model: impl Fn(&[f64]) -> Result<Vec<f64>, Refusal>,
) -> Result<Propagated, Refusal> {
    check_covariance(estimates.len(), covariance)?;
    let values = model(estimates)?;
    let mut changes = Vec::with_capacity(estimates.len());
    for (input, row) in covariance.iter().enumerate() {
        changes.push(changes_with(
            input,
            estimates,
            row[input].sqrt(),
            values.len(),
            &model,
        )?);
    }
    let results = 0..values.len();
    let shared = |k: usize, l: usize| -> f64 {
        let pairs = (0..estimates.len()).flat_map(|i| (0..estimates.len()).map(move |j| (i, j)));
        pairs
            .map(|(i, j)| changes[i][k] * covariance[i][j] * changes[j][l])
            .sum()
    };
    let covariance: Vec<Vec<f64>> = results
        .clone()
        .map(|k| results.clone().map(|l| shared(k, l)).collect())
        .collect();
    let finite = values
        .iter()
        .chain(covariance.iter().flatten())
        .all(|number| number.is_finite());
    if finite {
        Ok(Propagated { values, covariance })
    } else {
        Err(Refusal::Contradiction { what: "model" })
    }
}

/// Refuses what is no covariance of so many inputs.
pub(crate) fn check_covariance(count: usize, covariance: &[Vec<f64>]) -> Result<(), Refusal> {
    let square = covariance.len() == count && covariance.iter().all(|row| row.len() == count);
    let sound = square
        && (0..count).all(|i| {
            covariance[i][i] >= 0.0
                && (0..count).all(|j| {
                    let allowed = (covariance[i][i] * covariance[j][j]).sqrt() * (1.0 + 1e-9);
                    covariance[i][j].is_finite()
                        && covariance[i][j] == covariance[j][i]
                        && covariance[i][j].abs() <= allowed
                })
        });
    if sound {
        Ok(())
    } else {
        Err(Refusal::Contradiction { what: "covariance" })
    }
}

fn changes_with(
    input: usize,
    estimates: &[f64],
    uncertainty: f64,
    results: usize,
    model: &impl Fn(&[f64]) -> Result<Vec<f64>, Refusal>,
) -> Result<Vec<f64>, Refusal> {
    if uncertainty == 0.0 {
        return Ok(vec![0.0; results]);
    }
    let at = |value: f64| {
        let mut moved = estimates.to_vec();
        moved[input] = value;
        model(&moved)
    };
    let (below, above) = (
        estimates[input] - uncertainty / 2.0,
        estimates[input] + uncertainty / 2.0,
    );
    let (low, high) = (at(below)?, at(above)?);
    if low.len() != results || high.len() != results {
        return Err(Refusal::Contradiction { what: "model" });
    }
    // The step as it really is after rounding; it vanishes where the uncertainty is lost beside the value.
    let step = above - below;
    if step == 0.0 {
        return Ok(vec![0.0; results]);
    }
    Ok(low
        .iter()
        .zip(&high)
        .map(|(low, high)| (high - low) / step)
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_covariance_is_refused() {
        let refused = Err(Refusal::Contradiction { what: "covariance" });
        let sum = |x: &[f64]| Ok(vec![x.iter().sum()]);
        assert_eq!(propagate(&[1.0], &[], sum), refused);
        assert_eq!(
            propagate(&[1.0, 2.0], &[vec![1.0, 2.0], vec![2.0, 1.0]], sum),
            refused
        );
        assert_eq!(
            propagate(&[1.0, 2.0], &[vec![1.0, 0.5], vec![0.4, 1.0]], sum),
            refused
        );
        assert_eq!(propagate(&[1.0], &[vec![f64::NAN]], sum), refused);
        assert!(covariance_of(&[1.0, -1.0], &[]).is_err());
        assert!(covariance_of(&[1.0, 1.0], &[(0, 1, 1.1)]).is_err());
        assert!(covariance_of(&[1.0, 1.0], &[(0, 0, 1.0)]).is_err());
    }

    #[test]
    fn what_moves_together_adds_straight_and_against_cancels() {
        let sum = |x: &[f64]| Ok(vec![x[0] + x[1]]);
        let with = |together: f64| {
            let covariance = covariance_of(&[3.0, 4.0], &[(0, 1, together)]).unwrap();
            propagate(&[10.0, 20.0], &covariance, sum)
                .unwrap()
                .standard_uncertainty(0)
                .unwrap()
        };
        assert!((with(1.0) - 7.0).abs() < 1e-9);
        assert!((with(0.0) - 5.0).abs() < 1e-9);
        assert!((with(-1.0) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_model_that_refuses_or_breaks_is_heard() {
        let refuses = |_: &[f64]| Err(Refusal::NotKnown { input: "pin" });
        assert_eq!(
            propagate(&[1.0], &[vec![1.0]], refuses),
            Err(Refusal::NotKnown { input: "pin" })
        );
        let breaks = |x: &[f64]| Ok(vec![1.0 / (x[0] - x[0])]);
        assert_eq!(
            propagate(&[1.0], &[vec![1.0]], breaks),
            Err(Refusal::Contradiction { what: "model" })
        );
    }
}
