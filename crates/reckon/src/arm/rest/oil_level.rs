//! How high the oil stands in the tank for any pose and temperature.

use core::f64::consts::PI;

use super::tank::{Tank, TankRams, tank_level};
use crate::leaf::leaf;
use crate::refusal::Refusal;

leaf! {
    "arm.oil_level" tries oil_level;
    inputs {
        tank_area: number ["m²"] 0.001, 100.0;
        oil: number ["L"] 0.0, 100000.0;
        elsewhere: number ["L"] 0.0, 100000.0;
        expansion: number ["1/K"] 0.0, 0.01;
        counted_at: number ["°C"] -60.0, 150.0;
        temperature: number ["°C"] -60.0, 150.0;
        bores: list ["mm"] 1.0, 1000.0;
        rods: list ["mm"] 0.0, 1000.0;
        strokes: list ["mm"] 0.0, 20000.0;
        out: list ["mm"] 0.0, 20000.0;
    }
    outputs |r| { level ["mm"] = r.level, in_tank ["L"] = r.in_tank }
    source { "Volume of a cylinder; expansion of mineral oil: M. G. Rabie, Fluid Power Engineering", 2009, "p. 37", Read }
}

/// The oil in the tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilLevel {
    /// Over the tank's floor, mm.
    pub level: f64,
    /// In the tank, L.
    pub in_tank: f64,
}

/// The level of the oil over the tank's floor.
///
/// - `tank_area` \[m²\]: plan, upright walls. `oil` \[L\]: all oil of the system at `counted_at` \[°C\]; `elsewhere` \[L\]:
///   what stays in pump, valves, hoses, filters and attachments.
/// - `expansion` \[1/K\]: mineral oil 0.0007. `temperature` \[°C\]: of the oil now.
/// - `bores`, `rods`, `strokes`, `out` \[mm\]: ram by ram, twins twice; `out` is how far each is out now.
///
/// Formula: all oil, warmed, less ring x stroke + rod x out of each ram, less what is elsewhere; over the plan.
///
/// Range: not clamped: a level over the top or under the floor says that numbers do not fit together.
///
/// # Errors
/// `WrongCount` where the lists differ in length.
///
/// Source: volume of a cylinder, definition; expansion: Rabie 2009, p. 37, read.
#[expect(
    clippy::too_many_arguments,
    reason = "a tank and a list of rams, each number with its own name in the leaf"
)]
pub fn oil_level(
    tank_area: f64,
    oil: f64,
    elsewhere: f64,
    expansion: f64,
    counted_at: f64,
    temperature: f64,
    bores: &[f64],
    rods: &[f64],
    strokes: &[f64],
    out: &[f64],
) -> Result<OilLevel, Refusal> {
    for (input, list) in [("rods", rods), ("strokes", strokes), ("out", out)] {
        if list.len() != bores.len() {
            return Err(Refusal::WrongCount {
                input,
                count: list.len(),
            });
        }
    }
    let disc = |millimetres: f64| PI / 4e6 * millimetres * millimetres;
    let rams: Vec<TankRams> = (0..bores.len())
        .map(|ram| TankRams {
            cap: disc(bores[ram]),
            rod: disc(rods[ram]),
            stroke: strokes[ram] / 1000.0,
            out: out[ram] / 1000.0,
        })
        .collect();
    let tank = Tank {
        area: tank_area,
        oil: oil / 1000.0,
        elsewhere: elsewhere / 1000.0,
        expansion,
        reference: counted_at,
    };
    let level = tank_level(&tank, &rams, temperature);
    Ok(OilLevel {
        level: level * 1000.0,
        in_tank: level * tank_area * 1000.0,
    })
}
