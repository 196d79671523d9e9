//! Triangles that cannot be: one side longer than the other two together.

use super::chance::CRITICAL;
use super::pin::{Body, Pin};
use super::rows::Problem;

/// Three distances between three pins that no triangle has.
///
/// Heights and level distances are held against each other, too: no pin is higher over another than the two are apart.
#[derive(Debug, Clone, PartialEq)]
pub struct ImpossibleTriangle {
    /// Its three pins; the side between the first two is the one too long, or the other two are too short. Ground or
    /// swing axis stands first.
    pub pins: [Pin; 3],
    /// Places in the survey of the distances taken of the long side.
    pub long: Vec<usize>,
    /// Of the other two sides.
    pub short: [Vec<usize>; 2],
    /// By how much the long side is longer than the other two together, in metres.
    pub excess: f64,
    /// The standard uncertainty of that, in metres.
    pub sd: f64,
}

/// One side: where it was taken, its mean weighted by the uncertainties, and the variance of that.
#[derive(Debug, Clone)]
struct Side {
    taken: Vec<usize>,
    mean: f64,
    variance: f64,
}

/// All triangles that cannot be and are further off than the tape's own errors explain.
pub(super) fn impossible(problem: &Problem<'_>) -> Vec<ImpossibleTriangle> {
    let mut found = Vec::new();
    for body in Body::ALL {
        let no_pin = |pin: &&Pin| !matches!(pin, Pin::Ground | Pin::SwingAxis);
        let pins: Vec<Pin> = body.pins().iter().filter(no_pin).copied().collect();
        for (at, &a) in pins.iter().enumerate() {
            for (next, &b) in pins.iter().enumerate().skip(at + 1) {
                for &c in &pins[next + 1..] {
                    let sides = [(a, b, c), (b, c, a), (c, a, b)];
                    found.extend(sides.into_iter().filter_map(|pins| too_long(problem, pins)));
                }
            }
        }
    }
    let (foot, barrel) = (Pin::BoomFoot, Pin::BoomRamBarrel);
    for from in [Pin::Ground, Pin::SwingAxis] {
        let both = [(from, barrel, foot), (from, foot, barrel)];
        found.extend(both.into_iter().filter_map(|pins| too_long(problem, pins)));
    }
    found
}

/// The side between the first two pins, where it is too long for the other two.
fn too_long(problem: &Problem<'_>, (a, b, c): (Pin, Pin, Pin)) -> Option<ImpossibleTriangle> {
    let (long, one, other) = (
        side(problem, a, b)?,
        side(problem, b, c)?,
        side(problem, c, a)?,
    );
    let excess = long.mean - one.mean - other.mean;
    let sd = (long.variance + one.variance + other.variance).sqrt();
    (excess > CRITICAL * sd).then_some(ImpossibleTriangle {
        pins: [a, b, c],
        long: long.taken,
        short: [one.taken, other.taken],
        excess,
        sd,
    })
}

fn side(problem: &Problem<'_>, from: Pin, to: Pin) -> Option<Side> {
    let between = |at: &usize| {
        let taped = &problem.survey.distances[*at];
        (taped.from, taped.to) == (from, to) || (taped.from, taped.to) == (to, from)
    };
    let taken: Vec<usize> = problem.distances.iter().copied().filter(between).collect();
    let (mut weights, mut sum) = (0.0, 0.0);
    for at in &taken {
        let taped = &problem.survey.distances[*at];
        let weight = 1.0 / (taped.sd * taped.sd);
        weights += weight;
        sum += weight * taped.metres;
    }
    (weights > 0.0).then(|| Side {
        taken,
        mean: sum / weights,
        variance: 1.0 / weights,
    })
}
