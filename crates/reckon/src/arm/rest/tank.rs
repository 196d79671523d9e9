//! How high the oil stands in the tank for any pose, attachment and temperature.

use crate::arm::shape::Ram;

/// The tank and the oil of the whole system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tank {
    /// Plan area of the tank, in square metres; upright walls.
    pub area: f64,
    /// All oil of the system at the reference temperature, in cubic metres.
    pub oil: f64,
    /// Oil that stays in pump, valves, hoses and filters, in cubic metres.
    pub elsewhere: f64,
    /// Expansion of the oil by volume, 1/K (mineral oil 7e-4).
    pub expansion: f64,
    /// The temperature at which `oil` was counted, in degrees Celsius.
    pub reference: f64,
}

/// Rams and how far they are out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TankRams {
    /// Area of all pistons, in square metres.
    pub cap: f64,
    /// Area of all rods, in square metres.
    pub rod: f64,
    /// Stroke, in metres.
    pub stroke: f64,
    /// How far out, in metres.
    pub out: f64,
}

impl TankRams {
    /// The rams of one joint at this length.
    pub fn of(ram: &Ram, length: f64) -> Self {
        TankRams {
            cap: ram.cap_area(),
            rod: ram.rod_area(),
            stroke: ram.stroke,
            out: length - ram.closed,
        }
    }

    /// Oil in the rams, in cubic metres: A_cap x + A_ring (S - x) = A_ring S + A_rod x. Only the rods' volume moves the level.
    pub fn oil(&self) -> f64 {
        (self.cap - self.rod) * self.stroke + self.rod * self.out
    }
}

/// The level of the oil over the tank's floor, in metres, at this temperature in degrees Celsius.
///
/// Tank = V (1 + expansion (T - reference)) - oil in the rams - oil elsewhere; level = tank / area. Not clamped: a level
/// above the tank's top or below its floor says that oil and sizes do not fit together.
///
/// Source: volume of a cylinder, definition; expansion: Rabie (2009), p. 37, read.
pub fn tank_level(tank: &Tank, rams: &[TankRams], temperature: f64) -> f64 {
    let oil = tank.oil * (1.0 + tank.expansion * (temperature - tank.reference));
    let in_rams: f64 = rams.iter().map(TankRams::oil).sum();
    (oil - in_rams - tank.elsewhere) / tank.area
}
