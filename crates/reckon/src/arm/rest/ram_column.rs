//! The thrust at which a ram would buckle. A teaching figure.

use super::column::{RamColumn, rankine};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.ram_column" tries ram_column;
    inputs {
        rod: number ["mm"] 1.0, 1000.0;
        bore: number ["mm"] 0.0, 1000.0;
        tube: number ["mm"] 1.0, 1200.0;
        to_gland: number ["mm"] 1.0, 20000.0;
        length: number ["mm"] 10.0, 30000.0;
        elasticity: number ["MPa"] 1000.0, 1000000.0;
        yield_stress: number ["MPa"] 10.0, 5000.0;
    }
    outputs |r| { critical ["kN"] = r.critical, rod_alone ["kN"] = r.rod_alone, squash ["kN"] = r.squash, short ["kN"] = r.short }
    source { "Euler's column of two parts with pinned ends, by derivation; Rankine", 0, "", Memory }
}

/// A ram as a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColumnLoads {
    /// Where tube and rod together would buckle, kN.
    pub critical: f64,
    /// Where a column of the rod's section would, over the whole length: less than the real one, kN.
    pub rod_alone: f64,
    /// Where the rod's steel yields all over, kN.
    pub squash: f64,
    /// Rankine's load, for rams too short to buckle before they yield, kN.
    pub short: f64,
}

/// The thrust at which a straight ram of this length would buckle.
///
/// - `rod`, `bore`, `tube` \[mm\]: diameters, the tube's outside. `to_gland` \[mm\]: barrel pin to gland.
/// - `length` \[mm\]: pin to pin. `elasticity` \[MPa\]: steel 206 000. `yield_stress` \[MPa\]: of the rod.
///
/// Formula: the smallest root of k1 cos(k1 l1) sin(k2 l2) + k2 cos(k2 l2) sin(k1 l1) = 0; see [`RamColumn`].
///
/// Range: straight, new, tight. Play, weight and loads beside the axis take most of it away: published practice takes a
/// factor of 3 to 5.
///
/// # Errors
/// "no-column" where the gland lies beyond the rod's pin or a size is none.
///
/// Source: by derivation, checked with finite differences; Rankine, from memory.
pub fn ram_column(
    rod: f64,
    bore: f64,
    tube: f64,
    to_gland: f64,
    length: f64,
    elasticity: f64,
    yield_stress: f64,
) -> Result<ColumnLoads, Refusal> {
    // Newtons, millimetres and megapascals go together.
    let column = RamColumn {
        rod,
        bore,
        tube,
        to_gland,
        elasticity,
    };
    let critical = column
        .critical(length)
        .ok_or(Refusal::Contradiction { what: "no-column" })?;
    let squash = column.squash(yield_stress);
    Ok(ColumnLoads {
        critical: critical / 1000.0,
        rod_alone: column.rod_only(length) / 1000.0,
        squash: squash / 1000.0,
        short: rankine(critical, squash) / 1000.0,
    })
}
