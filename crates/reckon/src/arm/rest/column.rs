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
    /// stiffer section over the whole length, and below the load at which either part alone reaches half a wave: up to
    /// there `k1 cot(k1 l1) + k2 cot(k2 l2)` only falls, so that there is one root and it is the smallest.
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
        let euler = |stiffness: f64, length: f64| PI * PI * stiffness / (length * length);
        let low = euler(weak.min(stiff), length) * (1.0 - 1e-9);
        let high = (euler(weak.max(stiff), length) * (1.0 + 1e-9))
            .min(euler(weak, rod_length))
            .min(euler(stiff, self.to_gland));
        self.root_between(low, high, rod_length)
    }

    /// The root between two thrusts of opposite sign, by Ridders' method: as sure as halving, and far fewer steps.
    ///
    /// Source: Ridders, A new algorithm for computing a single root of a real continuous function, 1979, from memory.
    fn root_between(&self, mut low: f64, mut high: f64, rod_length: f64) -> Option<f64> {
        let (mut at_low, mut at_high) = (
            self.condition(low, rod_length),
            self.condition(high, rod_length),
        );
        let brackets = at_low > 0.0 && at_high <= 0.0;
        if !brackets {
            return None;
        }
        let mut before = low;
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            let at_middle = self.condition(middle, rod_length);
            let root = (at_middle * at_middle - at_low * at_high).sqrt();
            if root == 0.0 {
                return Some(middle);
            }
            let found = middle + (middle - low) * at_middle / root;
            let at_found = self.condition(found, rod_length);
            if at_found == 0.0 || (found - before).abs() <= 2.0 * f64::EPSILON * found {
                return Some(found);
            }
            before = found;
            for (place, value) in [(middle, at_middle), (found, at_found)] {
                if value > 0.0 && place > low {
                    (low, at_low) = (place, value);
                } else if value <= 0.0 && place < high {
                    (high, at_high) = (place, value);
                }
            }
        }
        Some(before)
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
    fn it_is_a_root_and_no_smaller_one_is_passed_over() {
        let length = 1.5;
        for tube in [0.07, 0.08, 0.14, 0.3] {
            for to_gland in [0.05, 0.4, 0.75, 1.1, 1.45] {
                let column = RamColumn {
                    rod: 0.05,
                    bore: 0.06,
                    tube,
                    to_gland,
                    elasticity: 206e9,
                };
                let critical = column.critical(length).unwrap();
                let at = |share: f64| column.condition(critical * share, length - to_gland);
                assert!(at(1.0 - 1e-9) > 0.0 && at(1.0 + 1e-9) < 0.0);
                assert!((1..400).all(|step| at(f64::from(step) / 400.0) > 0.0));
                assert!(critical >= column.rod_only(length) * (1.0 - 1e-9));
            }
        }
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
