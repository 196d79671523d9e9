//! What the measurements do not determine, and which further distances would.

use super::asked::Which;
use super::geometry::UNKNOWNS;
use super::geometry::place;
use super::matrix::{dot, sparse_dot};
use super::pin::{Body, Pin};
use super::reliability::Reliability;
use super::rows::Problem;

/// Something further to measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Further {
    /// A distance not taken yet.
    Distance {
        /// One end.
        from: Pin,
        /// The other.
        to: Pin,
    },
    /// Something once more, with the tape laid on anew.
    Again(Which),
    /// The tooth's height and reach with the rams at these lengths.
    Pose {
        /// Boom, dipper and bucket ram, in metres.
        rams: [f64; 3],
    },
}

/// What is not determined.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lacking {
    /// The pins whose place the measurements leave open: what stands for them is only the first guess.
    pub pins: Vec<Pin>,
    /// The distances that would settle them, each doing the most that is left to do.
    pub unlock: Vec<Further>,
}

/// A metre of movement that no measurement sees moves a pin by at least this, in metres, where it is not determined.
pub(super) const SEEN: f64 = 1e-3;

/// A further distance that would move by less than this for a metre of it settles nothing.
const SETTLES: f64 = 0.02;

/// What the measurements leave open.
pub(super) fn lacking(problem: &Problem<'_>, unknowns: &[f64], tests: &Reliability) -> Lacking {
    let free = &tests.ranked.free;
    if free.is_empty() {
        return Lacking::default();
    }
    let open = |at: usize| free.iter().any(|moves| moves[at].abs() > SEEN);
    let pins: Vec<Pin> = Pin::all()
        .filter(|pin| own_places(*pin).into_iter().any(open))
        .collect();
    if pins.is_empty() {
        return Lacking::default();
    }
    Lacking {
        pins,
        unlock: unlocking(problem, unknowns, free),
    }
}

/// The unknowns that are this pin.
pub(super) fn own_places(pin: Pin) -> Vec<usize> {
    let all = Body::ALL
        .into_iter()
        .filter(|body| body.pins().contains(&pin) && !(pin == Pin::LinkPin && *body == Body::Link))
        .flat_map(|body| place(pin, body));
    let mut places: Vec<usize> = all.flatten().collect();
    if pin == Pin::LinkagePin {
        places.push(super::geometry::LINK);
    }
    places.sort_unstable();
    places.dedup();
    places
}

/// Distances that settle the free movements one after the other, the one that sees most of what is left first.
fn unlocking(problem: &Problem<'_>, unknowns: &[f64], free: &[Vec<f64>]) -> Vec<Further> {
    let basis = upright(free);
    let mut seen: Vec<(Further, Vec<f64>)> = untaken(problem)
        .into_iter()
        .filter_map(|(from, to)| {
            let by = Problem::further(from, to, 1.0, unknowns)?;
            let sees = basis.iter().map(|moves| sparse_dot(&by, moves)).collect();
            Some((Further::Distance { from, to }, sees))
        })
        .collect();
    let mut chosen = Vec::new();
    for _ in 0..basis.len() {
        let most = seen.iter().enumerate().max_by(|(_, a), (_, b)| {
            // Of equals the first: `max_by` keeps the last.
            let (one, other) = (dot(&a.1, &a.1), dot(&b.1, &b.1));
            (one * (1.0 + 1e-9)).total_cmp(&other)
        });
        let Some((at, _)) = most else { break };
        let (further, sees) = seen.swap_remove(at);
        let size = dot(&sees, &sees);
        let settles = size > SETTLES * SETTLES;
        if !settles {
            break;
        }
        chosen.push(further);
        for (_, other) in &mut seen {
            let along = dot(other, &sees) / size;
            for (value, sight) in other.iter_mut().zip(&sees) {
                *value -= along * sight;
            }
        }
    }
    chosen
}

/// The free movements made upright to each other and of length one, by Gram and Schmidt, over the pins alone.
fn upright(free: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let mut basis: Vec<Vec<f64>> = Vec::new();
    for moves in free {
        let mut own = moves[..UNKNOWNS].to_vec();
        for other in &basis {
            let along = dot(&own, other);
            for (value, part) in own.iter_mut().zip(other) {
                *value -= along * part;
            }
        }
        let size = dot(&own, &own).sqrt();
        if size > 1e-9 {
            basis.push(own.iter().map(|value| value / size).collect());
        }
    }
    basis
}

/// The rigid distances that were not taken, body by body.
pub(super) fn untaken(problem: &Problem<'_>) -> Vec<(Pin, Pin)> {
    let taken = |from: Pin, to: Pin| {
        problem.distances.iter().any(|at| {
            let taped = &problem.survey.distances[*at];
            (taped.from, taped.to) == (from, to) || (taped.from, taped.to) == (to, from)
        })
    };
    let all = Body::ALL.into_iter().flat_map(Body::pairs);
    all.filter(|(from, to)| !taken(*from, *to)).collect()
}
