//! What each measurement is controlled by: residuals, redundancy numbers, normalised residuals, how the tests go together.

use super::asked::Which;
use super::matrix::{Ranked, Symmetric, ranked, sparse_dot};
use super::rows::{Problem, Row, normal};

/// A pin whose place is known no better than this counts as not determined, in metres.
pub(super) const WIDEST: f64 = 0.25;

/// Less redundancy than this is rounding: such a measurement nothing controls.
pub(super) const UNCONTROLLED: f64 = 1e-6;

/// One measurement after the fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tested {
    /// Which one.
    pub which: Which,
    /// As measured, in metres.
    pub measured: f64,
    /// What the fitted pins say, in metres.
    pub fitted: f64,
    /// Its standard uncertainty, in metres.
    pub sd: f64,
    /// The share of an error in it that shows in its own residual: 0 where nothing controls it, 1 where everything else
    /// settles it. They add up to the redundancy of the survey.
    pub redundancy: f64,
    /// The residual over its own standard deviation; none where nothing controls it.
    pub normalised: Option<f64>,
}

impl Tested {
    /// Measured less fitted, in metres.
    pub fn residual(&self) -> f64 {
        self.measured - self.fitted
    }

    /// The error in this measurement that would explain its residual, if all others are right, in metres.
    pub fn error(&self) -> Option<f64> {
        self.normalised.map(|_| self.residual() / self.redundancy)
    }

    /// What it should read by all the others, with the standard uncertainty of that, in metres.
    pub fn by_the_others(&self) -> Option<(f64, f64)> {
        let spread = self.sd * ((1.0 - self.redundancy).max(0.0) / self.redundancy).sqrt();
        self.error().map(|error| (self.measured - error, spread))
    }
}

/// The tests of one fit.
#[derive(Debug, Clone)]
pub(super) struct Reliability {
    pub(super) tested: Vec<Tested>,
    pub(super) ranked: Ranked,
    /// Rows of the fit.
    pub(super) rows: Vec<Row>,
    /// Covariance of the fitted measurements, each over its own standard uncertainty.
    hats: Symmetric,
}

impl Reliability {
    /// The tests of the measurements of a problem whose rows at the fit are these.
    ///
    /// Source: Baarda 1968: v = (1 - A Q A' P) e, redundancy numbers its diagonal, w = v / (sd sqrt(r)); from memory.
    pub(super) fn new(problem: &Problem<'_>, rows: Vec<Row>) -> Self {
        let ranked = ranked(&normal(&rows, problem.unknowns()).0, WIDEST);
        let mut hats = Symmetric::zeros(rows.len());
        for (j, row) in rows.iter().enumerate() {
            let moved = ranked.inverse.times(&row.by);
            for (i, other) in rows[..=j].iter().enumerate() {
                hats.set(i, j, sparse_dot(&other.by, &moved));
            }
        }
        let tested = problem.used().into_iter().zip(&rows).enumerate();
        let tested = tested.map(|(at, (used, row))| {
            let redundancy = (1.0 - hats.get(at, at)).clamp(0.0, 1.0);
            let controlled = redundancy > UNCONTROLLED;
            Tested {
                which: used.which,
                measured: used.measured,
                fitted: used.measured - row.residual * used.sd,
                sd: used.sd,
                redundancy,
                normalised: controlled.then(|| row.residual / redundancy.sqrt()),
            }
        });
        Reliability {
            tested: tested.collect(),
            ranked,
            rows,
            hats,
        }
    }

    /// How the tests of two measurements go together, from -1 to 1: at 1 an error in one cannot be told from one in the
    /// other. None where one of them is not controlled.
    pub(super) fn together(&self, one: usize, other: usize) -> Option<f64> {
        self.together_with(one, other, None)
    }

    /// The same with a further measurement of this row, in units of its standard uncertainty.
    pub(super) fn together_with(
        &self,
        one: usize,
        other: usize,
        further: Option<&Influence>,
    ) -> Option<f64> {
        let residual = |a: usize, b: usize| {
            let own = if a == b { 1.0 } else { 0.0 };
            let gained = further.map_or(0.0, |further| further.shares[a] * further.shares[b]);
            own - self.hats.get(a, b) + gained
        };
        let (r, s) = (residual(one, one), residual(other, other));
        let controlled = r > UNCONTROLLED && s > UNCONTROLLED;
        controlled.then(|| (residual(one, other) / (r * s).sqrt()).clamp(-1.0, 1.0))
    }

    /// What a further measurement of this row would do to the others.
    pub(super) fn influence(&self, by: &[(usize, f64)]) -> Influence {
        let moved = self.ranked.inverse.times(by);
        let grown = (1.0 + sparse_dot(by, &moved)).sqrt();
        let shares = self
            .rows
            .iter()
            .map(|row| sparse_dot(&row.by, &moved) / grown);
        Influence {
            shares: shares.collect(),
        }
    }

    /// The redundancy of the whole: measurements less what they determine.
    pub(super) fn redundancy(&self) -> usize {
        let determined = self.ranked.inverse.size() - self.ranked.free.len();
        self.rows.len().saturating_sub(determined)
    }
}

/// How much a further measurement lowers the covariance of the fitted ones: share i times share j.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Influence {
    pub(super) shares: Vec<f64>,
}
