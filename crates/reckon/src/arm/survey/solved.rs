//! What a survey came to: pins with their uncertainty, what does not fit, what is missing, what to measure next.

use super::adjust::adjusted;
use super::advice::{Advice, separating_sides, surest};
use super::asked::{Fault, Survey};
use super::chance::{UNLIKELY, chi_square_tail};
use super::closing::Closing;
use super::doubt::{Doubt, doubts};
use super::geometry::{Assembly, Geometry, UNKNOWNS};
use super::lacking::{Further, Lacking, lacking};
use super::pin::Pin;
use super::reliability::{Reliability, Tested};
use super::rows::Problem;
use super::triangles::{ImpossibleTriangle, impossible};
use crate::arm::shape::Joint;

/// How all measurements fit together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overall {
    /// The sum of the squared residuals, each over its own standard uncertainty.
    pub squares: f64,
    /// Measurements less what they determine: how many checks there are.
    pub redundancy: usize,
    /// The chance of so large a sum if only the tape's own errors are in it; 1 where there is no check.
    pub chance: f64,
    /// What the uncertainties were multiplied by. 1 where all fits; larger where it does not (chance below 0.001), for
    /// then the errors are larger than the tape's own.
    pub widened: f64,
}

/// Pins of which the measurements fit as well on the other side, and the first guess hardly tells.
#[derive(Debug, Clone, PartialEq)]
pub struct EitherSide {
    /// Those pins, all of one link.
    pub pins: Vec<Pin>,
    /// The distance that tells; none where none not taken yet does, and only a look helps.
    pub further: Option<Further>,
}

/// A survey, fitted.
#[derive(Debug, Clone)]
pub struct Solved {
    /// The pins. Of those in `lacking` only the first guess.
    pub geometry: Geometry,
    /// The assembly, as given.
    pub assembly: Assembly,
    /// Every measurement that was used, with its test.
    pub tested: Vec<Tested>,
    /// How all of it fits together.
    pub overall: Overall,
    /// Measurements that could not be used.
    pub faults: Vec<Fault>,
    /// What was not determined, and what would settle it.
    pub lacking: Lacking,
    /// What does not fit.
    pub doubts: Vec<Doubt>,
    /// Triangles that cannot be.
    pub impossible: Vec<ImpossibleTriangle>,
    /// Pins that may lie on the other side.
    pub either_side: Vec<EitherSide>,
    /// Whether boom, dipper and bucket close over their rams' whole stroke.
    pub closing: [Closing; 3],
    pub(super) tests: Reliability,
    unknowns: Vec<f64>,
}

/// Fits everything that was measured of an arm: distances and poses together, by weighted least squares.
///
/// Unknown are the pins, lever and link, and for each reading the three true ram lengths. Each link is begun with from the
/// first guess and its mirror images. Where two images fit alike the one nearer to the first guess is taken; where that
/// hardly tells either, `either_side` says so.
///
/// Measurements that cannot be used are left out and listed in `faults`. What the rest does not determine keeps its first
/// guess and is listed in `lacking`: it is nobody's measurement.
///
/// The uncertainties are the tape's own, carried through; they are widened only where the whole does not fit.
///
/// # Errors
/// A fault of the first guess or of a stroke.
///
/// Source: weighted least squares by observation equations, Gauss; tests after Baarda 1968, from memory.
pub fn solve(survey: &Survey) -> Result<Solved, Fault> {
    if let Some(fault) = survey.refusal() {
        return Err(fault);
    }
    let fit = adjusted(survey).ok_or(Fault::NominalNotALength)?;
    let problem = &fit.problem;
    let unknowns = &fit.descent.unknowns;
    let tests = Reliability::new(problem, fit.descent.rows);
    let geometry = Geometry::from_start(unknowns);
    let lacking = lacking(problem, unknowns, &tests);
    let sides = fit.either.into_iter().filter_map(|(body, pins, other)| {
        let open = pins.iter().all(|pin| lacking.pins.contains(pin));
        (!open).then(|| EitherSide {
            further: separating_sides(problem, body, unknowns, &other),
            pins,
        })
    });
    let mut faults = survey.faults();
    faults.extend(fit.faults);
    let mut solved = Solved {
        geometry,
        assembly: survey.assembly,
        overall: overall(fit.descent.squares, tests.redundancy()),
        faults,
        doubts: doubts(problem, unknowns, &tests),
        impossible: impossible(problem),
        either_side: sides.collect(),
        closing: [Closing::NotKnown; 3],
        lacking,
        tested: tests.tested.clone(),
        unknowns: fit.descent.unknowns,
        tests,
    };
    solved.closing = Joint::ALL.map(|joint| solved.closes(joint, survey.rams[joint.index()]));
    Ok(solved)
}

fn overall(squares: f64, redundancy: usize) -> Overall {
    let chance = chi_square_tail(squares, redundancy);
    let widened = if chance < UNLIKELY {
        (squares / redundancy as f64).sqrt().max(1.0)
    } else {
        1.0
    };
    Overall {
        squares,
        redundancy,
        chance,
        widened,
    }
}

impl Solved {
    /// Covariance of two numbers of [`Geometry::to_list`], in square metres; 0 beyond the list. Of what is lacking it says
    /// nothing.
    pub fn covariance(&self, one: usize, other: usize) -> f64 {
        if one.max(other) < UNKNOWNS {
            self.overall.widened * self.overall.widened * self.tests.ranked.inverse.get(one, other)
        } else {
            0.0
        }
    }

    /// Variance of one number of [`Geometry::to_list`], in square metres.
    pub fn variance(&self, at: usize) -> f64 {
        self.covariance(at, at)
    }

    /// How the tests of two measurements, by their places in `tested`, go together, from -1 to 1; beyond 0.9 either way
    /// an error in one cannot be told from one in the other. 0 where one is not controlled or there is none.
    pub fn tests_together(&self, one: usize, other: usize) -> f64 {
        if one.max(other) < self.tested.len() {
            self.tests.together(one, other).unwrap_or(0.0)
        } else {
            0.0
        }
    }

    /// What makes the tooth's place surest, the best first: a further distance and a further pose. Empty as long as
    /// something is lacking on which the tooth depends, or the ends of a stroke are not known. `survey`: the one that was
    /// solved.
    pub fn advice(&self, survey: &Survey) -> Vec<Advice> {
        surest(&Problem::sound(survey), &self.unknowns, &self.tests)
    }

    /// True where every pin but the heel is determined: then forces and the tooth's place can be reckoned.
    pub fn complete(&self) -> bool {
        self.lacking.pins.iter().all(|pin| *pin == Pin::Heel)
    }
}

/// All pairs of ends that a tape can be held between, body by body, as a sheet to measure by would list them.
pub fn all_distances() -> Vec<(Pin, Pin)> {
    super::pin::Body::ALL
        .into_iter()
        .flat_map(super::pin::Body::pairs)
        .collect()
}
