//! Where to begin: each link alone from the first guess, and from its mirror images where pins may lie on the other side.

use super::fit::Descent;
use super::geometry::{
    BOOM_BARREL, BOOM_ROD, BUCKET_BARREL, DIPPER_BARREL, DIPPER_ROD, FOOT, HEEL, LEVER_PIN,
    LINK_PIN, UNKNOWNS, place,
};
use super::pin::{Body, Pin};
use super::rows::Problem;
use crate::arm::shape::Vector;

/// How far a first guess may well be off: so many metres and this share of the number itself.
const GUESS: (f64, f64) = (0.03, 0.1);

/// A mirror image this unlikely, as squares of how far a guess may well be off, is looked at only where nothing else fits.
const FAR_FETCHED: f64 = 50.0;

/// Two fits whose weight differs by less than this are not told apart by it (odds of twenty to one).
pub(super) const UNDECIDED: f64 = 6.0;

/// One way a link's pins may lie.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Way {
    /// All unknowns; those of other links as in the first guess.
    pub(super) unknowns: Vec<f64>,
    /// The sum of squares of the distances on it.
    pub(super) squares: f64,
    /// The same and how far it is from the first guess.
    pub(super) weight: f64,
}

/// The ways in which the pins of a link fit its distances alike, the likeliest first; never empty.
pub(super) fn ways(problem: &Problem<'_>, body: Body) -> Vec<Way> {
    let nominal = problem.survey.nominal.to_list().to_vec();
    let own = problem.of_body(body);
    let (far, near): (Vec<_>, Vec<_>) = starts(body, &nominal)
        .into_iter()
        .partition(|start| off(body, start, &nominal) > FAR_FETCHED);
    let mut ways: Vec<Way> = Vec::new();
    for start in near {
        try_from(start, &own, body, &nominal, &mut ways);
    }
    let best = |ways: &[Way]| ways.iter().map(|way| way.squares).fold(f64::MAX, f64::min);
    if best(&ways) > FAR_FETCHED {
        for start in far {
            try_from(start, &own, body, &nominal, &mut ways);
        }
    }
    for start in over_their_line(&own, body, &ways) {
        try_from(start, &own, body, &nominal, &mut ways);
    }
    for start in ways
        .iter()
        .filter_map(|way| mirrored(body, &way.unknowns))
        .collect::<Vec<_>>()
    {
        try_from(start, &own, body, &nominal, &mut ways);
    }
    ways.sort_by(|a, b| a.weight.total_cmp(&b.weight));
    let best = best(&ways);
    ways.retain(|way| way.squares <= best + 2.0 * UNDECIDED);
    if ways.is_empty() {
        ways.push(Way {
            unknowns: nominal,
            squares: f64::MAX,
            weight: f64::MAX,
        });
    }
    ways
}

/// Fits from this start and keeps what comes, unless it came before.
fn try_from(start: Vec<f64>, own: &Problem<'_>, body: Body, nominal: &[f64], ways: &mut Vec<Way>) {
    let Some(Descent {
        unknowns, squares, ..
    }) = own.descend(start)
    else {
        return;
    };
    let way = Way {
        weight: squares + off(body, &unknowns, nominal),
        unknowns,
        squares,
    };
    let same = |known: &&mut Way| far_apart(&known.unknowns, &way.unknowns) < 1e-4;
    match ways.iter_mut().find(same) {
        Some(known) if way.weight < known.weight => *known = way,
        Some(_) => {}
        None => ways.push(way),
    }
}

/// How far apart the two are where they differ most, in metres.
pub(super) fn far_apart(one: &[f64], other: &[f64]) -> f64 {
    let apart = one.iter().zip(other).map(|(a, b)| (a - b).abs());
    apart.take(UNKNOWNS).fold(0.0, f64::max)
}

/// The places of the unknowns that belong to a body.
pub(super) fn places(body: Body) -> Vec<usize> {
    let all = body.pins().iter().flat_map(|pin| place(*pin, body));
    all.flatten().collect()
}

/// How far the pins of a link are from the first guess, in squares of how far a guess may well be off.
pub(super) fn off(body: Body, unknowns: &[f64], nominal: &[f64]) -> f64 {
    let parts = places(body).into_iter().map(|at| {
        let guess = GUESS.0 + GUESS.1 * nominal[at].abs();
        (unknowns[at] - nominal[at]) / guess
    });
    parts.map(|part| part * part).sum()
}

/// The first guess and its mirror images, pin by pin.
fn starts(body: Body, nominal: &[f64]) -> Vec<Vec<f64>> {
    let flips: &[(usize, Option<usize>)] = match body {
        // The barrel may lie before or behind, over or under the foot pin.
        Body::Post => &[(BOOM_BARREL, Some(FOOT)), (BOOM_BARREL + 1, Some(FOOT + 1))],
        Body::Boom => &[(BOOM_ROD + 1, None), (DIPPER_BARREL + 1, None)],
        Body::Dipper => &[
            (DIPPER_ROD + 1, None),
            (BUCKET_BARREL + 1, None),
            (LEVER_PIN + 1, None),
        ],
        Body::Bucket => &[(LINK_PIN + 1, None), (HEEL + 1, None)],
        Body::Lever | Body::Link => &[],
    };
    let flipped = |mask: u32| {
        let mut start = nominal.to_vec();
        for (bit, (at, about)) in flips.iter().enumerate() {
            let middle = about.map_or(0.0, |about| nominal[about]);
            // A pin right on the axis would stay there: no derivative leads away from it.
            let beside = nominal[*at] - middle;
            let aside = if beside.abs() < 0.02 { 0.02 } else { beside };
            let side = if mask >> bit & 1 == 1 { -1.0 } else { 1.0 };
            start[*at] = middle + side * aside;
        }
        start
    };
    (0..1 << flips.len()).map(flipped).collect()
}

/// The whole link turned over along its own axis: every distance on it is the same there. A start far from the machine may run
/// into this image first. The post has none, for its pins stand over the ground.
fn mirrored(body: Body, unknowns: &[f64]) -> Option<Vec<f64>> {
    let across: &[usize] = match body {
        Body::Boom => &[BOOM_ROD + 1, DIPPER_BARREL + 1],
        Body::Dipper => &[DIPPER_ROD + 1, BUCKET_BARREL + 1, LEVER_PIN + 1],
        Body::Bucket => &[LINK_PIN + 1, HEEL + 1],
        Body::Post | Body::Lever | Body::Link => return None,
    };
    let mut image = unknowns.to_vec();
    for &at in across {
        image[at] = -image[at];
    }
    Some(image)
}

/// Each pin that only two distances hold, mirrored over the line between their other ends: it fits as well there.
fn over_their_line(own: &Problem<'_>, body: Body, ways: &[Way]) -> Vec<Vec<f64>> {
    let mut starts = Vec::new();
    for &pin in body.pins() {
        let [Some(r), Some(z)] = place(pin, body) else {
            continue;
        };
        let neighbours = own.neighbours(pin);
        let [one, other] = neighbours[..] else {
            continue;
        };
        for way in ways {
            let at = |pin: Pin| {
                let value = |at: Option<usize>| at.map_or(0.0, |at| way.unknowns[at]);
                let [r, z] = place(pin, body);
                Vector::new(value(r), value(z))
            };
            let (foot, line) = (at(one), at(other) - at(one));
            let beside = at(pin) - foot;
            let along = line * (line.dot(beside) / line.dot(line));
            let mirrored = foot + along * 2.0 - beside;
            if mirrored.is_finite() {
                let mut start = way.unknowns.clone();
                (start[r], start[z]) = (mirrored.r, mirrored.z);
                starts.push(start);
            }
        }
    }
    starts
}

/// The pins whose place differs between two ways by more than a tape can miss.
pub(super) fn differing(body: Body, one: &[f64], other: &[f64]) -> Vec<Pin> {
    let differs = |pin: &&Pin| {
        place(**pin, body)
            .into_iter()
            .flatten()
            .any(|at| (one[at] - other[at]).abs() > 0.005)
    };
    body.pins().iter().filter(differs).copied().collect()
}
