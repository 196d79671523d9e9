//! The arm in one pose: every pin in the arm plane, every lever, and where each ram stands in its stroke.

use crate::arm::shape::{ArmShape, BarPose, Grip, Joint, ShapeTrouble, Stop, Vector};

/// The arm in one pose. Points in P: r from the swing axis, z over the ground, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Length, angle and lever of each ram.
    pub grips: [Grip; 3],
    /// Where each ram stands in its stroke. Nothing is clamped: a pose beyond the stroke is given, and said to be so.
    pub stops: [Stop; 3],
    /// The direction of boom, dipper and bucket, as unit vectors.
    pub along: [Vector; 3],
    /// What each joint turns about: foot pin, dipper pin, bucket pin.
    pub pivots: [Vector; 3],
    /// The tooth's tip.
    pub tooth: Vector,
    /// The heel of the bucket.
    pub heel: Vector,
    /// Barrel pin of each ram.
    pub barrels: [Vector; 3],
    /// Rod pin of each ram; the bucket ram's is the pin it shares with lever and link.
    pub rods: [Vector; 3],
    /// The lever's pin on the dipper.
    pub lever_pin: Vector,
    /// The link's pin on the bucket.
    pub link_pin: Vector,
    /// The bucket's linkage, in the dipper's frame.
    pub bars: BarPose,
}

impl Placed {
    /// The pose with the rams of boom, dipper and bucket at these lengths, in metres.
    ///
    /// # Errors
    /// Where a triangle or the linkage does not close at this length.
    pub fn at_lengths(shape: &ArmShape, lengths: [f64; 3]) -> Result<Self, ShapeTrouble> {
        let boom = shape.boom_triangle.at_length(Joint::Boom, lengths[0])?;
        let dipper = shape.dipper_triangle.at_length(Joint::Dipper, lengths[1])?;
        let bars = shape.linkage.at_length(lengths[2])?;
        Ok(placed(shape, boom, dipper, bars))
    }

    /// The pose with the joints at these angles, in radians: boom over level, dipper against boom, bucket against dipper.
    ///
    /// # Errors
    /// Where the bucket's linkage does not close at its angle, or a ram has no length.
    pub fn at_angles(shape: &ArmShape, angles: [f64; 3]) -> Result<Self, ShapeTrouble> {
        let boom = shape.boom_triangle.at_angle(Joint::Boom, angles[0])?;
        let dipper = shape.dipper_triangle.at_angle(Joint::Dipper, angles[1])?;
        let bars = shape.linkage.at_angle(angles[2])?;
        Ok(placed(shape, boom, dipper, bars))
    }

    /// The ram lengths, in metres.
    pub fn lengths(&self) -> [f64; 3] {
        self.grips.map(|grip| grip.length)
    }

    /// The angles of the joints, in radians.
    pub fn angles(&self) -> [f64; 3] {
        self.grips.map(|grip| grip.angle)
    }

    /// Metres of ram for a radian of its joint, with sign.
    pub fn levers(&self) -> [f64; 3] {
        self.grips.map(|grip| grip.lever)
    }

    /// True where every ram is within its stroke.
    pub fn within_travel(&self) -> bool {
        self.stops
            .iter()
            .all(|stop| !matches!(stop, Stop::TooShort(_) | Stop::TooLong(_)))
    }

    /// A point of the bucket's frame, in P.
    pub fn on_bucket(&self, point: Vector) -> Vector {
        self.pivots[2] + point.turned(self.along[2])
    }

    /// The unit direction in which a point moves when this joint alone turns the arm inwards (clockwise), reversed: the
    /// direction of the force that stands against it. i (T - pivot) / |T - pivot|.
    ///
    /// Nothing where the point lies on the pivot.
    pub fn against(&self, joint: Joint, point: Vector) -> Option<Vector> {
        let radius = point - self.pivots[joint.index()];
        let length = radius.length();
        (length > 0.0).then(|| radius.quarter() * (1.0 / length))
    }
}

fn placed(shape: &ArmShape, boom: Grip, dipper: Grip, bars: BarPose) -> Placed {
    let along_boom = Vector::at_angle(boom.angle);
    let along_dipper = along_boom.turned(Vector::at_angle(dipper.angle));
    let along_bucket = along_dipper.turned(Vector::at_angle(bars.grip.angle));
    let dipper_pin = shape.foot + along_boom * shape.boom_length;
    let bucket_pin = dipper_pin + along_dipper * shape.dipper_length;
    let on_dipper = |point: Vector| dipper_pin + point.turned(along_dipper);
    let linkage = &shape.linkage;
    let barrels = [
        shape.foot + shape.boom_triangle.barrel(),
        dipper_pin + shape.dipper_triangle.barrel().turned(along_boom),
        on_dipper(linkage.barrel()),
    ];
    let rods = [
        shape.foot + shape.boom_triangle.rod().turned(along_boom),
        on_dipper(shape.dipper_triangle.rod()),
        on_dipper(bars.shared),
    ];
    let grips = [boom, dipper, bars.grip];
    Placed {
        grips,
        stops: Joint::ALL.map(|joint| shape.ram(joint).stop_at(grips[joint.index()].length)),
        along: [along_boom, along_dipper, along_bucket],
        pivots: [shape.foot, dipper_pin, bucket_pin],
        tooth: bucket_pin + along_bucket * shape.bucket.tip_radius,
        heel: bucket_pin + shape.bucket.heel.turned(along_bucket),
        barrels,
        rods,
        lever_pin: on_dipper(linkage.lever_pin()),
        link_pin: on_dipper(bars.link_pin),
        bars,
    }
}
