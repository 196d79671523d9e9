//! The load at which a straight column of one section buckles.

use core::f64::consts::PI;

use crate::leaf::leaf;

leaf! {
    "machine.straight_column" computes straight_column;
    inputs {
        second_moment: number ["mm⁴"] 0.001, 1e13;
        area: number ["mm²"] 0.01, 1e8;
        effective_length: number ["mm"] 1.0, 1e6;
        elasticity: number ["MPa"] 100.0, 1e6;
        yield_stress: number ["MPa"] 1.0, 5000.0;
    }
    outputs |r| {
        slenderness ["1"] = r.slenderness,
        transition ["1"] = r.transition,
        euler ["kN"] = r.euler,
        critical ["kN"] = r.critical,
    }
    source { "T. H. Wentzell, Machine Design", 0, "ex. 3.5 and 3.6: Euler above the transition, Johnson below", Read }
}

/// A straight column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightColumn {
    /// Effective length over radius of gyration.
    pub slenderness: f64,
    /// The slenderness from which on Euler holds.
    pub transition: f64,
    /// Euler's load, kN.
    pub euler: f64,
    /// Euler's load above the transition, Johnson's below it, kN.
    pub critical: f64,
}

/// The load at which a straight column buckles.
///
/// - `second_moment` I \[mm⁴\] and `area` A \[mm²\] of the section; `effective_length` \[mm\]: pinned ends the whole length, one
///   end free twice, both clamped half of it; `elasticity` E, `yield_stress` \[MPa\].
///
/// Formula: r = sqrt(I / A), s = length / r; pi^2 E A / s^2 where s > sqrt(2 pi^2 E / yield), else
/// yield A (1 - yield s^2 / (4 pi^2 E)).
///
/// Range: straight, loaded along its middle.
///
/// Source: Wentzell, ex. 3.5 and 3.6, read.
pub fn straight_column(
    second_moment: f64,
    area: f64,
    effective_length: f64,
    elasticity: f64,
    yield_stress: f64,
) -> StraightColumn {
    let slenderness = effective_length / (second_moment / area).sqrt();
    let stiff = PI * PI * elasticity;
    let transition = (2.0 * stiff / yield_stress).sqrt();
    let square = slenderness * slenderness;
    let euler = stiff * area / square / 1000.0;
    let johnson = yield_stress * area / 1000.0 * (1.0 - yield_stress * square / (4.0 * stiff));
    StraightColumn {
        slenderness,
        transition,
        euler,
        critical: if slenderness > transition {
            euler
        } else {
            johnson
        },
    }
}
