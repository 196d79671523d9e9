//! Bending and twisting of the boom's box section under a sideways force at the tooth. A teaching figure.

use crate::arm::pose::Placed;
use crate::arm::shape::Vector;

/// A welded box section of the boom, square to it. Cracks, old repairs and welds are not in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoomBox {
    /// Where its middle lies in the boom's frame.
    pub place: Vector,
    /// Outer height and width, in metres.
    pub height: f64,
    /// Outer width.
    pub width: f64,
    /// Thickness of the plates above and below, in metres.
    pub flange: f64,
    /// Thickness of the side plates.
    pub web: f64,
}

/// What a sideways force at the tooth does to one section: sizes, without sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideStress {
    /// Moment that bends the boom sideways, in newton metres.
    pub bending: f64,
    /// Moment that twists it. With the bucket well below the boom it is the larger of the two.
    pub torsion: f64,
    /// Stress along the boom at the outer fibre, in pascals.
    pub normal: f64,
    /// Shear stress of the twist.
    pub shear: f64,
    /// Both taken together.
    pub mises: f64,
}

impl BoomBox {
    /// Second moment of area for sideways bending, in m^4: the outer rectangle less the hollow.
    pub fn sideways(&self) -> f64 {
        let (height, width) = (self.height - 2.0 * self.flange, self.width - 2.0 * self.web);
        (self.height * self.width * self.width * self.width - height * width * width * width) / 12.0
    }

    /// The area within the middle lines of the plates, in square metres.
    pub fn enclosed(&self) -> f64 {
        (self.height - self.flange) * (self.width - self.web)
    }

    /// What this sideways force at the tooth does here, in newtons square to the arm plane.
    ///
    /// With (x, z) from the section to the tooth in the boom's frame: bending x F, torsion z F; stress M (b / 2) / I; shear
    /// T / (2 A_m t) with the thinner plate (Bredt); together sqrt(stress^2 + 3 shear^2).
    ///
    /// Source: theory of beams; Bredt's formula from memory.
    pub fn under_side_force(&self, placed: &Placed, force: f64) -> SideStress {
        let section = placed.pivots[0] + self.place.turned(placed.along[0]);
        let arm = (placed.tooth - section).turned_back(placed.along[0]);
        let (bending, torsion) = ((arm.r * force).abs(), (arm.z * force).abs());
        let normal = bending * self.width / 2.0 / self.sideways();
        let shear = torsion / (2.0 * self.enclosed() * self.flange.min(self.web));
        SideStress {
            bending,
            torsion,
            normal,
            shear,
            mises: (normal * normal + 3.0 * shear * shear).sqrt(),
        }
    }
}
