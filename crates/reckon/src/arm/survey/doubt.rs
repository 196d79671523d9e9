//! Which measurement does not fit: named where the others can tell, else all that it may be.

use super::advice::separating;
use super::asked::Which;
use super::chance::CRITICAL;
use super::lacking::Further;
use super::reliability::Reliability;
use super::rows::Problem;

/// What does not fit.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// One measurement stands out, and the others can tell it from each of them.
    Misfit {
        /// Which one.
        which: Which,
        /// Its normalised residual.
        normalised: f64,
        /// Its error, if all others are right: as measured less as it should be, in metres.
        error: f64,
        /// What it should read by all the others, in metres.
        should_be: f64,
        /// Standard uncertainty of that, in metres.
        should_be_sd: f64,
        /// The odds that it is this one and no other, if it is just one: from 0 to 1.
        likelihood: f64,
    },
    /// One of these is wrong, and nothing measured can tell which.
    Suspects {
        /// All that it may be, the most conspicuous first.
        which: Vec<Which>,
        /// The largest normalised residual.
        normalised: f64,
        /// What would tell them apart best.
        further: Option<Further>,
    },
}

impl Doubt {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            Doubt::Misfit { .. } => "misfit",
            Doubt::Suspects { .. } => "suspects",
        }
    }

    /// The measurements it is about, the most conspicuous first.
    pub fn about(&self) -> &[Which] {
        match self {
            Doubt::Misfit { which, .. } => std::slice::from_ref(which),
            Doubt::Suspects { which, .. } => which,
        }
    }
}

/// Tests that go together more than this cannot be told apart.
pub(super) const TOGETHER: f64 = 0.9;

/// No more wrong measurements than this are looked for.
const MOST_DOUBTS: usize = 3;

/// What does not fit, one after the other: what was named is left out, and the rest is fitted and tested anew.
///
/// Source: Baarda 1968, data snooping; from memory. It supposes one wrong measurement at a time.
pub(super) fn doubts(problem: &Problem<'_>, unknowns: &[f64], tests: &Reliability) -> Vec<Doubt> {
    let mut found = Vec::new();
    let (mut problem, mut tests) = (problem.clone(), tests.clone());
    let mut unknowns = unknowns.to_vec();
    while found.len() < MOST_DOUBTS {
        let Some(doubt) = worst(&problem, &unknowns, &tests) else {
            break;
        };
        problem.struck.extend(doubt.about());
        found.push(doubt);
        let Some(descent) = problem.descend(unknowns.clone()) else {
            break;
        };
        unknowns = descent.unknowns;
        tests = Reliability::new(&problem, descent.rows);
    }
    found
}

/// The measurement whose test stands out most, or all it may be mistaken for.
fn worst(problem: &Problem<'_>, unknowns: &[f64], tests: &Reliability) -> Option<Doubt> {
    let sizes: Vec<f64> = tests
        .tested
        .iter()
        .map(|tested| tested.normalised.map_or(0.0, f64::abs))
        .collect();
    let (worst, size) = sizes
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.total_cmp(b.1).then(b.0.cmp(&a.0)))?;
    if *size <= CRITICAL {
        return None;
    }
    let together = |other: usize| tests.together(worst, other).map_or(0.0, f64::abs);
    let mut alike: Vec<usize> = (0..sizes.len())
        .filter(|&other| other == worst || together(other) > TOGETHER)
        .collect();
    if alike.len() > 1 {
        alike.sort_by(|a, b| sizes[*b].total_cmp(&sizes[*a]).then(a.cmp(b)));
        let which = alike.iter().map(|at| tests.tested[*at].which).collect();
        return Some(Doubt::Suspects {
            which,
            normalised: *size,
            further: separating(problem, unknowns, tests, &alike),
        });
    }
    let tested = &tests.tested[worst];
    let (should_be, should_be_sd) = tested.by_the_others()?;
    Some(Doubt::Misfit {
        which: tested.which,
        normalised: tested.normalised?,
        error: tested.error()?,
        should_be,
        should_be_sd,
        likelihood: likelihood(&sizes, worst),
    })
}

/// The likelihood of one cause among all: each is as likely as e^(w^2/2), the fall in the sum of squares it brings.
fn likelihood(sizes: &[f64], worst: usize) -> f64 {
    let most = sizes[worst] * sizes[worst];
    let shares = sizes
        .iter()
        .map(|size| libm::exp(0.5 * (size * size - most)));
    1.0 / shares.sum::<f64>()
}
