//! What an oil level would be in the pose its mark belongs to.

use crate::leaf::leaf;

leaf! {
    "machine.level_at_reference" computes level_at_reference;
    inputs {
        over_mark: number ["mm"] -10000.0, 10000.0;
        drop: number ["mm"] -10000.0, 10000.0;
        tank_length: number ["mm"] 10.0, 10000.0;
        tank_width: number ["mm"] 10.0, 10000.0;
    }
    outputs |r| { over_mark_at_reference ["mm"] = r.millimetres, oil_over_mark ["L"] = r.litres }
    source { "A level and a volume in a tank with upright walls", 0, "", Definition }
}

/// A level as it would be in the pose of the mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelAtReference {
    /// Over the mark, mm; negative where under it.
    pub millimetres: f64,
    /// Oil over the mark, L; negative for what is missing.
    pub litres: f64,
}

/// Corrects a level read in one pose to the pose its mark belongs to.
///
/// - `over_mark` \[mm\]: the level as read, over the mark; negative where under it.
/// - `drop` \[mm\]: how far the level fell from the mark's pose to the pose it was read in
///   ([`super::level_drop_from_rods`]).
/// - `tank_length`, `tank_width` \[mm\]: plan of the tank at the height of the mark.
///
/// Formula: over mark at reference = over mark + drop; oil = that x length x width.
///
/// Range: a tank with upright walls.
///
/// Source: definition.
pub fn level_at_reference(
    over_mark: f64,
    drop: f64,
    tank_length: f64,
    tank_width: f64,
) -> LevelAtReference {
    let millimetres = over_mark + drop;
    LevelAtReference {
        millimetres,
        litres: millimetres * tank_length * tank_width / 1e6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn read_with_all_out_it_is_not_low() {
        let level = level_at_reference(-45.0, 49.5, 400.0, 300.0);
        assert!((level.millimetres - 4.5).abs() < 1e-9);
        let same_with_all_in = level_at_reference(-45.0, 0.0, 400.0, 300.0);
        assert!((same_with_all_in.litres + 5.4).abs() < 1e-9);
    }
}
