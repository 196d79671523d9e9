//! One ram or a pair working as one: sizes, pressures, weights, and the force they give.

use std::f64::consts::PI;

/// The rams of one joint. Several equal ones side by side count as one with their number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ram {
    /// How many equal rams stand side by side: 1 or 2.
    pub count: u8,
    /// Bore, in metres.
    pub bore: f64,
    /// Diameter of the rod, in metres.
    pub rod: f64,
    /// Pin to pin when fully in, in metres.
    pub closed: f64,
    /// Stroke, in metres.
    pub stroke: f64,
    /// Pressure the pump gives, in pascals.
    pub supply: f64,
    /// Port relief on the piston's side, in pascals.
    pub relief_cap: f64,
    /// Port relief on the rod's side, in pascals.
    pub relief_rod: f64,
    /// Pressure on the side that lets oil go, in pascals; 0 where it is not known to matter.
    pub back: f64,
    /// Weight of one barrel with its oil, in kilograms, and how far its centre lies from the barrel's pin, in metres.
    pub barrel: (f64, f64),
    /// Weight of one rod with its piston, in kilograms, and how far its centre lies from the rod's pin, in metres.
    pub rod_weight: (f64, f64),
}

/// The side of the piston that is squeezed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// The full side: the ram pushes.
    Cap,
    /// The side with the rod: the ram pulls.
    Rod,
}

/// Where a ram stands in its stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stop {
    /// Between its ends.
    Between,
    /// Fully in, to within 0.01 mm: the stop itself carries a pressing load, whatever the oil does.
    FullyIn,
    /// Fully out, to within 0.01 mm: the stop itself carries a pulling load, whatever the oil does.
    FullyOut,
    /// Shorter than it can be, by so many metres.
    TooShort(f64),
    /// Longer than it can be, by so many metres.
    TooLong(f64),
}

/// Within this distance of its end a ram is on its stop, in metres.
const ON_THE_STOP: f64 = 1e-5;

impl Ram {
    /// The full area of all pistons together, in square metres.
    pub fn cap_area(&self) -> f64 {
        f64::from(self.count) * PI / 4.0 * self.bore * self.bore
    }

    /// The area of all rods together, in square metres.
    pub fn rod_area(&self) -> f64 {
        f64::from(self.count) * PI / 4.0 * self.rod * self.rod
    }

    /// The area of all rings round the rods together, in square metres.
    pub fn ring_area(&self) -> f64 {
        self.cap_area() - self.rod_area()
    }

    /// Pin to pin when fully out, in metres.
    pub fn extended(&self) -> f64 {
        self.closed + self.stroke
    }

    /// What it can push and pull when the pump drives it, in newtons, both positive.
    ///
    /// `push = p A_cap - p_back A_ring`, `pull = p A_ring - p_back A_cap`. Source: force = pressure x area, definition.
    pub fn working(&self) -> (f64, f64) {
        let push = self.driven_to(self.relief_cap) * self.cap_area() - self.back * self.ring_area();
        let pull = self.driven_to(self.relief_rod) * self.ring_area() - self.back * self.cap_area();
        (push, pull)
    }

    /// The pressure the pump can raise on a side with this port relief, in pascals: a relief set below the pump's pressure opens
    /// first. Not-a-number where the pump's pressure is.
    fn driven_to(&self, relief: f64) -> f64 {
        if relief < self.supply {
            relief
        } else {
            self.supply
        }
    }

    /// What it can hold against being pushed in and pulled out, in newtons, both positive: the port relief of the
    /// side that is squeezed. A pressing load (thrust positive) squeezes the full side, a pulling one the rod's side.
    ///
    /// Source: SAE J1179, clause 3: holding circuit pressure, read in excerpts.
    pub fn holding(&self) -> (f64, f64) {
        let pressed = self.relief_cap * self.cap_area() - self.back * self.ring_area();
        let pulled = self.relief_rod * self.ring_area() - self.back * self.cap_area();
        (pressed, pulled)
    }

    /// The pressure that this thrust needs and on which side, in pascals, the other side at nothing.
    ///
    /// A gauge may show more: both sides may be shut in with pressures that cancel.
    pub fn pressure_for(&self, thrust: f64) -> (Side, f64) {
        if thrust >= 0.0 {
            (Side::Cap, thrust / self.cap_area())
        } else {
            (Side::Rod, -thrust / self.ring_area())
        }
    }

    /// The most the rod's side can reach when the full side is driven and the rod's side is shut: p A_cap / A_ring.
    ///
    /// Source: Sullivan, Fluid Power Theory and Applications, ex. 8.6 for the areas, read.
    pub fn intensified(&self, cap_pressure: f64) -> f64 {
        cap_pressure * self.cap_area() / self.ring_area()
    }

    /// Where this length stands in its stroke.
    pub fn stop_at(&self, length: f64) -> Stop {
        let (short, long) = (self.closed - length, length - self.extended());
        if short > ON_THE_STOP {
            Stop::TooShort(short)
        } else if long > ON_THE_STOP {
            Stop::TooLong(long)
        } else if short >= -ON_THE_STOP {
            Stop::FullyIn
        } else if long >= -ON_THE_STOP {
            Stop::FullyOut
        } else {
            Stop::Between
        }
    }

    /// The number at fault, where one is: sizes positive, the rod thinner than the bore, nothing infinite.
    pub(super) fn fault(&self) -> Option<&'static str> {
        let positive = [
            (self.bore, "bore"),
            (self.rod, "rod"),
            (self.closed, "closed-length"),
            (self.stroke, "stroke"),
        ];
        let not_negative = [
            (self.supply, "supply-pressure"),
            (self.relief_cap, "relief-cap"),
            (self.relief_rod, "relief-rod"),
            (self.back, "back-pressure"),
            (self.barrel.0, "barrel-weight"),
            (self.barrel.1, "barrel-centre"),
            (self.rod_weight.0, "rod-weight"),
            (self.rod_weight.1, "rod-centre"),
        ];
        let bad = |ok: bool, name| (!ok).then_some(name);
        positive
            .iter()
            .find_map(|&(value, name)| bad(value.is_finite() && value > 0.0, name))
            .or_else(|| {
                not_negative
                    .iter()
                    .find_map(|&(value, name)| bad(value.is_finite() && value >= 0.0, name))
            })
            .or_else(|| bad(self.rod < self.bore, "rod"))
            .or_else(|| bad(self.count >= 1, "count"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_relief_below_the_pumps_pressure_opens_first() {
        let ram = Ram {
            count: 1,
            bore: 0.1,
            rod: 0.05,
            closed: 1.0,
            stroke: 0.5,
            supply: 17.5e6,
            relief_cap: 10.0e6,
            relief_rod: 21.0e6,
            back: 0.0,
            barrel: (0.0, 0.0),
            rod_weight: (0.0, 0.0),
        };
        let (push, pull) = ram.working();
        assert!((push - 10.0e6 * ram.cap_area()).abs() < 1e-6);
        assert!((pull - 17.5e6 * ram.ring_area()).abs() < 1e-6);
        let unknown = Ram {
            supply: f64::NAN,
            ..ram
        };
        assert!(unknown.working().0.is_nan());
    }
}
