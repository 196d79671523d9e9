//! A ram between two links that share a pin: one triangle.

use libm::acos;

use super::trouble::{Joint, ShapeTrouble};
use super::vector::{Vector, wrapped};

/// Which way the joint turns when the ram gets longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turns {
    /// From r towards z: a boom is raised.
    CounterClockwise,
    /// The other way: a boom is lowered, a dipper drawn in.
    Clockwise,
}

impl Turns {
    /// 1 for counter-clockwise, -1 for clockwise.
    pub fn sign(self) -> f64 {
        match self {
            Turns::CounterClockwise => 1.0,
            Turns::Clockwise => -1.0,
        }
    }
}

/// A ram between two links that share a pin.
///
/// `barrel` is the ram's pin on the inner link, seen from the shared pin in the inner link's frame; `rod` the pin on
/// the outer link, seen from the shared pin in the outer link's frame. Metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Triangle {
    barrel: Vector,
    rod: Vector,
    turns: Turns,
}

/// How a ram grips its joint in one pose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grip {
    /// The ram's length, in metres.
    pub length: f64,
    /// The joint's angle, in radians.
    pub angle: f64,
    /// Metres of ram for a radian of joint: the lever, with its sign. Positive where a longer ram turns it
    /// counter-clockwise.
    pub lever: f64,
}

impl Triangle {
    /// The triangle whose pins are these, assembled so that a longer ram turns the joint this way.
    pub fn new(barrel: Vector, rod: Vector, turns: Turns) -> Self {
        Triangle { barrel, rod, turns }
    }

    /// The triangle assembled as it is when the joint stands at about this angle.
    ///
    /// The pins alone allow two assemblies, one the mirror image of the other; either satisfies every distance. One
    /// look at the machine settles which: at any angle the joint can really take, on which side of the barrel's pin the
    /// rod's pin lies. Sign of cross(barrel, rod turned by the angle).
    pub fn near(barrel: Vector, rod: Vector, angle: f64) -> Self {
        let turned = rod.turned(Vector::at_angle(angle));
        let turns = if barrel.cross(turned) >= 0.0 {
            Turns::CounterClockwise
        } else {
            Turns::Clockwise
        };
        Triangle { barrel, rod, turns }
    }

    /// The barrel's pin.
    pub fn barrel(&self) -> Vector {
        self.barrel
    }

    /// The rod's pin.
    pub fn rod(&self) -> Vector {
        self.rod
    }

    /// Which way a longer ram turns the joint.
    pub fn turns(&self) -> Turns {
        self.turns
    }

    /// The shortest and the longest distance of the ram's pins, both of them dead centres.
    pub fn between(&self) -> (f64, f64) {
        let (a, b) = (self.barrel.length(), self.rod.length());
        ((a - b).abs(), a + b)
    }

    /// Angle and lever for a ram of this length.
    ///
    /// With a and b the distances of the shared pin to barrel and rod, `cos p = (a^2 + b^2 - L^2) / (2 a b)` and
    /// `dL/dp = a b sin p / L`, the distance of the shared pin from the ram's line.
    ///
    /// # Errors
    /// `TriangleOpen` where no such triangle exists; at a dead centre itself the lever is 0.
    ///
    /// Source: law of cosines, definition.
    pub fn at_length(&self, joint: Joint, length: f64) -> Result<Grip, ShapeTrouble> {
        let (a, b) = (self.barrel.length(), self.rod.length());
        let cosine = (a * a + b * b - length * length) / (2.0 * a * b);
        if !(cosine.abs() <= 1.0 && length > 0.0) {
            return Err(ShapeTrouble::TriangleOpen {
                joint,
                length,
                between: self.between(),
            });
        }
        let sign = self.turns.sign();
        let angle = self.barrel.angle() - self.rod.angle() + sign * acos(cosine);
        let sine = (1.0 - cosine * cosine).sqrt();
        Ok(Grip {
            length,
            angle: wrapped(angle),
            lever: sign * a * b * sine / length,
        })
    }

    /// Length and lever at this angle of the joint.
    ///
    /// The lever comes out with the sign of the side the rod's pin is on, so that beyond a dead centre it changes.
    ///
    /// # Errors
    /// `DeadCentre` where the two pins of the ram fall together.
    pub fn at_angle(&self, joint: Joint, angle: f64) -> Result<Grip, ShapeTrouble> {
        let rod = self.rod.turned(Vector::at_angle(angle));
        let ram = rod - self.barrel;
        let length = ram.length();
        if !(length > 0.0 && length.is_finite()) {
            return Err(ShapeTrouble::DeadCentre { joint });
        }
        Ok(Grip {
            length,
            angle: wrapped(angle),
            lever: ram.dot(rod.quarter()) / length,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RIGHT_ANGLED: Triangle = Triangle {
        barrel: Vector::new(4.0, 0.0),
        rod: Vector::new(3.0, 0.0),
        turns: Turns::CounterClockwise,
    };

    #[test]
    fn three_four_five() {
        let grip = RIGHT_ANGLED.at_length(Joint::Boom, 5.0).unwrap();
        assert!((grip.angle - std::f64::consts::FRAC_PI_2).abs() < 1e-15);
        assert!((grip.lever - 12.0 / 5.0).abs() < 1e-15);
        let back = RIGHT_ANGLED.at_angle(Joint::Boom, grip.angle).unwrap();
        assert!((back.length - 5.0).abs() < 1e-15 && (back.lever - 2.4).abs() < 1e-15);
    }

    #[test]
    fn the_mirror_turns_the_other_way() {
        let mirror = Triangle::new(RIGHT_ANGLED.barrel, RIGHT_ANGLED.rod, Turns::Clockwise);
        let grip = mirror.at_length(Joint::Boom, 5.0).unwrap();
        assert!((grip.angle + std::f64::consts::FRAC_PI_2).abs() < 1e-15);
        assert!((grip.lever + 12.0 / 5.0).abs() < 1e-15);
        assert_eq!(Triangle::near(mirror.barrel, mirror.rod, -1.0), mirror);
        assert_eq!(Triangle::near(mirror.barrel, mirror.rod, 1.0), RIGHT_ANGLED);
    }

    #[test]
    fn what_does_not_close_is_said_and_not_clamped() {
        for length in [0.5, 7.5, -5.0, f64::NAN] {
            let trouble = RIGHT_ANGLED.at_length(Joint::Dipper, length).unwrap_err();
            assert!(matches!(
                trouble,
                ShapeTrouble::TriangleOpen {
                    joint: Joint::Dipper,
                    between: (1.0, 7.0),
                    ..
                }
            ));
        }
        assert_eq!(RIGHT_ANGLED.at_length(Joint::Boom, 7.0).unwrap().lever, 0.0);
    }
}
