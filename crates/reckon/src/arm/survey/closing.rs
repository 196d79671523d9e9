//! Whether every triangle and the linkage close over the whole stroke.

use super::geometry::{Assembly, Geometry, RamEnds, UNKNOWNS};
use super::solved::Solved;
use crate::arm::shape::{Joint, ShapeTrouble, Vector};
use crate::refusal::Refusal;
use crate::sample::choose_lowest;

/// A part of a ram's stroke over which its joint does not close by these pins.
///
/// A real arm does close: over a few millimetres at the end the pins are that much off, over more one of them is wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NotClosing {
    /// What is the matter there.
    pub trouble: ShapeTrouble,
    /// The last length, going out from half way, at which all is well, in metres.
    pub closes_to: f64,
    /// How much of the stroke is missing beyond it, in metres; half the stroke where it does not close half way.
    pub missing: f64,
}

/// Whether a joint closes over its ram's whole stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Closing {
    /// It does.
    Whole,
    /// Not over a part of it.
    Part(NotClosing),
    /// Not to be said: the ends of the stroke are not known, or pins on which it depends are not determined.
    NotKnown,
}

/// Steps of half a stroke that are looked at, half a centimetre or so each.
const STEPS: u32 = 48;

/// What keeps this joint from being moved over its whole stroke, the worse end of the two; none where all is well.
pub(super) fn not_closing(
    geometry: &Geometry,
    assembly: &Assembly,
    joint: Joint,
    ends: RamEnds,
) -> Option<NotClosing> {
    let middle = 0.5 * (ends.closed + ends.open);
    let sides = match sides_of(geometry, assembly, joint, middle) {
        Ok(sides) => sides,
        Err(trouble) => {
            return Some(NotClosing {
                trouble,
                closes_to: middle,
                missing: ends.open - middle,
            });
        }
    };
    let well = |length: f64| -> Result<(), ShapeTrouble> {
        let here = sides_of(geometry, assembly, joint, length)?;
        let same = here.iter().zip(sides).all(|(now, then)| now * then > 0.0);
        same.then_some(()).ok_or(ShapeTrouble::DeadCentre { joint })
    };
    let outwards = [ends.closed, ends.open].map(|end| towards(middle, end, &well));
    let worse = |a: &NotClosing, b: &NotClosing| a.missing.total_cmp(&b.missing);
    outwards.into_iter().flatten().max_by(worse)
}

/// Goes from here to the end of the stroke and tells where it ceases to be well.
fn towards(
    middle: f64,
    end: f64,
    well: &impl Fn(f64) -> Result<(), ShapeTrouble>,
) -> Option<NotClosing> {
    let at = |step: u32| middle + (end - middle) * f64::from(step) / f64::from(STEPS);
    let (bad, trouble) =
        (1..=STEPS).find_map(|step| well(at(step)).err().map(|trouble| (step, trouble)))?;
    let (mut good, mut bad) = (at(bad - 1), at(bad));
    while (bad - good).abs() > 1e-6 {
        let between = 0.5 * (good + bad);
        if well(between).is_ok() {
            good = between;
        } else {
            bad = between;
        }
    }
    Some(NotClosing {
        trouble,
        closes_to: good,
        missing: (end - good).abs(),
    })
}

/// The lengths on which it depends whether a joint closes.
fn deciding(pins: &Geometry, joint: Joint) -> Vec<f64> {
    let along = |length: f64| Vector::new(length, 0.0);
    let bucket_pin = along(pins.dipper_length);
    match joint {
        Joint::Boom => vec![
            (pins.boom_barrel - pins.foot).length(),
            pins.boom_rod.length(),
        ],
        Joint::Dipper => vec![
            (pins.dipper_barrel - along(pins.boom_length)).length(),
            pins.dipper_rod.length(),
        ],
        Joint::Bucket => vec![
            (pins.lever_pin - pins.bucket_barrel).length(),
            (bucket_pin - pins.lever_pin).length(),
            (bucket_pin - pins.bucket_barrel).length(),
            pins.lever,
            pins.link,
            pins.link_pin.length(),
        ],
    }
}

/// Numbers that keep their signs as long as no dead centre is passed: of a triangle its lever, of the linkage the sines
/// between link and bucket's crank, ram and lever, link and lever.
fn sides_of(
    geometry: &Geometry,
    assembly: &Assembly,
    joint: Joint,
    length: f64,
) -> Result<[f64; 3], ShapeTrouble> {
    let triangle = match joint {
        Joint::Boom => geometry.boom_triangle(assembly.boom),
        Joint::Dipper => geometry.dipper_triangle(assembly.dipper),
        Joint::Bucket => {
            let pose = geometry.four_bar(assembly.linkage).at_length(length)?;
            let (lever, way) = (
                pose.shared - geometry.lever_pin,
                pose.link_pin - geometry.lever_pin,
            );
            return Ok([pose.link_grip, pose.ram_grip, way.cross(lever)]);
        }
    };
    triangle
        .at_length(joint, length)
        .map(|grip| [grip.lever; 3])
}

impl Geometry {
    /// True where every triangle and the linkage close over the whole stroke of these rams.
    pub fn closes_over(&self, assembly: &Assembly, rams: [RamEnds; 3]) -> bool {
        let mut joints = Joint::ALL.into_iter();
        joints.all(|joint| not_closing(self, assembly, joint, rams[joint.index()]).is_none())
    }

    /// The chance that the arm closes over the whole stroke of these rams, its pins being uncertain: the share of seeded
    /// draws of pins that do.
    ///
    /// - `covariance`: of the numbers of [`Geometry::to_list`], in square metres. `draws`, `seed`: as in [`crate::sample`].
    ///
    /// # Errors
    /// "covariance" where it is none of so many numbers; "draws" for fewer than 2 or more than a million.
    pub fn closing_chance(
        &self,
        (assembly, rams): (&Assembly, [RamEnds; 3]),
        covariance: &[Vec<f64>],
        (draws, seed): (usize, u64),
    ) -> Result<f64, Refusal> {
        // The first of two is the lower where the arm closes.
        let open_or_not = |drawn: &[f64]| {
            let closes = Geometry::from_start(drawn).closes_over(assembly, rams);
            vec![if closes { 0.0 } else { 2.0 }, 1.0]
        };
        let choice = choose_lowest(&self.to_list(), covariance, draws, seed, open_or_not)?;
        Ok(choice.shares[0])
    }
}

impl Solved {
    /// Whether this joint closes over its ram's whole stroke.
    pub(super) fn closes(&self, joint: Joint, ends: Option<RamEnds>) -> Closing {
        let sides = |pins: &Geometry| Some(deciding(pins, joint));
        let (Some(ends), Ok(_)) = (ends, self.spread_of(sides)) else {
            return Closing::NotKnown;
        };
        not_closing(&self.geometry, &self.assembly, joint, ends)
            .map_or(Closing::Whole, Closing::Part)
    }

    /// The chance that the arm as surveyed closes over the whole stroke of these rams.
    ///
    /// # Errors
    /// `NotKnown` where a pin is not determined: of that nothing can be drawn; else as [`Geometry::closing_chance`].
    pub fn closing_chance(
        &self,
        rams: [RamEnds; 3],
        (draws, seed): (usize, u64),
    ) -> Result<f64, Refusal> {
        if !self.complete() {
            return Err(Refusal::NotKnown { input: "pins" });
        }
        let row = |at: usize| {
            (0..UNKNOWNS)
                .map(|other| self.covariance(at, other))
                .collect()
        };
        let covariance: Vec<Vec<f64>> = (0..UNKNOWNS).map(row).collect();
        let arm = (&self.assembly, rams);
        self.geometry
            .closing_chance(arm, &covariance, (draws, seed))
    }
}
