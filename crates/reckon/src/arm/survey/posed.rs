//! Where the tooth is for three ram lengths, with its exact derivative by every pin and every length.

use super::geometry::{
    Assembly, BOOM_BARREL, BOOM_LENGTH, BOOM_ROD, BUCKET_BARREL, DIPPER_BARREL, DIPPER_LENGTH,
    DIPPER_ROD, FOOT, Geometry, LEVER, LEVER_PIN, LINK, LINK_PIN, TIP_RADIUS, UNKNOWNS,
};
use crate::arm::shape::{Joint, ShapeTrouble, Triangle, Turns, Vector, circles_meet};

/// The numbers a tooth's place depends on: the geometry's and three ram lengths.
pub(super) const INPUTS: usize = UNKNOWNS + 3;

/// The tooth in one pose.
#[derive(Debug, Clone, PartialEq)]
pub struct PosedTooth {
    /// Where it is, in P.
    pub tooth: Vector,
    /// How it moves with each number of [`Geometry::to_list`], then with the three ram lengths: metres for a metre.
    pub by: Vec<Vector>,
}

/// One joint: the unit vector of its outer link seen from the inner one, and how its angle moves, in radians a metre.
struct Turned {
    along: Vector,
    by: [f64; INPUTS],
}

impl Geometry {
    /// The tooth with the rams at these lengths, and how it moves with everything it depends on.
    ///
    /// Each closure is differentiated as it stands, without forming an angle: |R b - A| = L gives
    /// u . iRb dtheta = dL - u . R db + u . dA, with u along the ram; the linkage likewise, first for the shared pin
    /// (two lengths), then for the bucket (one).
    ///
    /// # Errors
    /// Where a triangle or the linkage does not close, or stands on a dead centre.
    pub fn tooth(
        &self,
        assembly: &Assembly,
        lengths: [f64; 3],
    ) -> Result<PosedTooth, ShapeTrouble> {
        let boom = self.boom_turned(assembly.boom, lengths[0])?;
        let dipper = self.dipper_turned(assembly.dipper, lengths[1])?;
        let bucket = self.bucket_turned(assembly.linkage, lengths[2])?;
        let along_dipper = boom.along.turned(dipper.along);
        let along_bucket = along_dipper.turned(bucket.along);
        let dipper_pin = self.foot + boom.along * self.boom_length;
        let bucket_pin = dipper_pin + along_dipper * self.dipper_length;
        let tooth = bucket_pin + along_bucket * self.tip_radius;
        let about = [self.foot, dipper_pin, bucket_pin].map(|pivot| (tooth - pivot).quarter());
        let mut by: Vec<Vector> = (0..INPUTS)
            .map(|at| about[0] * boom.by[at] + about[1] * dipper.by[at] + about[2] * bucket.by[at])
            .collect();
        let straight = [
            (FOOT, Vector::new(1.0, 0.0)),
            (FOOT + 1, Vector::new(0.0, 1.0)),
            (BOOM_LENGTH, boom.along),
            (DIPPER_LENGTH, along_dipper),
            (TIP_RADIUS, along_bucket),
        ];
        for (at, moved) in straight {
            by[at] = by[at] + moved;
        }
        Ok(PosedTooth { tooth, by })
    }

    fn boom_turned(&self, turns: Turns, length: f64) -> Result<Turned, ShapeTrouble> {
        let triangle = self.boom_triangle(turns);
        let at = [BOOM_BARREL, BOOM_ROD, UNKNOWNS];
        let (mut turned, by_barrel) = turned(&triangle, Joint::Boom, length, at)?;
        // The barrel is seen from the foot pin.
        turned.by[FOOT] -= by_barrel.r;
        turned.by[FOOT + 1] -= by_barrel.z;
        Ok(turned)
    }

    fn dipper_turned(&self, turns: Turns, length: f64) -> Result<Turned, ShapeTrouble> {
        let triangle = self.dipper_triangle(turns);
        let at = [DIPPER_BARREL, DIPPER_ROD, UNKNOWNS + 1];
        let (mut turned, by_barrel) = turned(&triangle, Joint::Dipper, length, at)?;
        // The barrel is seen from the dipper's pin, which lies at the boom's length.
        turned.by[BOOM_LENGTH] -= by_barrel.r;
        Ok(turned)
    }

    fn bucket_turned(&self, sides: [bool; 3], length: f64) -> Result<Turned, ShapeTrouble> {
        let pose = self.four_bar(sides).at_length(length)?;
        let pivot = Vector::new(self.dipper_length, 0.0);
        let crank = pose.link_pin - pivot;
        let ram = (pose.shared - self.bucket_barrel) * (1.0 / length);
        let arm = (pose.shared - self.lever_pin) * (1.0 / self.lever);
        let link = (pose.link_pin - pose.shared) * (1.0 / self.link);
        let along = turn_between(self.link_pin, crank);
        let grip = link.dot(crank.quarter());
        let spread = ram.cross(arm);
        let (by_ram, by_arm) = (
            link.cross(arm) / (spread * grip),
            ram.cross(link) / (spread * grip),
        );
        let mut by = [0.0; INPUTS];
        by[UNKNOWNS + 2] = by_ram;
        by[LEVER] = by_arm;
        by[LINK] = 1.0 / grip;
        by[DIPPER_LENGTH] = -link.r / grip;
        set(&mut by, BUCKET_BARREL, ram * by_ram);
        set(&mut by, LEVER_PIN, arm * by_arm);
        set(&mut by, LINK_PIN, link.turned_back(along) * (-1.0 / grip));
        sound(Turned { along, by }, Joint::Bucket)
    }
}

/// The outer link of a triangle whose ram is this long; `at` holds the places of barrel, rod and length. Beside it how
/// the angle moves with the barrel.
fn turned(
    triangle: &Triangle,
    joint: Joint,
    length: f64,
    at: [usize; 3],
) -> Result<(Turned, Vector), ShapeTrouble> {
    let (barrel, rod) = (triangle.barrel(), triangle.rod());
    let open = ShapeTrouble::TriangleOpen {
        joint,
        length,
        between: triangle.between(),
    };
    let left = triangle.turns() == Turns::CounterClockwise;
    let pin = circles_meet(Vector::default(), rod.length(), barrel, length, left).ok_or(open)?;
    let along = turn_between(rod, pin);
    let ram = (pin - barrel) * (1.0 / length);
    let grip = ram.dot(pin.quarter());
    let by_barrel = ram * (1.0 / grip);
    let mut by = [0.0; INPUTS];
    set(&mut by, at[0], by_barrel);
    set(&mut by, at[1], ram.turned_back(along) * (-1.0 / grip));
    by[at[2]] = 1.0 / grip;
    Ok((sound(Turned { along, by }, joint)?, by_barrel))
}

/// The unit vector of the turn that takes one vector onto another of the same length.
fn turn_between(from: Vector, to: Vector) -> Vector {
    to.turned_back(from) * (1.0 / from.dot(from))
}

fn set(by: &mut [f64; INPUTS], at: usize, value: Vector) {
    by[at] = value.r;
    by[at + 1] = value.z;
}

/// A joint that turns by more than this for a metre, in radians, has a lever shorter than a tenth of a millimetre.
const DEAD: f64 = 1e4;

/// On a dead centre, or so near to one that nothing measured means anything there, there is no rate.
fn sound(turned: Turned, joint: Joint) -> Result<Turned, ShapeTrouble> {
    let alive = turned.along.is_finite() && turned.by.iter().all(|rate| rate.abs() <= DEAD);
    if alive {
        Ok(turned)
    } else {
        Err(ShapeTrouble::DeadCentre { joint })
    }
}
