//! The bucket's linkage: ram, lever, link and bucket, four bars round four pins, solved without a search.

use super::ram::Ram;
use super::triangle::Grip;
use super::trouble::{Joint, ShapeTrouble};
use super::vector::{Vector, circles_meet, wrapped};

/// The bucket's linkage. The ram's rod, the lever and the link share one pin.
///
/// Frame of the dipper: origin at the dipper's pin on the boom, r along to the bucket's pin. Metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FourBar {
    barrel: Vector,
    lever_pin: Vector,
    bucket_pin: Vector,
    lever: f64,
    link: f64,
    link_on_bucket: Vector,
    /// The shared pin lies on the left of the way from the lever's pin to the link's pin on the bucket.
    left_of_lever_to_link: bool,
    /// It lies on the left of the way from the ram's barrel to the lever's pin.
    left_of_barrel_to_lever: bool,
    /// The link's pin lies on the left of the way from the bucket's pin to the shared pin.
    link_left_of_bucket_to_shared: bool,
}

/// The linkage in one pose, in the dipper's frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarPose {
    /// Length, angle of the bucket, and metres of ram for a radian of bucket.
    pub grip: Grip,
    /// The pin that rod, lever and link share.
    pub shared: Vector,
    /// The link's pin on the bucket.
    pub link_pin: Vector,
    /// Radians of lever for a radian of bucket.
    pub lever_rate: f64,
    /// How far lever and link are from lying in line with the bucket's crank: the sine of the angle between link and
    /// crank, 0 at the dead centre where the link loses its grip on the bucket.
    pub link_grip: f64,
    /// The sine of the angle between ram and lever, 0 at the dead centre where the ram loses its grip on the lever.
    pub ram_grip: f64,
}

impl FourBar {
    /// The linkage assembled as it is when the bucket stands at about `angle` against the dipper.
    ///
    /// - `barrel`, `lever_pin`, `bucket_pin`: pins on the dipper, in its frame.
    /// - `lever`, `link`: lengths between their pins.
    /// - `link_on_bucket`: the link's pin on the bucket, in the bucket's frame (origin its pin, r to the tooth).
    /// - `shared_on_the_left`: looking from the lever's pin to the link's pin on the bucket, the shared pin lies on the
    ///   left. It does on arms that stretch towards +r with the linkage above them.
    ///
    /// The other two sides follow from that pose. All three are kept from then on, so that no pose can flip to the
    /// mirror assembly.
    ///
    /// # Errors
    /// `LinkageOpen` where lever and link do not meet at that angle.
    pub fn near(
        pins: [Vector; 3],
        lever: f64,
        link: f64,
        link_on_bucket: Vector,
        shared_on_the_left: bool,
        angle: f64,
    ) -> Result<Self, ShapeTrouble> {
        let [barrel, lever_pin, bucket_pin] = pins;
        let mut bar = FourBar {
            barrel,
            lever_pin,
            bucket_pin,
            lever,
            link,
            link_on_bucket,
            left_of_lever_to_link: shared_on_the_left,
            left_of_barrel_to_lever: true,
            link_left_of_bucket_to_shared: true,
        };
        let pose = bar.at_angle(angle)?;
        bar.left_of_barrel_to_lever = (lever_pin - barrel).cross(pose.shared - barrel) >= 0.0;
        bar.link_left_of_bucket_to_shared =
            (pose.shared - bucket_pin).cross(pose.link_pin - bucket_pin) >= 0.0;
        Ok(bar)
    }

    /// The linkage from pins, lengths and the three sides of its assembly.
    pub(in crate::arm) fn assembled(
        pins: [Vector; 3],
        lever: f64,
        link: f64,
        link_on_bucket: Vector,
        sides: [bool; 3],
    ) -> Self {
        let [barrel, lever_pin, bucket_pin] = pins;
        FourBar {
            barrel,
            lever_pin,
            bucket_pin,
            lever,
            link,
            link_on_bucket,
            left_of_lever_to_link: sides[0],
            left_of_barrel_to_lever: sides[1],
            link_left_of_bucket_to_shared: sides[2],
        }
    }

    /// The ram's barrel pin, in the dipper's frame.
    pub fn barrel(&self) -> Vector {
        self.barrel
    }

    /// The lever's pin, in the dipper's frame.
    pub fn lever_pin(&self) -> Vector {
        self.lever_pin
    }

    /// The bucket's pin, in the dipper's frame.
    pub fn bucket_pin(&self) -> Vector {
        self.bucket_pin
    }

    /// The lever's length.
    pub fn lever(&self) -> f64 {
        self.lever
    }

    /// The link's length.
    pub fn link(&self) -> f64 {
        self.link
    }

    /// The link's pin on the bucket, in the bucket's frame.
    pub fn link_on_bucket(&self) -> Vector {
        self.link_on_bucket
    }

    /// The three sides that fix the assembly, as -1 or 1: shared pin beside lever to link, beside barrel to lever, and
    /// link's pin beside bucket to shared pin.
    pub fn sides(&self) -> [f64; 3] {
        [
            self.left_of_lever_to_link,
            self.left_of_barrel_to_lever,
            self.link_left_of_bucket_to_shared,
        ]
        .map(|left| if left { 1.0 } else { -1.0 })
    }

    /// The pose at this angle of the bucket against the dipper, in radians.
    ///
    /// # Errors
    /// `LinkageOpen` where lever and link do not meet; `DeadCentre` where link and lever lie in line.
    pub fn at_angle(&self, angle: f64) -> Result<BarPose, ShapeTrouble> {
        let link_pin = self.bucket_pin + self.link_on_bucket.turned(Vector::at_angle(angle));
        let open = ShapeTrouble::LinkageOpen {
            length: None,
            angle: Some(angle),
        };
        let left = self.left_of_lever_to_link;
        let shared =
            circles_meet(self.lever_pin, self.lever, link_pin, self.link, left).ok_or(open)?;
        self.posed(angle, shared, link_pin)
    }

    /// The pose with the ram at this length.
    ///
    /// # Errors
    /// `LinkageOpen` where the ram does not reach the lever or the link not the bucket; `DeadCentre` as above.
    pub fn at_length(&self, length: f64) -> Result<BarPose, ShapeTrouble> {
        let open = ShapeTrouble::LinkageOpen {
            length: Some(length),
            angle: None,
        };
        let is_length = length > 0.0;
        if !is_length {
            return Err(open);
        }
        let left = self.left_of_barrel_to_lever;
        let shared =
            circles_meet(self.barrel, length, self.lever_pin, self.lever, left).ok_or(open)?;
        let crank = self.link_on_bucket.length();
        let left = self.link_left_of_bucket_to_shared;
        let link_pin = circles_meet(self.bucket_pin, crank, shared, self.link, left).ok_or(open)?;
        let angle = (link_pin - self.bucket_pin).angle() - self.link_on_bucket.angle();
        self.posed(angle, shared, link_pin)
    }

    /// Rates by the rigid link: (J - H) . (dJ - dH) = 0, with dH a turn about the bucket's pin and dJ about the lever's.
    fn posed(&self, angle: f64, shared: Vector, link_pin: Vector) -> Result<BarPose, ShapeTrouble> {
        let (link, arm, crank) = (
            shared - link_pin,
            shared - self.lever_pin,
            link_pin - self.bucket_pin,
        );
        let ram = shared - self.barrel;
        let length = ram.length();
        let across_lever = link.dot(arm.quarter());
        let dead = ShapeTrouble::DeadCentre {
            joint: Joint::Bucket,
        };
        if !(length > 0.0 && across_lever.abs() > f64::EPSILON * self.lever * self.link) {
            return Err(dead);
        }
        let lever_rate = link.dot(crank.quarter()) / across_lever;
        Ok(BarPose {
            grip: Grip {
                length,
                angle: wrapped(angle),
                lever: ram.dot(arm.quarter()) * lever_rate / length,
            },
            shared,
            link_pin,
            lever_rate,
            link_grip: link.dot(crank.quarter()) / (self.link * crank.length()),
            ram_grip: ram.dot(arm.quarter()) / (length * self.lever),
        })
    }

    /// The first ram length of the stroke at which the linkage does not close or passes a dead centre, looking at
    /// `steps` lengths from fully in to fully out; nothing where all is well.
    ///
    /// A dead centre shows as a change of sign of one of the three sines: between link and bucket's crank, ram and
    /// lever, link and lever.
    pub fn trouble_over_stroke(&self, ram: &Ram, steps: u32) -> Option<(f64, ShapeTrouble)> {
        let mut before: Option<[f64; 3]> = None;
        for step in 0..=steps {
            let length = ram.closed + ram.stroke * f64::from(step) / f64::from(steps.max(1));
            let pose = match self.at_length(length) {
                Ok(pose) => pose,
                Err(trouble) => return Some((length, trouble)),
            };
            let beside = (pose.link_pin - self.lever_pin).cross(pose.shared - self.lever_pin);
            let grips = [pose.link_grip, pose.ram_grip, beside];
            let flipped = before.is_some_and(|before| {
                grips
                    .iter()
                    .zip(before)
                    .any(|(now, before)| now * before <= 0.0)
            });
            if flipped {
                let joint = Joint::Bucket;
                return Some((length, ShapeTrouble::DeadCentre { joint }));
            }
            before = Some(grips);
        }
        None
    }
}
