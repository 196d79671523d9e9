//! What is probably shut in in each ram of a parked arm, and which way of parking shuts in least.

use crate::arm::force::Statics;
use crate::arm::shape::{ArmShape, Joint, Side};

/// What the load alone shuts in in one ram. Estimated: both sides may carry more, cancelling each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShutIn {
    /// The thrust the ram holds, in newtons.
    pub thrust: f64,
    /// The side that is squeezed.
    pub side: Side,
    /// The pressure there, in pascals, the other side at nothing.
    pub pressure: f64,
}

/// A parked arm, ram by ram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parked {
    /// Boom, dipper, bucket.
    pub rams: [ShutIn; 3],
}

impl Parked {
    /// The arm hanging free, or with the boom locked by its pin: then its ram carries nothing, and the other two
    /// exactly what they did, for they only feel what is outboard of them.
    pub fn hanging(shape: &ArmShape, statics: &Statics, boom_pinned: bool) -> Parked {
        let mut thrusts = statics.hanging;
        if boom_pinned {
            thrusts[0] = 0.0;
        }
        Parked::with_thrusts(shape, thrusts)
    }

    /// The arm with these thrusts in its rams, in newtons.
    pub fn with_thrusts(shape: &ArmShape, thrusts: [f64; 3]) -> Parked {
        Parked {
            rams: Joint::ALL.map(|joint| {
                let thrust = thrusts[joint.index()];
                let (side, pressure) = shape.ram(joint).pressure_for(thrust);
                ShutIn {
                    thrust,
                    side,
                    pressure,
                }
            }),
        }
    }

    /// The highest pressure of the three, in pascals.
    pub fn highest(&self) -> f64 {
        self.rams.iter().map(|ram| ram.pressure).fold(0.0, f64::max)
    }
}

/// The ways of parking in order, the one with the lowest highest pressure first; equal ones stay in their order.
///
/// A ranking by pressure alone. Where the machine book gives an order of resting, that order stands.
pub fn least_shut_in(ways: &[Parked]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..ways.len()).collect();
    order.sort_by(|one, other| ways[*one].highest().total_cmp(&ways[*other].highest()));
    order
}

/// The rise of pressure in oil that is shut in on **both** ports, in pascals.
///
/// - `warming`: kelvin. `expansion`: of the oil, by volume, 1/K (mineral oil 7e-4). `stiffness`: bulk modulus, pascals.
///
/// dp = expansion x stiffness x warming, about 11 bar for each kelvin, walls taken as stiff. A load-held ram with one
/// free side does not do this: the oil lifts the load instead.
///
/// Source: Rabie, Fluid Power Engineering (2009), section 2.2.4, expansion, read; stiffness 1.6 GPa from memory.
pub fn heat_pressure(warming: f64, expansion: f64, stiffness: f64) -> f64 {
    expansion * stiffness * warming
}
