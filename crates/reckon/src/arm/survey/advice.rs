//! What to measure next: what tells suspects apart, and what makes the tooth's place surer.

use super::asked::{Survey, Which};
use super::doubt::TOGETHER;
use super::geometry::{Geometry, UNKNOWNS};
use super::lacking::{Further, SEEN, untaken};
use super::matrix::{dot, sparse_dot};
use super::pin::{Body, Pin};
use super::posed::PosedTooth;
use super::reliability::Reliability;
use super::rows::{Problem, Sparse, distance, tooth_row};

/// Something further to measure, and what it brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// What to measure.
    pub further: Further,
    /// Standard uncertainty of the tooth's place in one direction as it is, over the whole reach, in metres.
    pub tooth_sd: f64,
    /// The same with the further measurement.
    pub tooth_sd_then: f64,
}

/// Where in its stroke each ram stands in the poses that stand for the whole reach.
const SHARES: [f64; 3] = [0.15, 0.5, 0.85];

/// The further distance that tells the suspects apart best: the fewest pairs left alike, then the least alike.
pub(super) fn separating(
    problem: &Problem<'_>,
    unknowns: &[f64],
    tests: &Reliability,
    suspects: &[usize],
) -> Option<Further> {
    let alike = |by: Option<&Sparse>| {
        let influence = by.map(|by| tests.influence(by));
        let mut score = (0_usize, 0.0);
        for (at, one) in suspects.iter().enumerate() {
            for other in &suspects[at + 1..] {
                let together = tests.together_with(*one, *other, influence.as_ref());
                let together = together.map_or(1.0, f64::abs);
                score.0 += usize::from(together > TOGETHER);
                score.1 += together;
            }
        }
        score
    };
    let now = alike(None);
    let mut best: Option<(Further, (usize, f64))> = None;
    let new = distances(problem, unknowns);
    let again = suspects.iter().map(|at| {
        let which = tests.tested[*at].which;
        (Further::Again(which), tests.rows[*at].by.clone())
    });
    for (further, by) in new.into_iter().chain(again) {
        let score = alike(Some(&by));
        let better = best.is_none_or(|(_, least)| (score.0, score.1 + 1e-6) < least);
        if better && (score.0 < now.0 || score.1 < now.1 - 0.01) {
            best = Some((further, score));
        }
    }
    best.map(|(further, _)| further)
}

/// The distance not taken yet, or else taken again, that differs most between two ways the pins of a body may lie.
pub(super) fn separating_sides(
    problem: &Problem<'_>,
    body: Body,
    one: &[f64],
    other: &[f64],
) -> Option<Further> {
    let differs = |(from, to): &(Pin, Pin)| {
        let between = |pins: &[f64]| distance(*from, *to, pins).map_or(0.0, |(length, _)| length);
        (between(one) - between(other)).abs()
    };
    let on_body = |(from, to): &(Pin, Pin)| Body::of_both(*from, *to) == Some(body);
    let all = untaken(problem).into_iter().filter(on_body);
    let most = all.max_by(|a, b| differs(a).total_cmp(&differs(b)))?;
    (differs(&most) > 0.01).then_some(Further::Distance {
        from: most.0,
        to: most.1,
    })
}

/// The rigid distances not taken yet, as rows.
fn distances(problem: &Problem<'_>, unknowns: &[f64]) -> Vec<(Further, Sparse)> {
    let sd = next_sd(problem.survey);
    let all = untaken(problem).into_iter().filter_map(|(from, to)| {
        let by = Problem::further(from, to, sd, unknowns)?;
        Some((Further::Distance { from, to }, by))
    });
    all.collect()
}

/// What a further distance would be sure to.
fn next_sd(survey: &Survey) -> f64 {
    if survey.next_sd > 1e-5 && survey.next_sd <= 10.0 {
        survey.next_sd
    } else {
        0.0015
    }
}

/// The poses that stand for the whole reach, with their lengths: those of a grid that close.
fn reach(survey: &Survey, geometry: &Geometry) -> Vec<([f64; 3], PosedTooth)> {
    let [Some(boom), Some(dipper), Some(bucket)] = survey.rams else {
        return Vec::new();
    };
    let ends = [boom, dipper, bucket];
    let length = |joint: usize, share: f64| {
        let ends = ends[joint];
        ends.closed + share * (ends.open - ends.closed)
    };
    let mut poses = Vec::new();
    for boom in SHARES {
        for dipper in SHARES {
            for bucket in SHARES {
                let rams = [length(0, boom), length(1, dipper), length(2, bucket)];
                let posed = geometry.tooth(&survey.assembly, rams);
                poses.extend(posed.ok().map(|posed| (rams, posed)));
            }
        }
    }
    poses
}

/// The rows of a tooth's height and reach by the pins alone.
fn both(posed: &PosedTooth) -> [Sparse; 2] {
    let pins =
        |part: fn(&(usize, f64)) -> bool, row: Sparse| row.into_iter().filter(part).collect();
    let in_pins: fn(&(usize, f64)) -> bool = |(at, _)| *at < UNKNOWNS;
    // Beyond the pins come the ram lengths, exact here.
    [
        pins(in_pins, tooth_row(posed, UNKNOWNS, |moved| moved.r)),
        pins(in_pins, tooth_row(posed, UNKNOWNS, |moved| moved.z)),
    ]
}

/// The further distance and the further pose that each make the tooth's place surest, the better one first.
///
/// Empty where a pin on which the tooth depends is not determined: then that comes first.
pub(super) fn surest(problem: &Problem<'_>, unknowns: &[f64], tests: &Reliability) -> Vec<Advice> {
    let geometry = Geometry::from_start(unknowns);
    let poses = reach(problem.survey, &geometry);
    let rows: Vec<Sparse> = poses.iter().flat_map(|(_, posed)| both(posed)).collect();
    let blind = |row: &Sparse| {
        let free = tests.ranked.free.iter();
        free.map(|moves| sparse_dot(row, moves).abs())
            .any(|sees| sees > SEEN)
    };
    if rows.is_empty() || rows.iter().any(blind) {
        return Vec::new();
    }
    let tooth = Tooth::new(tests, rows);
    let taped = distances(problem, unknowns).into_iter();
    let again = tests.tested.iter().zip(&tests.rows);
    let again = again.filter(|(tested, _)| matches!(tested.which, Which::Distance(_)));
    let again = again.map(|(tested, row)| (Further::Again(tested.which), row.by.clone()));
    let tape = taped
        .chain(again)
        .map(|(further, by)| tooth.with(further, &[by]));
    let sd = next_sd(problem.survey);
    let pose = poses
        .iter()
        .map(|(rams, posed)| tooth.with(Further::Pose { rams: *rams }, &read(posed, sd)));
    let surer = |a: &Advice, b: &Advice| a.tooth_sd_then.total_cmp(&b.tooth_sd_then);
    let mut all: Vec<Advice> = [tape.min_by(surer), pose.min_by(surer)]
        .into_iter()
        .flatten()
        .collect();
    all.sort_by(surer);
    all
}

/// The tooth's place over the whole reach, and how sure it is.
struct Tooth<'a> {
    tests: &'a Reliability,
    rows: Vec<Sparse>,
    /// The mean variance in one direction.
    variance: f64,
}

impl<'a> Tooth<'a> {
    fn new(tests: &'a Reliability, rows: Vec<Sparse>) -> Self {
        let variance = |row: &Sparse| sparse_dot(row, &tests.ranked.inverse.times(row));
        let variance = rows.iter().map(variance).sum::<f64>() / rows.len() as f64;
        Tooth {
            tests,
            rows,
            variance,
        }
    }

    /// What further measurements taken together bring.
    fn with(&self, further: Further, measured: &[Sparse]) -> Advice {
        let mut taken: Vec<(Vec<f64>, f64)> = Vec::new();
        let mut fall = 0.0;
        for by in measured {
            let mut own = self.tests.ranked.inverse.times(by);
            for (earlier, grown) in &taken {
                let along = sparse_dot(by, earlier) / grown;
                for (value, part) in own.iter_mut().zip(earlier) {
                    *value -= along * part;
                }
            }
            let grown = 1.0 + sparse_dot(by, &own);
            let seen = self.rows.iter().map(|row| sparse_dot(row, &own));
            fall += seen.map(|seen| seen * seen).sum::<f64>() / grown;
            taken.push((own, grown));
        }
        let then = self.variance - fall / self.rows.len() as f64;
        Advice {
            further,
            tooth_sd: self.variance.max(0.0).sqrt(),
            tooth_sd_then: then.max(0.0).sqrt(),
        }
    }
}

/// Height and reach of a pose as they would be read, with the errors of its ram lengths in them.
fn read(posed: &PosedTooth, sd: f64) -> [Sparse; 2] {
    let lengths = &posed.by[UNKNOWNS..];
    let parts = lengths.iter().map(|moved| [moved.r * sd, moved.z * sd]);
    let spread: Vec<[f64; 2]> = parts.collect();
    let own = |part: usize| {
        let column: Vec<f64> = spread.iter().map(|both| both[part]).collect();
        (sd * sd + dot(&column, &column)).sqrt()
    };
    let [reach, height] = both(posed);
    let over = |row: Sparse, sd: f64| row.into_iter().map(|(at, rate)| (at, rate / sd)).collect();
    [over(reach, own(0)), over(height, own(1))]
}
