//! The whole arm: links, triangles, linkage, rams and weights, and the check that it all closes.

use super::four_bar::FourBar;
use super::ram::Ram;
use super::triangle::Triangle;
use super::trouble::{Joint, ShapeTrouble};
use super::vector::Vector;

/// Standard gravity, in metres a second squared (ISO 80000-3, by definition).
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// A weight and where its centre lies in its link's frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Weight {
    /// Mass, in kilograms.
    pub mass: f64,
    /// Centre of mass, in metres, in the frame of the link it belongs to.
    pub centre: Vector,
}

/// The bucket: where its tooth, heel and load are, in the bucket's frame (origin its pin, r to the tooth).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucketShape {
    /// Pin to tooth tip, in metres.
    pub tip_radius: f64,
    /// The heel: the back end of the bottom plate.
    pub heel: Vector,
    /// The bucket's own weight.
    pub weight: Weight,
    /// What lies in it.
    pub load: Weight,
}

/// The arm of one machine, with everything its mechanics need.
///
/// Frames: post frame P (arm plane at the arm's own swing angle: r from the swing axis, z over the ground); boom frame
/// B (origin foot pin, r to the dipper's pin); dipper frame D (origin dipper's pin, r to the bucket's pin); bucket frame
/// K (origin bucket's pin, r to the tooth). z is a quarter turn counter-clockwise of r in each.
#[derive(Debug, Clone, PartialEq)]
pub struct ArmShape {
    /// The boom's foot pin, in P.
    pub foot: Vector,
    /// Foot pin to dipper pin.
    pub boom_length: f64,
    /// Dipper pin to bucket pin.
    pub dipper_length: f64,
    /// The bucket.
    pub bucket: BucketShape,
    /// The boom ram: barrel pin in P **seen from the foot pin**, rod pin in B.
    pub boom_triangle: Triangle,
    /// The dipper ram: barrel pin in B **seen from the dipper pin**, rod pin in D.
    pub dipper_triangle: Triangle,
    /// The bucket's linkage, in D and K.
    pub linkage: FourBar,
    /// The rams of boom, dipper and bucket.
    pub rams: [Ram; 3],
    /// The boom's weight, in B.
    pub boom_weight: Weight,
    /// The dipper's weight, in D.
    pub dipper_weight: Weight,
    /// The lever's mass, and how far its centre lies from its pin towards the shared pin.
    pub lever_weight: (f64, f64),
    /// The link's mass, and how far its centre lies from the shared pin towards the bucket.
    pub link_weight: (f64, f64),
    /// Gravity, in metres a second squared: [`STANDARD_GRAVITY`] on this Earth.
    pub gravity: f64,
}

impl ArmShape {
    /// The ram of a joint.
    pub fn ram(&self, joint: Joint) -> &Ram {
        &self.rams[joint.index()]
    }

    /// The angle each joint has with its ram fully in and fully out, in radians: (in, out) for each.
    ///
    /// # Errors
    /// Where one end does not close.
    pub fn angles_at_the_ends(&self) -> Result<[(f64, f64); 3], ShapeTrouble> {
        let mut ends = [(0.0, 0.0); 3];
        for joint in Joint::ALL {
            let ram = self.ram(joint);
            let at = |length| self.angle_at(joint, length);
            ends[joint.index()] = (at(ram.closed)?, at(ram.extended())?);
        }
        Ok(ends)
    }

    /// The angle of one joint with its ram at this length, in radians.
    ///
    /// # Errors
    /// Where the pins do not allow this length.
    pub fn angle_at(&self, joint: Joint, length: f64) -> Result<f64, ShapeTrouble> {
        let grip = match joint {
            Joint::Boom => self.boom_triangle.at_length(joint, length)?,
            Joint::Dipper => self.dipper_triangle.at_length(joint, length)?,
            Joint::Bucket => self.linkage.at_length(length)?.grip,
        };
        Ok(grip.angle)
    }

    /// Everything that is wrong with the shape, all of it at once; nothing where it can be reckoned with over the whole
    /// stroke of every ram.
    pub fn troubles(&self) -> Vec<ShapeTrouble> {
        let mut troubles = Vec::new();
        for joint in Joint::ALL {
            if let Some(what) = self.ram(joint).fault() {
                troubles.push(ShapeTrouble::NotANumber { joint, what });
            }
        }
        for (joint, what, value) in self.must_be_positive() {
            if !(value.is_finite() && value > 0.0) {
                troubles.push(ShapeTrouble::NotANumber { joint, what });
            }
        }
        for (joint, what, value) in self.must_be_finite() {
            if !value.is_finite() {
                troubles.push(ShapeTrouble::NotANumber { joint, what });
            }
        }
        if troubles.is_empty() {
            self.open_or_dead(&mut troubles);
        }
        troubles
    }

    fn must_be_positive(&self) -> [(Joint, &'static str, f64); 8] {
        [
            (Joint::Boom, "boom-length", self.boom_length),
            (Joint::Boom, "ram-pin", self.boom_triangle.barrel().length()),
            (Joint::Boom, "ram-pin", self.boom_triangle.rod().length()),
            (Joint::Dipper, "dipper-length", self.dipper_length),
            (
                Joint::Dipper,
                "ram-pin",
                self.dipper_triangle.barrel().length(),
            ),
            (
                Joint::Dipper,
                "ram-pin",
                self.dipper_triangle.rod().length(),
            ),
            (Joint::Bucket, "tip-radius", self.bucket.tip_radius),
            (
                Joint::Bucket,
                "link-pin",
                self.linkage.link_on_bucket().length(),
            ),
        ]
    }

    fn must_be_finite(&self) -> [(Joint, &'static str, f64); 6] {
        let sum = |weight: &Weight| weight.mass + weight.centre.r + weight.centre.z;
        [
            (Joint::Boom, "foot", self.foot.r + self.foot.z),
            (Joint::Boom, "boom-weight", sum(&self.boom_weight)),
            (Joint::Dipper, "dipper-weight", sum(&self.dipper_weight)),
            (
                Joint::Bucket,
                "bucket-weight",
                sum(&self.bucket.weight) + sum(&self.bucket.load),
            ),
            (
                Joint::Bucket,
                "linkage-weight",
                self.lever_weight.0 + self.lever_weight.1 + self.link_weight.0 + self.link_weight.1,
            ),
            (Joint::Boom, "gravity", self.gravity),
        ]
    }

    /// Both ends of a triangle's stroke close, and between them the distance has no extreme: so the whole stroke does.
    fn open_or_dead(&self, troubles: &mut Vec<ShapeTrouble>) {
        let triangles = [
            (Joint::Boom, &self.boom_triangle),
            (Joint::Dipper, &self.dipper_triangle),
        ];
        for (joint, triangle) in triangles {
            let ram = self.ram(joint);
            for length in [ram.closed, ram.extended()] {
                match triangle.at_length(joint, length) {
                    Err(trouble) => troubles.push(trouble),
                    Ok(grip) if grip.lever == 0.0 => {
                        troubles.push(ShapeTrouble::DeadCentre { joint });
                    }
                    Ok(_) => {}
                }
            }
        }
        let over_stroke = self
            .linkage
            .trouble_over_stroke(self.ram(Joint::Bucket), 256);
        troubles.extend(over_stroke.map(|(_, trouble)| trouble));
    }
}
