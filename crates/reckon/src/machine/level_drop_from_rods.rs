//! How far an oil level falls because rods have come out.

use core::f64::consts::PI;

use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "machine.level_drop_from_rods" tries level_drop_from_rods;
    inputs {
        rod_diameters: list ["mm"] 1.0, 1000.0;
        strokes: list ["mm"] -10000.0, 10000.0;
        tank_length: number ["mm"] 10.0, 10000.0;
        tank_width: number ["mm"] 10.0, 10000.0;
    }
    outputs |r| { oil_taken ["L"] = r.litres, drop ["mm"] = r.millimetres }
    source { "Volume of a cylinder over the plan area of a tank with upright walls", 0, "", Definition }
}

/// What rods that move take from the tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelDrop {
    /// Oil taken from the tank, L; negative where it comes back.
    pub litres: f64,
    /// How far the level falls, mm; negative where it rises.
    pub millimetres: f64,
}

/// The level's fall when rods move out of their barrels.
///
/// - `rod_diameters` \[mm\], `strokes` \[mm\]: for each ram, its rod and how far it moved out since the pose the mark
///   belongs to; inwards is negative. Twins are listed twice.
/// - `tank_length`, `tank_width` \[mm\]: plan of the tank at the height of the mark.
///
/// Formula: oil = sum of pi / 4 x d^2 x stroke; drop = oil / (length x width). A rod that leaves its barrel leaves room
/// that oil must fill, whichever side is fed.
///
/// Range: rams with one rod; a tank with upright walls; the oil's temperature unchanged.
///
/// # Errors
/// `WrongCount` where the two lists differ in length.
///
/// Source: definition.
pub fn level_drop_from_rods(
    rod_diameters: &[f64],
    strokes: &[f64],
    tank_length: f64,
    tank_width: f64,
) -> Result<LevelDrop, Refusal> {
    if strokes.len() != rod_diameters.len() {
        return Err(Refusal::WrongCount {
            input: "strokes",
            count: strokes.len(),
        });
    }
    let cubic_millimetres: f64 = rod_diameters
        .iter()
        .zip(strokes)
        .map(|(diameter, stroke)| PI / 4.0 * diameter * diameter * stroke)
        .sum();
    Ok(LevelDrop {
        litres: cubic_millimetres / 1e6,
        millimetres: cubic_millimetres / (tank_length * tank_width),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_rams_of_a_small_backhoe_out() {
        let rods = [45.0, 45.0, 40.0, 45.0, 45.0, 40.0, 40.0];
        let strokes = [700.0, 650.0, 550.0, 500.0, 500.0, 600.0, 600.0];
        let drop = level_drop_from_rods(&rods, &strokes, 400.0, 300.0).unwrap();
        assert!((drop.litres - 5.94).abs() < 0.005);
        assert!((drop.millimetres - 49.5).abs() < 0.05);
    }

    #[test]
    fn rods_that_go_in_raise_the_level() {
        let rise = level_drop_from_rods(&[45.0], &[-700.0], 400.0, 300.0).unwrap();
        assert!(rise.millimetres < 0.0 && rise.litres < 0.0);
        assert!(level_drop_from_rods(&[45.0], &[], 400.0, 300.0).is_err());
    }
}
