//! Each measurement as one row: how far it is from what the pins say, and how that moves with every unknown.

use super::asked::{Part, Survey, Taped, Which};
use super::fit::{Descent, descend};
use super::geometry::{Geometry, UNKNOWNS, place};
use super::matrix::Symmetric;
use super::pin::{Body, Pin};
use super::posed::PosedTooth;
use crate::arm::shape::{Joint, Vector};

/// A row that is mostly zeros: place and value.
pub(super) type Sparse = Vec<(usize, f64)>;

/// One measurement, in units of its own standard uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    /// Measured less computed, over the standard uncertainty.
    pub(super) residual: f64,
    /// The computed value's derivative, over the standard uncertainty.
    pub(super) by: Sparse,
}

/// A measurement that is used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Used {
    pub(super) which: Which,
    pub(super) measured: f64,
    pub(super) sd: f64,
}

/// A survey with the measurements that are used; beside the geometry three true ram lengths of each reading are unknown.
#[derive(Debug, Clone)]
pub(super) struct Problem<'a> {
    pub(super) survey: &'a Survey,
    pub(super) distances: Vec<usize>,
    pub(super) readings: Vec<usize>,
    /// Measurements that are left out to see how the others fit without them.
    pub(super) struck: Vec<Which>,
}

impl<'a> Problem<'a> {
    /// Everything of the survey that has no fault.
    pub(super) fn sound(survey: &'a Survey) -> Self {
        let distances = survey.distances.iter().enumerate();
        let readings = survey.readings.iter().enumerate();
        Problem {
            survey,
            distances: distances
                .filter(|(at, taped)| taped.fault(*at).is_none())
                .map(|(at, _)| at)
                .collect(),
            readings: readings
                .filter(|(at, reading)| reading.fault(*at).is_none())
                .map(|(at, _)| at)
                .collect(),
            struck: Vec::new(),
        }
    }

    /// The distances on one body alone.
    pub(super) fn of_body(&self, body: Body) -> Self {
        let on_body = |at: &usize| {
            let taped = self.survey.distances[*at];
            Body::of_both(taped.from, taped.to) == Some(body)
        };
        Problem {
            survey: self.survey,
            distances: self.distances.iter().copied().filter(on_body).collect(),
            readings: Vec::new(),
            struck: self.struck.clone(),
        }
    }

    /// The ends to which this pin was taped, each once; a height or a level distance counts as its end.
    pub(super) fn neighbours(&self, pin: Pin) -> Vec<Pin> {
        let taped = self.distances.iter().map(|at| &self.survey.distances[*at]);
        let others = taped.filter_map(|taped| match pin {
            _ if taped.from == pin => Some(taped.to),
            _ if taped.to == pin => Some(taped.from),
            _ => None,
        });
        let mut all: Vec<Pin> = others.collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    pub(super) fn unknowns(&self) -> usize {
        UNKNOWNS + 3 * self.readings.len()
    }

    /// The measurements, in the order of the rows.
    pub(super) fn used(&self) -> Vec<Used> {
        let distances = self.distances.iter().map(|&at| {
            let taped = self.survey.distances[at];
            Used {
                which: Which::Distance(at),
                measured: taped.metres,
                sd: taped.sd,
            }
        });
        let readings = self.readings.iter().flat_map(|&at| self.parts(at));
        let all = distances.chain(readings);
        all.filter(|used| !self.struck.contains(&used.which))
            .collect()
    }

    /// The measurements of a reading: its three rams, then what is known of the tooth.
    fn parts(&self, at: usize) -> impl Iterator<Item = Used> {
        let reading = self.survey.readings[at];
        // A ram on its stop is as long as the stop makes it, to a hundredth of a millimetre.
        let rams_sd = reading.rams_sd.max(1e-5);
        let rams = Joint::ALL.map(|joint| {
            let length = reading.rams[joint.index()];
            (Part::Ram(joint), Some(length), rams_sd)
        });
        let tooth = [
            (Part::ToothHeight, reading.tooth_height, reading.tooth_sd),
            (Part::Reach, reading.reach, reading.tooth_sd),
        ];
        let all = rams.into_iter().chain(tooth);
        all.filter_map(move |(part, measured, sd)| {
            let which = Which::Reading(at, part);
            measured.map(|measured| Used {
                which,
                measured,
                sd,
            })
        })
    }

    /// All rows at these unknowns; none where a pose does not close or a number ran away.
    pub(super) fn rows(&self, used: &[Used], unknowns: &[f64]) -> Option<Vec<Row>> {
        let geometry = Geometry::from_start(unknowns);
        let mut poses = Vec::with_capacity(self.readings.len());
        for number in 0..self.readings.len() {
            let own = UNKNOWNS + 3 * number;
            let lengths = [unknowns[own], unknowns[own + 1], unknowns[own + 2]];
            poses.push(geometry.tooth(&self.survey.assembly, lengths).ok()?);
        }
        let mut rows = Vec::with_capacity(used.len());
        for used in used {
            let (computed, by) = match used.which {
                Which::Distance(at) => {
                    let taped = self.survey.distances[at];
                    distance(taped.from, taped.to, unknowns)?
                }
                Which::Reading(at, part) => {
                    let number = self.readings.iter().position(|own| *own == at)?;
                    let own = UNKNOWNS + 3 * number;
                    part_of(part, &poses[number], own, unknowns)
                }
            };
            rows.push(row(used.measured, computed, used.sd, by));
        }
        let sound = rows.iter().all(|row| row.residual.is_finite());
        sound.then_some(rows)
    }

    /// Goes down from here to the least sum of squares.
    pub(super) fn descend(&self, start: Vec<f64>) -> Option<Descent> {
        let used = self.used();
        descend(start, |unknowns| self.rows(&used, unknowns))
    }

    /// The row that a further distance between these ends would be, in units of its standard uncertainty.
    pub(super) fn further(from: Pin, to: Pin, sd: f64, unknowns: &[f64]) -> Option<Sparse> {
        let taped = Taped {
            from,
            to,
            metres: 1.0,
            sd,
        };
        taped.fault(0).is_none().then_some(())?;
        let (_, by) = distance(from, to, unknowns)?;
        Some(row(0.0, 0.0, sd, by).by)
    }
}

/// What the unknowns say of one part of a reading whose ram lengths begin at `own`, and the derivative.
fn part_of(part: Part, posed: &PosedTooth, own: usize, unknowns: &[f64]) -> (f64, Sparse) {
    match part {
        Part::Ram(joint) => {
            let at = own + joint.index();
            (unknowns[at], vec![(at, 1.0)])
        }
        Part::ToothHeight => (posed.tooth.z, tooth_row(posed, own, |moved| moved.z)),
        Part::Reach => (posed.tooth.r, tooth_row(posed, own, |moved| moved.r)),
    }
}

fn row(measured: f64, computed: f64, sd: f64, mut by: Sparse) -> Row {
    for (_, rate) in &mut by {
        *rate /= sd;
    }
    Row {
        residual: (measured - computed) / sd,
        by,
    }
}

/// The derivative of one part of the tooth's place; the ram lengths of the pose begin at `own`.
pub(super) fn tooth_row(posed: &PosedTooth, own: usize, part: impl Fn(Vector) -> f64) -> Sparse {
    let rates = posed.by.iter().map(|moved| part(*moved)).enumerate();
    let placed = rates.map(|(at, rate)| {
        (
            if at < UNKNOWNS {
                at
            } else {
                own + at - UNKNOWNS
            },
            rate,
        )
    });
    placed.filter(|(_, rate)| *rate != 0.0).collect()
}

/// A rigid distance and its derivative.
pub(super) fn distance(from: Pin, to: Pin, unknowns: &[f64]) -> Option<(f64, Sparse)> {
    let body = Body::of_both(from, to)?;
    for (pin, other) in [(from, to), (to, from)] {
        let coordinate = match pin {
            Pin::SwingAxis => 0,
            Pin::Ground => 1,
            _ => continue,
        };
        let at = place(other, body)[coordinate]?;
        return Some((unknowns[at], vec![(at, 1.0)]));
    }
    let (start, end) = (place(from, body), place(to, body));
    let value = |at: Option<usize>| at.map_or(0.0, |at| unknowns[at]);
    let way = Vector::new(
        value(end[0]) - value(start[0]),
        value(end[1]) - value(start[1]),
    );
    let length = way.length();
    let unit = if length > 1e-9 {
        way * (1.0 / length)
    } else {
        Vector::new(1.0, 0.0)
    };
    let mut by = Vec::with_capacity(4);
    for (at, rate) in [
        (start[0], -unit.r),
        (start[1], -unit.z),
        (end[0], unit.r),
        (end[1], unit.z),
    ] {
        by.extend(at.map(|at| (at, rate)));
    }
    Some((length, by))
}

/// The matrix of the normal equations and their right hand side.
pub(super) fn normal(rows: &[Row], unknowns: usize) -> (Symmetric, Vec<f64>) {
    let mut matrix = Symmetric::zeros(unknowns);
    let mut right = vec![0.0; unknowns];
    for row in rows {
        matrix.add_square(&row.by);
        for &(at, rate) in &row.by {
            right[at] += rate * row.residual;
        }
    }
    (matrix, right)
}

/// The sum of the squared residuals.
pub(super) fn squares(rows: &[Row]) -> f64 {
    rows.iter().map(|row| row.residual * row.residual).sum()
}
