//! The whole fit: links from their starts, poses made to close, all of it together, mirror images weighed.

use super::asked::{Fault, Survey};
use super::chance::{UNLIKELY, chi_square_tail};
use super::fit::Descent;
use super::geometry::{Assembly, Geometry};
use super::pin::{Body, Pin};
use super::rows::Problem;
use super::start::{UNDECIDED, Way, differing, far_apart, off, places, ways};
use crate::arm::shape::{Joint, Vector};

/// The whole fit and what was noticed on the way.
#[derive(Debug, Clone)]
pub(super) struct Adjusted<'a> {
    pub(super) problem: Problem<'a>,
    pub(super) descent: Descent,
    /// Poses that no arm near this one can take.
    pub(super) faults: Vec<Fault>,
    /// Pins that fit as well on the other side, with the unknowns of that other way.
    pub(super) either: Vec<(Body, Vec<Pin>, Vec<f64>)>,
}

/// No more mirror images of one link than this are looked at with the poses.
const MOST_WAYS: usize = 4;

/// Where all of it together does not fit, mirror images this much less likely are looked at, too.
const DOUBTFUL: f64 = 30.0;

/// Fits a survey. None where even the distances alone cannot be begun with.
pub(super) fn adjusted(survey: &Survey) -> Option<Adjusted<'_>> {
    let mut problem = Problem::sound(survey);
    let links = Body::ALL.map(|body| (body, ways(&problem, body)));
    let mut base = survey.nominal.to_list().to_vec();
    for (body, ways) in &links {
        take(*body, &mut base, &ways[0].unknowns);
    }
    let faults = keep_what_closes(&mut problem, &base);
    let mut found = vec![together(&problem, &base)?];
    let apart = if doubtful(&problem, &found[0]) {
        DOUBTFUL
    } else {
        UNDECIDED
    };
    for (body, ways) in &links {
        let apart = if unlike(&problem, *body, &ways[0]) {
            f64::MAX
        } else {
            apart
        };
        let close = |way: &&Way| way.weight - ways[0].weight < apart;
        for way in ways[1..].iter().take(MOST_WAYS).filter(close) {
            let mut start = base.clone();
            take(*body, &mut start, &way.unknowns);
            found.extend(together(&problem, &start));
        }
    }
    let weight = |descent: &Descent| weight(survey, descent);
    found.sort_by(|a, b| weight(a).total_cmp(&weight(b)));
    let best = found.remove(0);
    let mut either: Vec<_> = found
        .iter()
        .filter(|other| far_apart(&other.unknowns, &best.unknowns) > 0.005)
        .flat_map(|other| {
            let decided = weight(other) >= weight(&best) + UNDECIDED;
            let mut sides = sides(&best, other);
            sides.retain(|(body, ..)| {
                let way = links.iter().find(|(link, _)| link == body);
                !decided || way.is_some_and(|(body, ways)| unlike(&problem, *body, &ways[0]))
            });
            sides
        })
        .collect();
    let mut named: Vec<Body> = Vec::new();
    either.retain(|(body, ..)| {
        let first = !named.contains(body);
        named.push(*body);
        first
    });
    Some(Adjusted {
        problem,
        descent: best,
        faults,
        either,
    })
}

/// The squares from which on a link is so unlike its first guess that the guess cannot tell it from its mirror image: five
/// times as far as a guess may well be off.
const UNLIKE: f64 = 25.0;

/// True where nothing but an unlike guess says on which side this link's pins lie.
fn unlike(problem: &Problem<'_>, body: Body, way: &Way) -> bool {
    let nominal = problem.survey.nominal.to_list();
    problem.readings.is_empty() && off(body, &way.unknowns, &nominal) > UNLIKE
}

/// True where poses were read and all of it together does not fit.
fn doubtful(problem: &Problem<'_>, fit: &Descent) -> bool {
    let redundancy = problem.used().len().saturating_sub(problem.unknowns());
    let unlikely = chi_square_tail(fit.squares, redundancy.max(1)) < UNLIKELY;
    unlikely && !problem.readings.is_empty()
}

/// How well it fits and how near it is to the first guess.
fn weight(survey: &Survey, descent: &Descent) -> f64 {
    let nominal = survey.nominal.to_list();
    let bodies = Body::ALL.into_iter();
    descent.squares
        + bodies
            .map(|body| off(body, &descent.unknowns, &nominal))
            .sum::<f64>()
}

/// The pins of each body that lie elsewhere in the other fit.
fn sides(best: &Descent, other: &Descent) -> Vec<(Body, Vec<Pin>, Vec<f64>)> {
    let each = Body::ALL.into_iter().map(|body| {
        let pins = differing(body, &best.unknowns, &other.unknowns);
        (body, pins, other.unknowns.clone())
    });
    each.filter(|(_, pins, _)| !pins.is_empty()).collect()
}

fn take(body: Body, into: &mut [f64], from: &[f64]) {
    for at in places(body) {
        into[at] = from[at];
    }
}

/// All measurements together, from these pins.
fn together(problem: &Problem<'_>, pins: &[f64]) -> Option<Descent> {
    let geometry = Geometry::from_start(pins);
    let mut start = pins.to_vec();
    for &at in &problem.readings {
        let reading = &problem.survey.readings[at];
        for joint in Joint::ALL {
            let length = reading.rams[joint.index()];
            start.push(closing_near(
                &geometry,
                &problem.survey.assembly,
                joint,
                length,
            )?);
        }
    }
    problem.descend(start)
}

/// Takes out the poses that do not close near this shape.
fn keep_what_closes(problem: &mut Problem<'_>, pins: &[f64]) -> Vec<Fault> {
    let geometry = Geometry::from_start(pins);
    let survey = problem.survey;
    let mut faults = Vec::new();
    problem.readings.retain(|&at| {
        let open = Joint::ALL.into_iter().find(|joint| {
            let length = survey.readings[at].rams[joint.index()];
            closing_near(&geometry, &survey.assembly, *joint, length).is_none()
        });
        faults.extend(open.map(|joint| Fault::NeverCloses { reading: at, joint }));
        open.is_none()
    });
    faults
}

/// The ram length nearest to this one at which the joint closes and is off its dead centres: where the fit begins.
fn closing_near(
    geometry: &Geometry,
    assembly: &Assembly,
    joint: Joint,
    length: f64,
) -> Option<f64> {
    let steps = (0..120).flat_map(|step| {
        let aside = 0.005 * f64::from(step);
        [length - aside, length + aside]
    });
    steps
        .filter(|length| *length > 0.0)
        .find(|length| geometry.closes(assembly, joint, *length))
}

impl Geometry {
    /// True where the joint closes with its ram at this length, with a lever of at least a hundredth of its size.
    fn closes(&self, assembly: &Assembly, joint: Joint, length: f64) -> bool {
        let (grip, size) = match joint {
            Joint::Boom => {
                let triangle = self.boom_triangle(assembly.boom);
                (triangle.at_length(joint, length), triangle.rod())
            }
            Joint::Dipper => {
                let triangle = self.dipper_triangle(assembly.dipper);
                (triangle.at_length(joint, length), triangle.rod())
            }
            Joint::Bucket => {
                let bar = self.four_bar(assembly.linkage);
                let pose = bar.at_length(length).map(|pose| pose.grip);
                (pose, Vector::new(self.lever, 0.0))
            }
        };
        grip.is_ok_and(|grip| grip.lever.abs() > 0.01 * size.length())
    }
}
