//! The geometry a survey is after: pins of each link in the link's own frame, as names and as a list of unknowns.

use super::pin::{Body, Pin};
use crate::arm::shape::{ArmShape, FourBar, Triangle, Turns, Vector};

/// How many numbers the geometry of an arm is.
pub const UNKNOWNS: usize = 23;

// Places in the list of unknowns; a pin takes two, r then z.
pub(super) const FOOT: usize = 0;
pub(super) const BOOM_BARREL: usize = 2;
pub(super) const BOOM_ROD: usize = 4;
pub(super) const DIPPER_BARREL: usize = 6;
pub(super) const BOOM_LENGTH: usize = 8;
pub(super) const DIPPER_ROD: usize = 9;
pub(super) const BUCKET_BARREL: usize = 11;
pub(super) const LEVER_PIN: usize = 13;
pub(super) const DIPPER_LENGTH: usize = 15;
pub(super) const LINK_PIN: usize = 16;
pub(super) const TIP_RADIUS: usize = 18;
pub(super) const HEEL: usize = 19;
pub(super) const LEVER: usize = 21;
pub(super) const LINK: usize = 22;

/// Where every pin is, in metres, each in the frame of its link.
///
/// P: r from the swing axis, z over the ground. B: origin foot pin, r to the dipper's pin. D: origin dipper's pin, r to the
/// bucket's pin. K: origin bucket's pin, r to the tooth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geometry {
    /// The boom's foot pin, in P.
    pub foot: Vector,
    /// The boom ram's barrel pin, in P.
    pub boom_barrel: Vector,
    /// The boom ram's rod pin, in B.
    pub boom_rod: Vector,
    /// The dipper ram's barrel pin, in B.
    pub dipper_barrel: Vector,
    /// Foot pin to dipper pin.
    pub boom_length: f64,
    /// The dipper ram's rod pin, in D.
    pub dipper_rod: Vector,
    /// The bucket ram's barrel pin, in D.
    pub bucket_barrel: Vector,
    /// The lever's pin, in D.
    pub lever_pin: Vector,
    /// Dipper pin to bucket pin.
    pub dipper_length: f64,
    /// The link's pin on the bucket, in K.
    pub link_pin: Vector,
    /// Bucket pin to tooth.
    pub tip_radius: f64,
    /// The heel, in K.
    pub heel: Vector,
    /// Lever's pin to the shared pin.
    pub lever: f64,
    /// Shared pin to the link's pin on the bucket.
    pub link: f64,
}

/// Which of the mirror assemblies the arm is: no distance tells, one look does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Assembly {
    /// Which way the boom turns when its ram gets longer.
    pub boom: Turns,
    /// Which way the dipper turns against the boom when its ram gets longer.
    pub dipper: Turns,
    /// The three sides of the bucket's linkage that fix it: shared pin on the left of the way from lever's pin to link's
    /// pin, on the left of the way from ram's barrel to lever's pin; link's pin on the left of bucket's pin to shared pin.
    pub linkage: [bool; 3],
}

/// The ends of a ram's stroke, pin to pin, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamEnds {
    /// Fully in.
    pub closed: f64,
    /// Fully out.
    pub open: f64,
}

impl Geometry {
    /// The geometry of an arm.
    pub fn of(shape: &ArmShape) -> Self {
        let bar = &shape.linkage;
        Geometry {
            foot: shape.foot,
            boom_barrel: shape.foot + shape.boom_triangle.barrel(),
            boom_rod: shape.boom_triangle.rod(),
            dipper_barrel: shape.dipper_triangle.barrel() + Vector::new(shape.boom_length, 0.0),
            boom_length: shape.boom_length,
            dipper_rod: shape.dipper_triangle.rod(),
            bucket_barrel: bar.barrel(),
            lever_pin: bar.lever_pin(),
            dipper_length: shape.dipper_length,
            link_pin: bar.link_on_bucket(),
            tip_radius: shape.bucket.tip_radius,
            heel: shape.bucket.heel,
            lever: bar.lever(),
            link: bar.link(),
        }
    }

    /// As a list, in the order of the fields, r before z.
    pub fn to_list(&self) -> [f64; UNKNOWNS] {
        let two = |pin: Vector| [pin.r, pin.z];
        let mut list = [0.0; UNKNOWNS];
        let pins = [
            (FOOT, self.foot),
            (BOOM_BARREL, self.boom_barrel),
            (BOOM_ROD, self.boom_rod),
            (DIPPER_BARREL, self.dipper_barrel),
            (DIPPER_ROD, self.dipper_rod),
            (BUCKET_BARREL, self.bucket_barrel),
            (LEVER_PIN, self.lever_pin),
            (LINK_PIN, self.link_pin),
            (HEEL, self.heel),
        ];
        for (at, pin) in pins {
            list[at..at + 2].copy_from_slice(&two(pin));
        }
        list[BOOM_LENGTH] = self.boom_length;
        list[DIPPER_LENGTH] = self.dipper_length;
        list[TIP_RADIUS] = self.tip_radius;
        list[LEVER] = self.lever;
        list[LINK] = self.link;
        list
    }

    /// The geometry that this list is: the inverse of [`Geometry::to_list`].
    pub fn from_list(list: &[f64; UNKNOWNS]) -> Self {
        let pin = |at: usize| Vector::new(list[at], list[at + 1]);
        Geometry {
            foot: pin(FOOT),
            boom_barrel: pin(BOOM_BARREL),
            boom_rod: pin(BOOM_ROD),
            dipper_barrel: pin(DIPPER_BARREL),
            boom_length: list[BOOM_LENGTH],
            dipper_rod: pin(DIPPER_ROD),
            bucket_barrel: pin(BUCKET_BARREL),
            lever_pin: pin(LEVER_PIN),
            dipper_length: list[DIPPER_LENGTH],
            link_pin: pin(LINK_PIN),
            tip_radius: list[TIP_RADIUS],
            heel: pin(HEEL),
            lever: list[LEVER],
            link: list[LINK],
        }
    }

    /// The first of a list that may be longer.
    pub(super) fn from_start(list: &[f64]) -> Self {
        let mut own = [f64::NAN; UNKNOWNS];
        for (place, value) in own.iter_mut().zip(list) {
            *place = *value;
        }
        Geometry::from_list(&own)
    }

    /// The boom's triangle.
    pub fn boom_triangle(&self, turns: Turns) -> Triangle {
        Triangle::new(self.boom_barrel - self.foot, self.boom_rod, turns)
    }

    /// The dipper's triangle.
    pub fn dipper_triangle(&self, turns: Turns) -> Triangle {
        let barrel = self.dipper_barrel - Vector::new(self.boom_length, 0.0);
        Triangle::new(barrel, self.dipper_rod, turns)
    }

    /// The bucket's linkage.
    pub fn four_bar(&self, sides: [bool; 3]) -> FourBar {
        let bucket_pin = Vector::new(self.dipper_length, 0.0);
        let pins = [self.bucket_barrel, self.lever_pin, bucket_pin];
        FourBar::assembled(pins, self.lever, self.link, self.link_pin, sides)
    }

    /// This arm with this geometry instead of its own; rams, weights and gravity stay.
    pub fn into_shape(&self, assembly: Assembly, mut arm: ArmShape) -> ArmShape {
        arm.foot = self.foot;
        arm.boom_length = self.boom_length;
        arm.dipper_length = self.dipper_length;
        arm.bucket.tip_radius = self.tip_radius;
        arm.bucket.heel = self.heel;
        arm.boom_triangle = self.boom_triangle(assembly.boom);
        arm.dipper_triangle = self.dipper_triangle(assembly.dipper);
        arm.linkage = self.four_bar(assembly.linkage);
        arm
    }
}

/// Where an end stands in the frame of a body: for r and z the place of the unknown, or nothing for the zero of the frame.
pub(super) fn place(pin: Pin, body: Body) -> [Option<usize>; 2] {
    let both = |at: usize| [Some(at), Some(at + 1)];
    let along = |at: usize| [Some(at), None];
    match (body, pin) {
        (Body::Post, Pin::BoomFoot) => both(FOOT),
        (_, Pin::BoomRamBarrel) => both(BOOM_BARREL),
        (_, Pin::BoomRamRod) => both(BOOM_ROD),
        (_, Pin::DipperRamBarrel) => both(DIPPER_BARREL),
        (Body::Boom, Pin::DipperPin) => along(BOOM_LENGTH),
        (_, Pin::DipperRamRod) => both(DIPPER_ROD),
        (_, Pin::BucketRamBarrel) => both(BUCKET_BARREL),
        (Body::Dipper, Pin::LeverPin) => both(LEVER_PIN),
        (Body::Dipper, Pin::BucketPin) => along(DIPPER_LENGTH),
        (Body::Bucket, Pin::LinkPin) => both(LINK_PIN),
        (_, Pin::Tooth) => along(TIP_RADIUS),
        (_, Pin::Heel) => both(HEEL),
        (Body::Lever, Pin::LinkagePin) => along(LEVER),
        (Body::Link, Pin::LinkPin) => along(LINK),
        _ => [None, None],
    }
}
