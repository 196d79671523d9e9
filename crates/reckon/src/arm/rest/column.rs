//! A ram as a stepped column: the thrust at which it would buckle.

use std::f64::consts::PI;

use libm::sincos;

use crate::arm::shape::Ram;

/// What makes a ram a column: the sizes of tube and rod, and the steel.
///
/// A teaching figure. Play of the gland, loads beside the axis and the ram's own weight are not in it; published practice
/// takes a factor of 3 to 5 on plain Euler. Rods are bent by back-dragging, shocks, worn glands and at the end of the
/// stroke, where no relief opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RamColumn {
    /// Diameter of the rod, in metres.
    pub rod: f64,
    /// Bore, in metres.
    pub bore: f64,
    /// Outer diameter of the tube, in metres.
    pub tube: f64,
    /// From the barrel's pin to the gland, in metres: this much is as stiff as the tube.
    pub to_gland: f64,
    /// Young's modulus, in pascals (steel 206e9).
    pub elasticity: f64,
}

impl RamColumn {
    /// The column of one of these rams.
    pub fn of(ram: &Ram, tube: f64, to_gland: f64, elasticity: f64) -> Self {
        RamColumn {
            rod: ram.rod,
            bore: ram.bore,
            tube,
            to_gland,
            elasticity,
        }
    }

    fn rod_stiffness(&self) -> f64 {
        let square = self.rod * self.rod;
        self.elasticity * PI / 64.0 * square * square
    }

    fn tube_stiffness(&self) -> f64 {
        let (outer, inner) = (self.tube * self.tube, self.bore * self.bore);
        self.elasticity * PI / 64.0 * (outer * outer - inner * inner)
    }

    /// Euler's load of a column of the rod's section over the whole length, in newtons: safe, and less than the real one.
    pub fn rod_only(&self, length: f64) -> f64 {
        PI * PI * self.rod_stiffness() / (length * length)
    }

    /// The thrust at which a ram of this length between its pins would buckle, in newtons.
    ///
    /// With l1 = L - to_gland and l2 = to_gland, k = sqrt(P / E I) of each part: the smallest root of
    /// `k1 cos(k1 l1) sin(k2 l2) + k2 cos(k2 l2) sin(k1 l1) = 0`. It lies between Euler's loads of the weaker and of the
    /// stiffer section over the whole length; from the weaker up in steps of 2 % until the sign changes, then halved.
    ///
    /// Nothing where a size is none, or the gland lies beyond the rod's pin.
    ///
    /// Source: two prismatic parts with pinned ends, by derivation; ISO/TS 13725 goes further, read in its scope only.
    pub fn critical(&self, length: f64) -> Option<f64> {
        let (weak, stiff) = (self.rod_stiffness(), self.tube_stiffness());
        let rod_length = length - self.to_gland;
        let sizes = [weak, stiff, rod_length, self.to_gland, length];
        if !sizes.iter().all(|size| size.is_finite() && *size > 0.0) {
            return None;
        }
        let (weak, stiff) = (weak.min(stiff), weak.max(stiff));
        let euler = |stiffness: f64| PI * PI * stiffness / (length * length);
        let (mut low, end) = (euler(weak) * (1.0 - 1e-9), euler(stiff) * 1.03);
        let start = self.condition(low, rod_length);
        let mut high = low;
        while self.condition(high, rod_length) * start > 0.0 {
            low = high;
            high *= 1.02;
            if high > end {
                return None;
            }
        }
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if middle <= low || middle >= high {
                break;
            }
            if self.condition(middle, rod_length) * start > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(0.5 * (low + high))
    }

    fn condition(&self, thrust: f64, rod_length: f64) -> f64 {
        let k1 = (thrust / self.rod_stiffness()).sqrt();
        let k2 = (thrust / self.tube_stiffness()).sqrt();
        let (sine1, cosine1) = sincos(k1 * rod_length);
        let (sine2, cosine2) = sincos(k2 * self.to_gland);
        k1 * cosine1 * sine2 + k2 * cosine2 * sine1
    }

    /// The thrust at which the rod's steel yields all over, in newtons.
    pub fn squash(&self, yield_stress: f64) -> f64 {
        PI / 4.0 * self.rod * self.rod * yield_stress
    }
}

/// Rankine's load for rams too short to buckle before they yield: 1 / (1 / P_critical + 1 / P_squash), in newtons.
///
/// Source: Rankine, from memory.
pub fn rankine(critical: f64, squash: f64) -> f64 {
    1.0 / (1.0 / critical + 1.0 / squash)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_of_one_section_is_eulers() {
        // Tube of the rod's stiffness: outer diameter the rod's, bore next to nothing.
        let column = RamColumn {
            rod: 0.05,
            bore: 1e-9,
            tube: 0.05,
            to_gland: 0.7,
            elasticity: 206e9,
        };
        let critical = column.critical(1.5).unwrap();
        assert!((critical / column.rod_only(1.5) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_column_has_no_load() {
        let column = RamColumn {
            rod: 0.05,
            bore: 0.08,
            tube: 0.1,
            to_gland: 0.7,
            elasticity: 206e9,
        };
        assert_eq!(column.critical(0.6), None);
        assert_eq!(column.critical(f64::NAN), None);
        assert_eq!(
            RamColumn {
                tube: 0.07,
                ..column
            }
            .critical(1.5),
            None
        );
    }
}
