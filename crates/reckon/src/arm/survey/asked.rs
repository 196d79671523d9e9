//! What was measured: distances, poses, the first guess, and which of it cannot be used.

use super::geometry::{Assembly, Geometry, RamEnds};
use super::pin::{Body, Pin};
use crate::arm::shape::Joint;

/// A distance held with the tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taped {
    /// One end.
    pub from: Pin,
    /// The other.
    pub to: Pin,
    /// Metres. From ground the height over it, the machine level; from the swing axis the level distance, negative
    /// where the pin lies behind the axis, seen the way the arm points.
    pub metres: f64,
    /// Its standard uncertainty, in metres.
    pub sd: f64,
}

/// A pose read off: how long each ram is, and where the tooth is then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Pin to pin of boom, dipper and bucket ram, in metres.
    pub rams: [f64; 3],
    /// Standard uncertainty of each of them, in metres; 0 where a ram is on its stop and its length there is known.
    pub rams_sd: f64,
    /// Tooth over the ground, in metres; negative below it.
    pub tooth_height: Option<f64>,
    /// Swing axis to tooth, level, in metres.
    pub reach: Option<f64>,
    /// Standard uncertainty of height and reach, in metres.
    pub tooth_sd: f64,
}

/// Everything that was measured of one arm.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// The first guess: the shape to begin from, and where two mirror images fit alike the one to be near to.
    pub nominal: Geometry,
    /// Which of the mirror assemblies it is.
    pub assembly: Assembly,
    /// Closed and open length of boom, dipper and bucket ram, where known.
    pub rams: [Option<RamEnds>; 3],
    /// Tape.
    pub distances: Vec<Taped>,
    /// Poses.
    pub readings: Vec<Reading>,
    /// The standard uncertainty a further distance would have, in metres: for advice on what to measure next.
    pub next_sd: f64,
}

/// Which part of a pose reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The length of this ram.
    Ram(Joint),
    /// The tooth's height.
    ToothHeight,
    /// The tooth's distance from the swing axis.
    Reach,
}

/// One measured number, by its place in the survey.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Which {
    /// The distance at this place.
    Distance(usize),
    /// A part of the reading at this place.
    Reading(usize, Part),
}

/// Why something measured, or the survey as a whole, cannot be used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fault {
    /// The two ends sit on different bodies: their distance changes with the pose.
    NotRigid {
        /// The distance at this place.
        distance: usize,
    },
    /// The number is none, not positive where it must be, or beyond [`MOST`].
    NotALength(Which),
    /// The standard uncertainty is none, or outside 0.01 mm to 10 m.
    NotAnUncertainty(Which),
    /// The pose closes on no arm near this one: the ram lengths cannot all be right. It was left out.
    NeverCloses {
        /// The reading at this place.
        reading: usize,
        /// The joint that does not close.
        joint: Joint,
    },
    /// A number of the first guess is none or beyond [`MOST`].
    NominalNotALength,
    /// The ends of a ram's stroke are no lengths, or the open one is not the longer.
    NotAStroke(Joint),
}

impl Fault {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            Fault::NotRigid { .. } => "not-rigid",
            Fault::NotALength(_) => "not-a-length",
            Fault::NotAnUncertainty(_) => "not-an-uncertainty",
            Fault::NeverCloses { .. } => "never-closes",
            Fault::NominalNotALength => "nominal-not-a-length",
            Fault::NotAStroke(_) => "not-a-stroke",
        }
    }
}

/// No arm that a tape goes to is larger, in metres.
pub const MOST: f64 = 100.0;

/// The least and the largest standard uncertainty of a measurement, in metres.
const SD: std::ops::RangeInclusive<f64> = 1e-5..=10.0;

impl Survey {
    /// What keeps the survey from being reckoned with at all.
    pub(super) fn refusal(&self) -> Option<Fault> {
        let nominal = self.nominal.to_list();
        if !nominal.iter().all(|number| number.abs() <= MOST) {
            return Some(Fault::NominalNotALength);
        }
        Joint::ALL.into_iter().find_map(|joint| {
            let ends = self.rams[joint.index()]?;
            let sound = ends.closed > 0.0 && ends.open > ends.closed && ends.open <= MOST;
            (!sound).then_some(Fault::NotAStroke(joint))
        })
    }

    /// What of the measurements cannot be used, each with its reason.
    pub fn faults(&self) -> Vec<Fault> {
        let distances = self.distances.iter().enumerate();
        let of_distances = distances.filter_map(|(at, taped)| taped.fault(at));
        let readings = self.readings.iter().enumerate();
        let of_readings = readings.filter_map(|(at, reading)| reading.fault(at));
        of_distances.chain(of_readings).collect()
    }
}

impl Taped {
    /// What keeps it from being used.
    pub(super) fn fault(&self, at: usize) -> Option<Fault> {
        let Some(body) = Body::of_both(self.from, self.to) else {
            return Some(Fault::NotRigid { distance: at });
        };
        let which = Which::Distance(at);
        let from_nothing = |pin| matches!(pin, Pin::Ground | Pin::SwingAxis);
        let signed = body == Body::Post && (from_nothing(self.from) || from_nothing(self.to));
        let sound = self.metres.abs() <= MOST && (signed || self.metres > 0.0);
        if !sound {
            Some(Fault::NotALength(which))
        } else if !SD.contains(&self.sd) {
            Some(Fault::NotAnUncertainty(which))
        } else {
            None
        }
    }
}

impl Reading {
    /// What keeps it from being used.
    pub(super) fn fault(&self, at: usize) -> Option<Fault> {
        for joint in Joint::ALL {
            let which = Which::Reading(at, Part::Ram(joint));
            let length = self.rams[joint.index()];
            let sound = length > 0.0 && length <= MOST;
            if !sound {
                return Some(Fault::NotALength(which));
            }
            if !(self.rams_sd == 0.0 || SD.contains(&self.rams_sd)) {
                return Some(Fault::NotAnUncertainty(which));
            }
        }
        let parts = [
            (Part::ToothHeight, self.tooth_height),
            (Part::Reach, self.reach),
        ];
        for (part, value) in parts {
            let which = Which::Reading(at, part);
            match value {
                Some(metres) if metres.is_nan() || metres.abs() > MOST => {
                    return Some(Fault::NotALength(which));
                }
                Some(_) if !SD.contains(&self.tooth_sd) => {
                    return Some(Fault::NotAnUncertainty(which));
                }
                _ => {}
            }
        }
        None
    }
}
