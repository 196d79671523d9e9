//! The uncertainty of the pins carried to anything that is reckoned from them.

use super::chance::Z95;
use super::geometry::{Geometry, UNKNOWNS};
use super::lacking::{SEEN, own_places};
use super::pin::Pin;
use super::solved::Solved;
use crate::arm::shape::{ShapeTrouble, Vector};

/// A pin as the survey left it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinFix {
    /// Where it is, in the frame of its link, in metres. Of lever's and link's shared pin: the lengths of lever and link.
    pub at: Vector,
    /// Standard uncertainty of both, in metres.
    pub sd: Vector,
    /// False where the measurements leave it open: then `at` is only the first guess and `sd` says nothing.
    pub determined: bool,
}

impl PinFix {
    /// Half the width of the 95 % interval of each coordinate, in metres.
    pub fn half_width(&self) -> Vector {
        self.sd * Z95
    }
}

/// Something reckoned from the pins, with its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct SpreadOf {
    /// The values.
    pub values: Vec<f64>,
    /// Their covariance, row by row.
    pub covariance: Vec<Vec<f64>>,
}

impl SpreadOf {
    /// The standard uncertainty of one value.
    pub fn sd(&self, value: usize) -> Option<f64> {
        let variance = self.covariance.get(value)?.get(value)?;
        Some(variance.max(0.0).sqrt())
    }

    /// Half the width of its 95 % interval.
    pub fn half_width(&self, value: usize) -> Option<f64> {
        self.sd(value).map(|sd| Z95 * sd)
    }
}

/// Why nothing can be said.
#[derive(Debug, Clone, PartialEq)]
pub enum NotSaid {
    /// It depends on pins that the measurements leave open.
    NotDetermined {
        /// Those pins.
        pins: Vec<Pin>,
    },
    /// The arm does not close there.
    Open(ShapeTrouble),
    /// The model gives no value at the pins or beside them.
    NoValue,
}

/// The step of a central difference, in metres: its own error is below that of a millionth of a millimetre.
const STEP: f64 = 1e-5;

impl Solved {
    /// A pin with its uncertainty. None for ground and swing axis, which are no pins.
    pub fn pin(&self, pin: Pin) -> Option<PinFix> {
        let places = own_places(pin);
        let list = self.geometry.to_list();
        let sd = |at: usize| self.variance(at).max(0.0).sqrt();
        let first = *places.first()?;
        let second = places.get(1).copied();
        Some(PinFix {
            at: Vector::new(list[first], second.map_or(0.0, |at| list[at])),
            sd: Vector::new(sd(first), second.map_or(0.0, sd)),
            determined: !self.lacking.pins.contains(&pin),
        })
    }

    /// The tooth with the rams at these lengths, r then z, with its uncertainty; `lengths_sd` is that of the lengths.
    ///
    /// # Errors
    /// `NotDetermined` where it depends on pins that were left open; `Open` where the arm does not close there.
    pub fn tooth_at(&self, lengths: [f64; 3], lengths_sd: f64) -> Result<SpreadOf, NotSaid> {
        let posed = self.geometry.tooth(&self.assembly, lengths);
        let posed = posed.map_err(NotSaid::Open)?;
        let by = |part: fn(&Vector) -> f64| posed.by[..UNKNOWNS].iter().map(part).collect();
        let changes: [Vec<f64>; 2] = [by(|moved| moved.r), by(|moved| moved.z)];
        let mut spread = self.carried(vec![posed.tooth.r, posed.tooth.z], &changes)?;
        for moved in &posed.by[UNKNOWNS..] {
            let both = [moved.r * lengths_sd, moved.z * lengths_sd];
            for (row, one) in spread.covariance.iter_mut().zip(both) {
                for (sum, other) in row.iter_mut().zip(both) {
                    *sum += one * other;
                }
            }
        }
        Ok(spread)
    }

    /// Anything reckoned from the pins, with the uncertainty that theirs gives it, by central differences.
    ///
    /// # Errors
    /// `NotDetermined` where it depends on pins that were left open; `NoValue` where the model gives none, or not always
    /// as many.
    ///
    /// Formula: JCGM 100:2008, eq. 13, from memory.
    pub fn spread_of(
        &self,
        model: impl Fn(&Geometry) -> Option<Vec<f64>>,
    ) -> Result<SpreadOf, NotSaid> {
        let list = self.geometry.to_list();
        let values = model(&self.geometry).ok_or(NotSaid::NoValue)?;
        let mut changes = vec![vec![0.0; UNKNOWNS]; values.len()];
        for at in 0..UNKNOWNS {
            let moved = |step: f64| {
                let mut there = list;
                there[at] += step;
                model(&Geometry::from_list(&there)).filter(|found| found.len() == values.len())
            };
            let (low, high) = (moved(-STEP), moved(STEP));
            let (low, high) = (low.ok_or(NotSaid::NoValue)?, high.ok_or(NotSaid::NoValue)?);
            for (row, (low, high)) in changes.iter_mut().zip(low.iter().zip(&high)) {
                row[at] = (high - low) / (2.0 * STEP);
            }
        }
        let finite = changes.iter().flatten().all(|change| change.is_finite());
        if finite {
            self.carried(values, &changes)
        } else {
            Err(NotSaid::NoValue)
        }
    }

    /// Covariance of values that change so with the pins.
    fn carried(&self, values: Vec<f64>, changes: &[Vec<f64>]) -> Result<SpreadOf, NotSaid> {
        let open = self.left_open_by(changes);
        if !open.is_empty() {
            return Err(NotSaid::NotDetermined { pins: open });
        }
        let moved = |row: &Vec<f64>| -> Vec<f64> {
            let of = |at: usize| (0..UNKNOWNS).map(|b| self.covariance(at, b) * row[b]).sum();
            (0..UNKNOWNS).map(of).collect()
        };
        let moved: Vec<Vec<f64>> = changes.iter().map(moved).collect();
        let covariance = changes.iter().map(|row| {
            let with = |other: &Vec<f64>| row.iter().zip(other).map(|(a, b)| a * b).sum();
            moved.iter().map(with).collect()
        });
        Ok(SpreadOf {
            values,
            covariance: covariance.collect(),
        })
    }
    /// The pins left open on whose free movement these changes depend.
    fn left_open_by(&self, changes: &[Vec<f64>]) -> Vec<Pin> {
        let seen = |moves: &Vec<f64>| {
            changes.iter().any(|row| {
                let most = row
                    .iter()
                    .fold(0.0_f64, |most, change| most.max(change.abs()));
                let along: f64 = row.iter().zip(moves).map(|(a, b)| a * b).sum();
                along.abs() > SEEN * most
            })
        };
        let moves: Vec<&Vec<f64>> = self
            .tests
            .ranked
            .free
            .iter()
            .filter(|moves| seen(moves))
            .collect();
        let moved = |pin: &Pin| {
            let places = own_places(*pin);
            moves
                .iter()
                .any(|moves| places.iter().any(|at| moves[*at].abs() > SEEN))
        };
        self.lacking.pins.iter().copied().filter(moved).collect()
    }
}
