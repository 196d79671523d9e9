//! A vector of the arm plane, and where two circles meet.

use std::ops::{Add, Mul, Neg, Sub};

use libm::atan2;

/// A vector of the arm plane: `r` outwards, `z` up. Also the turn it stands for, where its length is 1.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector {
    /// Outwards from the swing axis.
    pub r: f64,
    /// Up.
    pub z: f64,
}

impl Vector {
    /// The vector of these two parts.
    pub const fn new(r: f64, z: f64) -> Self {
        Vector { r, z }
    }

    /// The unit vector at this angle, from r towards z, in radians.
    pub fn at_angle(angle: f64) -> Self {
        let (sine, cosine) = libm::sincos(angle);
        Vector::new(cosine, sine)
    }

    /// Its angle from r towards z, in radians, in (-pi, pi].
    pub fn angle(self) -> f64 {
        atan2(self.z, self.r)
    }

    /// Its length.
    #[inline]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The scalar product.
    #[inline]
    pub fn dot(self, other: Vector) -> f64 {
        self.r * other.r + self.z * other.z
    }

    /// The cross product: positive where the other lies counter-clockwise of this one.
    #[inline]
    pub fn cross(self, other: Vector) -> f64 {
        self.r * other.z - self.z * other.r
    }

    /// Turned by a quarter turn counter-clockwise: the velocity of a point that turns with 1 rad/s.
    #[inline]
    pub fn quarter(self) -> Self {
        Vector::new(-self.z, self.r)
    }

    /// Turned by the angle of a unit vector (the product of complex numbers).
    #[inline]
    pub fn turned(self, unit: Vector) -> Self {
        Vector::new(
            self.r * unit.r - self.z * unit.z,
            self.r * unit.z + self.z * unit.r,
        )
    }

    /// Turned back by the angle of a unit vector.
    #[inline]
    pub fn turned_back(self, unit: Vector) -> Self {
        Vector::new(
            self.r * unit.r + self.z * unit.z,
            self.z * unit.r - self.r * unit.z,
        )
    }

    /// True where both parts are finite.
    pub fn is_finite(self) -> bool {
        self.r.is_finite() && self.z.is_finite()
    }
}

impl Add for Vector {
    type Output = Vector;
    #[inline]
    fn add(self, other: Vector) -> Vector {
        Vector::new(self.r + other.r, self.z + other.z)
    }
}

impl Sub for Vector {
    type Output = Vector;
    #[inline]
    fn sub(self, other: Vector) -> Vector {
        Vector::new(self.r - other.r, self.z - other.z)
    }
}

impl Neg for Vector {
    type Output = Vector;
    #[inline]
    fn neg(self) -> Vector {
        Vector::new(-self.r, -self.z)
    }
}

impl Mul<f64> for Vector {
    type Output = Vector;
    #[inline]
    fn mul(self, factor: f64) -> Vector {
        Vector::new(self.r * factor, self.z * factor)
    }
}

/// An angle brought into (-pi, pi]: differences of angles land up to a whole turn off.
pub fn wrapped(angle: f64) -> f64 {
    use std::f64::consts::PI;
    let turned = angle % (2.0 * PI);
    if turned > PI {
        turned - 2.0 * PI
    } else if turned <= -PI {
        turned + 2.0 * PI
    } else {
        turned
    }
}

/// Where two circles meet: the point on the left of the way from the first centre to the second, or on its right.
///
/// Without angles: with d from one centre to the other, a = (r1^2 - r2^2 + d^2) / (2 d^2) and
/// b = sqrt(r1^2 / d^2 - a^2) the points are first + a d +- b d turned by a quarter.
///
/// Nothing where the circles do not meet or share their centre: nothing is ever clamped.
///
/// Source: plane geometry, definition.
pub fn circles_meet(
    first: Vector,
    first_radius: f64,
    second: Vector,
    second_radius: f64,
    on_the_left: bool,
) -> Option<Vector> {
    let way = second - first;
    let square = way.dot(way);
    let along =
        (first_radius * first_radius - second_radius * second_radius + square) / (2.0 * square);
    let across_square = first_radius * first_radius / square - along * along;
    if !(across_square >= 0.0 && along.is_finite()) {
        return None;
    }
    let across = across_square.sqrt();
    let across = if on_the_left { across } else { -across };
    Some(first + way * along + way.quarter() * across)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn circles_meet_on_the_side_asked_for() {
        // The triangle 3, 4, 5 on its longest side: the height is 12/5.
        let far = Vector::new(5.0, 0.0);
        let left = circles_meet(Vector::default(), 3.0, far, 4.0, true).unwrap();
        let right = circles_meet(Vector::default(), 3.0, far, 4.0, false).unwrap();
        assert!((left.r - 1.8).abs() < 1e-15 && (left.z - 2.4).abs() < 1e-15);
        assert!((right.r - 1.8).abs() < 1e-15 && (right.z + 2.4).abs() < 1e-15);
    }

    #[test]
    fn circles_that_do_not_meet_give_nothing() {
        let (here, far) = (Vector::default(), Vector::new(5.0, 0.0));
        assert_eq!(circles_meet(here, 1.0, far, 1.0, true), None);
        assert_eq!(circles_meet(here, 9.0, far, 1.0, true), None);
        assert_eq!(circles_meet(here, 1.0, here, 1.0, true), None);
        assert_eq!(circles_meet(here, f64::NAN, far, 1.0, true), None);
    }

    #[test]
    fn angles_are_brought_within_half_a_turn() {
        use std::f64::consts::PI;
        assert!((wrapped(2.0 * PI + 0.3) - 0.3).abs() < 1e-15);
        assert!((wrapped(-1.5 * PI) - 0.5 * PI).abs() < 1e-15);
        assert_eq!(wrapped(PI), PI);
        assert_eq!(wrapped(-PI), PI);
    }
}
